/** What a way over a field costs and where it may go, by rules of its own that share nothing with the search. */
import type { Field } from '../../src/documents/diagram/field.js';

/** What a way costs: a step, a bend (as if the wire came to its start from the side), and a wire that it crosses. */
export const PRICE = { step: 2, bend: 9, crossing: 14 };

/** What one step onto a node costs; undefined where it may not be taken. */
export function stepPrice(field: Field, to: number, isDown: boolean, goal: number): number | undefined {
  const along = isDown ? field.down[to] : field.across[to];
  const over = isDown ? field.across[to] : field.down[to];
  if (field.closed[to] !== 0 || along !== 0) return undefined;
  if (over !== 0) return to === goal ? undefined : PRICE.step + PRICE.crossing;
  return PRICE.step;
}

export const isFree = (field: Field, node: number): boolean =>
  field.across[node] === 0 && field.down[node] === 0;

/** What a way costs that was found; NaN where it goes where none may. */
export function priceOf(field: Field, way: readonly number[], goal: number): number {
  let price = 0;
  let wasDown = false;
  way.slice(1).forEach((to, index) => {
    const from = way[index] ?? NaN;
    const isDown = Math.abs(to - from) === field.columns;
    if (!isDown && Math.abs(to - from) !== 1) price = NaN;
    if (isDown !== wasDown) price += index === 0 || isFree(field, from) ? PRICE.bend : NaN;
    price += stepPrice(field, to, isDown, goal) ?? NaN;
    wasDown = isDown;
  });
  return price;
}
