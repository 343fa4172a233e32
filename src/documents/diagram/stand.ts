/** Where the boxes of a column stand that have places, when one of them has grown: the fewest leave their place. */
import { GRID } from './diagram.js';

/** A box of a column; lengths in mm. */
export interface Stander {
  /** Its upper edge, where it is to stand. */
  readonly top: number;
  readonly height: number;
  /** What is kept free between it and what is over it. */
  readonly over: number;
}

/** A box goes up or down by so many steps of the grid at most. */
const MOST_UP = 8;
const MOST_DOWN = 60;
/** What a step costs, beside the box that moves by more than one: nobody sees one step. Rather down, where the new ones stand, than up. */
const COST_UP = 0.011;
const COST_DOWN = 0.01;

/** Upper edges of boxes, from the top, between `from` and `to`; what finds no room within is pushed out below. */
export function standing(boxes: readonly Stander[], from: number, to: number): readonly number[] {
  const kept = pushed(boxes, from);
  const last = boxes.length - 1;
  if (kept.every((top, index) => top === boxes[index]?.top) && bottomOf(boxes, kept, last) <= to) return kept;
  return fewestMoved(boxes, from, to) ?? kept;
}

const bottomOf = (boxes: readonly Stander[], tops: readonly number[], index: number): number =>
  (tops[index] ?? 0) + (boxes[index]?.height ?? 0);

/** Each at its place, or as far beneath as the one over it pushes it. */
function pushed(boxes: readonly Stander[], from: number): readonly number[] {
  let bottom = from;
  return boxes.map(({ top, height, over }) => {
    const at = Math.max(top, bottom + over);
    bottom = at + height;
    return at;
  });
}

/** The way to stand within the bounds in which the fewest move by more than a step, and those the least. */
function fewestMoved(boxes: readonly Stander[], from: number, to: number): readonly number[] | undefined {
  const steps = Array.from({ length: MOST_UP + MOST_DOWN + 1 }, (_, index) => index - MOST_UP);
  const costOf = (step: number): number =>
    (Math.abs(step) > 1 ? 1 : 0) + (step < 0 ? -step * COST_UP : step * COST_DOWN);
  /** For each box and step: the least that it and those over it cost, and the step of the one over it. */
  const table: { readonly cost: number; readonly before: number }[][] = [];
  boxes.forEach(({ top, height, over }, index) => {
    const above = boxes[index - 1];
    const earlier = table[index - 1];
    let next = 0;
    let best = { cost: above === undefined ? 0 : Infinity, before: -1 };
    table.push(
      steps.map((step) => {
        const at = top + step * GRID;
        // Those over it that leave it room: the lower it stands, the more.
        for (; above !== undefined && earlier !== undefined && next < steps.length; next += 1) {
          const bottom = above.top + (steps[next] ?? 0) * GRID + above.height;
          if (bottom + over > at) break;
          const { cost } = earlier[next] ?? { cost: Infinity };
          if (cost < best.cost) best = { cost, before: next };
        }
        const within = at >= from + (above === undefined ? over : 0) && at + height <= to;
        return within ? { ...best, cost: best.cost + costOf(step) } : { cost: Infinity, before: -1 };
      }),
    );
  });
  let at = -1;
  for (const [index, { cost }] of (table.at(-1) ?? []).entries())
    if (cost < (table.at(-1)?.[at]?.cost ?? Infinity)) at = index;
  if (at < 0) return undefined;
  const tops: number[] = [];
  for (let index = boxes.length - 1; index >= 0; index -= 1) {
    tops.unshift((boxes[index]?.top ?? 0) + (steps[at] ?? 0) * GRID);
    at = table[index]?.[at]?.before ?? -1;
  }
  return tops;
}
