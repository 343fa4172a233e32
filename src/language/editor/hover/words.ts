/** Hover on keywords, units, conductor sizes and rule codes. */
import { RULES } from '../../../checks/rules.js';
import { toSi, UNITS, unitsOf } from '../../../vessel/units.js';
import { areaMm2, counterpart, sizeText } from '../../../vessel/conductors/sizes.js';
import type { AstNode } from 'langium';
import * as ast from '../../generated/ast.js';
import {
  CABLE_PROPERTIES,
  CLAUSES,
  DEVICE_PROPERTIES,
  MODEL_PROPERTIES,
  PORT_FEATURES,
  VESSEL_PROPERTIES,
} from '../../typing/properties.js';
import { LIBRARY_PROPERTIES } from '../../typing/library.js';
import { wireSize } from '../../lowering/quantity.js';
import { STATEMENTS } from '../../typing/statements.js';
import { bold, code, escape, type Card } from './card.js';

/** What a keyword means where it stands. */
export function keywordCard(word: string, node: AstNode): Card | undefined {
  const doc =
    tableFor(node)[word]?.doc ??
    CLAUSES[word]?.doc ??
    STATEMENTS[word]?.doc ??
    PORT_FEATURES[word]?.doc ??
    MODEL_PROPERTIES[word]?.doc;
  return doc === undefined ? undefined : { heading: code(word), lines: [doc] };
}

function tableFor(node: AstNode): Readonly<Record<string, { readonly doc: string }>> {
  if (ast.isPortFeature(node)) return PORT_FEATURES;
  if (
    ast.isSignalProperty(node) ||
    ast.isMediumProperty(node) ||
    ast.isClassProperty(node) ||
    ast.isExposureProperty(node) ||
    (ast.isFuseTypeProperty(node) && !ast.isIgnitionProperty(node))
  )
    return LIBRARY_PROPERTIES;
  if (ast.isVesselProperty(node)) return VESSEL_PROPERTIES;
  if (ast.isDeviceProperty(node)) return DEVICE_PROPERTIES;
  if (ast.isCableProperty(node) && !ast.isModelDecl(node.$container)) return CABLE_PROPERTIES;
  if (ast.isModelProperty(node)) return MODEL_PROPERTIES;
  if (ast.isStatement(node)) return STATEMENTS;
  return CLAUSES;
}

/** A quantity: its unit by name, and the value in other units. */
export function quantityCard(node: ast.Quantity | ast.Interval): Card | undefined {
  const { unit } = node;
  const known = unit === undefined ? undefined : UNITS.get(unit);
  if (!known || unit === undefined) return undefined;
  const value = ast.isQuantity(node) ? node.value : node.low;
  const others = unitsOf(known.dimension)
    .filter((symbol) => symbol !== unit)
    .map((symbol) => [symbol, toSi(Number(value), unit) / (UNITS.get(symbol)?.factor ?? 1)] as const)
    .filter(([, amount]) => amount >= 0.01 && amount < 1e6)
    .map(([symbol, amount]) => `${Number(amount.toPrecision(4))} ${symbol}`);
  return {
    heading: bold(node.$cstNode?.text ?? ''),
    lines: [known.name, ast.isQuantity(node) && others.length > 0 ? `= ${others.join(' = ')}` : ''],
  };
}

/** A conductor size: its area, and the next size of the other standard. */
export function wireCard(node: ast.WireSize): Card | undefined {
  const size = wireSize(node);
  const area = size && areaMm2(size);
  if (!size || area === undefined) return undefined;
  const other = counterpart(size);
  const lines = [size.standard === 'AWG' ? `${area.toPrecision(4)} mm2 nominal (ASTM B258).` : ''];
  if (other) lines.push(`The next size of the other standard that is no thinner: ${sizeText(other)}.`);
  return { heading: bold(sizeText(size)), lines };
}

export function ruleCard(rule: string): Card | undefined {
  const info = RULES.find((r) => r.code === rule);
  return (
    info && { heading: code(rule), lines: [escape(info.summary), info.waivable ? '' : "It can't be waived."] }
  );
}
