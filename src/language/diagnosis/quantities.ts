/** Type errors of quantities: dimension, unit, value. */
import type { AstNode } from 'langium';
import {
  DIMENSION_NAMES,
  dimensionOf,
  isCurrency,
  METRIC_SIZES,
  AWG_SIZES,
  SANE,
  toSi,
  UNITS,
  unitsOf,
  USUAL_UNIT,
  type Dimension,
} from '../../vessel/units.js';
import * as ast from '../generated/ast.js';
import { libraryFiles } from '../generated/library.js';
import { nearest } from '../naming/nearest.js';
import type { Problem } from '../project/report.js';
import { expectationOf, type Expectation } from '../typing/expect.js';
import { capital, either, placeOf, problem, replaceFix } from './problem.js';

/** Dimensions in which zero, or a value past the general bounds, has a use of its own. */
const SPECIAL: Readonly<Record<string, { readonly low: number; readonly high: number }>> = {
  peukert: { low: 1, high: 2 },
  screen: { low: 0.02, high: 3 },
  compass: { low: 0, high: 10 },
  capacity: { low: 0.1, high: 100_000 },
  resistance: { low: 0, high: 1e6 },
};

/** Words that follow a rating; where its unit is missing, they are taken for it. */
const FUSE_TYPES = new Set(
  libraryFiles.flatMap(({ text }) => [...text.matchAll(/^fusetype\s+(\w+)/gm)].map((match) => match[1])),
);

/** Quantities that must be more than nothing. */
const POSITIVE = new Set<Dimension>(['voltage', 'frequency', 'charge', 'resistance']);

export function quantityProblems(node: AstNode): Problem[] {
  switch (node.$type) {
    case 'Quantity':
      return check(node as ast.Quantity, (node as ast.Quantity).value, undefined);
    case 'Interval':
      return check(node as ast.Interval, (node as ast.Interval).low, (node as ast.Interval).high);
    case 'WireSize':
      return wireProblems(node as ast.WireSize);
    default:
      return [];
  }
}

function check(node: ast.Quantity | ast.Interval, low: string, high: string | undefined): Problem[] {
  const expected = expectationOf(node);
  if (!expected || expected.wants.length === 0 || low === undefined) return [];
  const { unit } = node;
  const usual = expected.wants[0] ?? 'number';
  if (unit === undefined) {
    if (expected.wants.includes('number')) return valueProblems(node, expected, 'number', low, high, '');
    const suggestion = usual === 'money' ? 'USD' : USUAL_UNIT[usual];
    const text = `${node.$cstNode?.text ?? low} ${suggestion}`;
    return [
      problem(
        'type/unit',
        `${expected.what} wants ${names(expected)}, and this number has no unit. Write, say, "${text}".`,
        placeOf(node),
        {
          fixes: [replaceFix(`Add the unit: ${text}`, placeOf(node), text)],
        },
      ),
    ];
  }
  const dimension = dimensionOf(unit);
  if (dimension === undefined) {
    if (ast.isProtection(node.$container) && node.$containerProperty === 'amps' && FUSE_TYPES.has(unit))
      return [
        problem('type/unit', `A rating has its unit: "${low} A ${unit}".`, placeOf(node), {
          fixes: [replaceFix(`Write ${low} A ${unit}`, placeOf(node), `${low} A ${unit}`)],
        }),
      ];
    const fitting = expected.wants.flatMap(unitsOf);
    const meant = nearest(unit, fitting) ?? fitting.find((u) => u.toLowerCase() === unit.toLowerCase());
    const message = `There is no unit "${unit}". ${expected.what} wants ${names(expected)}, in ${either(fitting.slice(0, 6))}.${meant ? ` Did you mean "${meant}"?` : ''}`;
    return [
      problem('type/unit', message, placeOf(node, 'unit'), {
        fixes: meant ? [replaceFix(`Change to ${meant}`, placeOf(node, 'unit'), meant)] : [],
      }),
    ];
  }
  if (expected.wants.includes('number') && !expected.wants.includes(dimension))
    return [
      problem(
        'type/dimension',
        `${expected.what} wants a bare number, this is ${DIMENSION_NAMES[dimension]}. Leave the unit out.`,
        placeOf(node),
      ),
    ];
  if (!expected.wants.includes(dimension)) {
    const example = usual === 'money' ? 'USD' : USUAL_UNIT[usual];
    return [
      problem(
        'type/dimension',
        `${expected.what} wants ${names(expected)}, this is ${DIMENSION_NAMES[dimension]}. ${capital(DIMENSION_NAMES[usual])} is written in ${either(unitsOf(usual).slice(0, 4)) || example}.`,
        placeOf(node),
      ),
    ];
  }
  return valueProblems(node, expected, dimension, low, high, unit);
}

const names = (expected: Expectation): string =>
  either(expected.wants.map((dimension) => DIMENSION_NAMES[dimension]));

function valueProblems(
  node: ast.Quantity | ast.Interval,
  expected: Expectation,
  dimension: Dimension,
  low: string,
  high: string | undefined,
  unit: string,
): Problem[] {
  const bounds = SPECIAL[expected.what] ?? SANE[dimension];
  const si = (text: string): number => (unit === '' ? Number(text) : toSi(Number(text), unit));
  const at = (message: string): Problem[] => [problem('type/value-range', message, placeOf(node))];
  const written = (): string => node.$cstNode?.text ?? low;
  if (high !== undefined && Number(high) < Number(low))
    return at(`The range ${written()} is upside down: write the lower figure first.`);
  for (const text of high === undefined ? [low] : [low, high]) {
    const value = si(text);
    const negative = ast.isQuantity(node) && node.negative;
    if (!Number.isFinite(value) || value > bounds.high || value < bounds.low)
      return at(
        `${written()} is no value for ${expected.what} that a boat has: it lies outside ${show(bounds.low, unit)} to ${show(bounds.high, unit)}. Check the figure and its unit.`,
      );
    if (value === 0 && POSITIVE.has(dimension) && !negative)
      return at(`${expected.what} can't be nothing: ${written()}. Leave it out if it is not known.`);
  }
  return [];
}

function show(si: number, unit: string): string {
  const factor = UNITS.get(unit)?.factor ?? 1;
  return `${Number((si / factor).toPrecision(3))}${unit === '' ? '' : ` ${unit}`}`;
}

function wireProblems(node: ast.WireSize): Problem[] {
  if (node.value === undefined) return [];
  const { unit } = node;
  if (unit === undefined)
    return [
      problem(
        'type/unit',
        `A conductor size has its unit: "${node.value} AWG" or "${node.value} mm2".`,
        placeOf(node),
      ),
    ];
  if (unit !== 'AWG' && unit !== 'mm2') {
    const dimension = dimensionOf(unit);
    if (dimension !== undefined || isCurrency(unit))
      return [
        problem(
          'type/dimension',
          `wire wants a conductor size, this is ${DIMENSION_NAMES[dimension ?? 'money']}. Write it in AWG or mm2.`,
          placeOf(node),
        ),
      ];
    const meant = nearest(unit, ['AWG', 'mm2']);
    return [
      problem(
        'type/unit',
        `There is no unit "${unit}" of conductor sizes: write AWG or mm2.`,
        placeOf(node, 'unit'),
        {
          fixes: meant ? [replaceFix(`Change to ${meant}`, placeOf(node, 'unit'), meant)] : [],
        },
      ),
    ];
  }
  const sizes: readonly string[] = unit === 'AWG' ? AWG_SIZES : METRIC_SIZES;
  const value = Number(node.value);
  const outside =
    unit === 'AWG'
      ? !sizes.includes(node.value) && !(Number.isInteger(value) && value >= 0 && value <= 40)
      : !(value > 0 && value <= 1000);
  if (outside)
    return [
      problem(
        'type/value-range',
        `${node.value} ${unit} is no conductor size. Sizes are ${sizes[0] ?? ''} to ${sizes[sizes.length - 1] ?? ''} ${unit}.`,
        placeOf(node),
      ),
    ];
  return [];
}
