/** Hover on keywords, units, conductor sizes and rule codes. */
import { RULES } from '../../../checks/rules.js';
import { AWG_SIZES, METRIC_SIZES, toSi, UNITS, unitsOf } from '../../../vessel/units.js';
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

/**
 * Area of an AWG size in mm2 (ASTM B258: the diameter is 0.005 in x 92^((36-n)/39)).
 */
export function awgAreaMm2(size: string): number {
  const aught = /^([1-4])\/0$/.exec(size);
  const n = aught ? 1 - Number(aught[1]) : Number(size);
  const diameterMm = 0.127 * 92 ** ((36 - n) / 39);
  return (Math.PI / 4) * diameterMm ** 2;
}

/** A conductor size, with its area and the nearest size of the other standard. */
export function wireCard(node: ast.WireSize): Card | undefined {
  if (node.unit === 'AWG') {
    const area = awgAreaMm2(node.value);
    const metric = METRIC_SIZES.find((size) => Number(size) >= area * 0.98);
    return {
      heading: bold(`${node.value} AWG`),
      lines: [
        `${area.toPrecision(4)} mm2 nominal (ASTM B258).`,
        metric === undefined ? '' : `The next metric size that is no smaller: ${metric} mm2.`,
      ],
    };
  }
  if (node.unit === 'mm2') {
    const awg = AWG_SIZES.find((size) => awgAreaMm2(size) >= Number(node.value) * 0.98);
    return {
      heading: bold(`${node.value} mm2`),
      lines: [
        awg === undefined
          ? ''
          : `The next gauge that is no smaller: ${awg} AWG (${awgAreaMm2(awg).toPrecision(4)} mm2).`,
      ],
    };
  }
  return undefined;
}

export function ruleCard(rule: string): Card | undefined {
  const info = RULES.find((r) => r.code === rule);
  return (
    info && { heading: code(rule), lines: [escape(info.summary), info.waivable ? '' : "It can't be waived."] }
  );
}
