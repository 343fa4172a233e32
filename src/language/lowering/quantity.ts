/** Quantities of the tree in SI; undefined where the unit is missing or of another dimension. */
import type { ConductorSize, Draw, Interval, Money } from '../../vessel/model.js';
import { dimensionOf, isCurrency, toSi, type Dimension } from '../../vessel/units.js';
import type * as ast from '../generated/ast.js';

/** A quantity of the wanted dimension in SI. */
export function si(quantity: ast.Quantity | undefined, dimension: Dimension): number | undefined {
  if (quantity?.value === undefined) return undefined;
  const value = Number(quantity.value) * (quantity.negative ? -1 : 1);
  if (dimension === 'number') return quantity.unit === undefined ? value : undefined;
  if (quantity.unit === undefined || dimensionOf(quantity.unit) !== dimension) return undefined;
  const result = toSi(value, quantity.unit);
  // Ten significant figures: what was written, without the noise of the conversion.
  return Number.isFinite(result) ? Number(result.toPrecision(10)) : undefined;
}

export function interval(node: ast.Interval | undefined, dimension: Dimension): Interval | undefined {
  if (node?.low === undefined || node.unit === undefined || dimensionOf(node.unit) !== dimension)
    return undefined;
  const low = toSi(Number(node.low), node.unit);
  const high = toSi(Number(node.high ?? node.low), node.unit);
  return low <= high ? { low, high } : undefined;
}

export function money(quantity: ast.Quantity | undefined): Money | undefined {
  if (quantity?.value === undefined || quantity.unit === undefined || !isCurrency(quantity.unit))
    return undefined;
  return { amount: Number(quantity.value), currency: quantity.unit };
}

/** What a load draws, in amperes or watts as declared. */
export function draw(quantity: ast.Quantity | undefined): Draw | undefined {
  const amps = si(quantity, 'current');
  if (amps !== undefined) return { amount: amps, unit: 'A' };
  const watts = si(quantity, 'power');
  return watts === undefined ? undefined : { amount: watts, unit: 'W' };
}

export function wireSize(size: ast.WireSize | undefined): ConductorSize | undefined {
  return size?.value !== undefined && (size.unit === 'AWG' || size.unit === 'mm2')
    ? { standard: size.unit, size: size.value }
    : undefined;
}

/** A whole number; undefined for anything else. */
export function whole(text: string | undefined): number | undefined {
  const value = text === undefined ? NaN : Number(text);
  return Number.isInteger(value) ? value : undefined;
}
