/** What is written along a wire, where there is room: what it is and how long, else how long alone. */
import { textItem } from '../scene/make.js';
import type { Box, Point, TextItem } from '../scene/scene.js';
import { drawable, SMALL, widthOf } from '../text/measure.js';
import { GRID, type DiagramWire } from './diagram.js';
import type { Field } from './field.js';
import type { PlacedPage } from './place.js';

/** Text stands this far off a line. */
export const OFF = 1.2;

/** Takes a place for a text, if nothing stands there. */
export type Take = (room: Box) => boolean;

/** What is free on a page for texts: neither boxes nor wires nor the edges of zones nor other texts are there. */
export function roomOn({ groups }: PlacedPage, field: Field): Take {
  const taken: Box[] = [];
  const zones = groups.filter(({ group }) => group.title !== undefined).map(({ box }) => box);
  return (room) => {
    if (!field.free(room) || taken.some((other) => meet(room, other))) return false;
    if (zones.some((zone) => meet(room, zone) && !isWithin(room, zone))) return false;
    taken.push(room);
    return true;
  };
}

/** What there is to write, the best first. */
export const captionsOf = ({ caption, short }: DiagramWire): readonly string[] =>
  [caption, short ?? ''].map(drawable).filter((text) => text !== '');

/** The first of the captions that has room along the way. */
export function alongWire(
  wire: DiagramWire,
  points: readonly Point[],
  field: Field,
  take: Take,
): readonly TextItem[] {
  for (const text of captionsOf(wire)) {
    const item = captionItem(text, points, field, take);
    if (item !== undefined) return [item];
  }
  return [];
}

/** Where a caption is looked for: above a stretch across or to the left of one down, else on the other side. */
const CAPTION_SIDES = [
  { upright: false, isBefore: true },
  { upright: true, isBefore: true },
  { upright: false, isBefore: false },
  { upright: true, isBefore: false },
];

function captionItem(text: string, points: readonly Point[], field: Field, take: Take): TextItem | undefined {
  const length = widthOf(text);
  for (const { upright, isBefore } of CAPTION_SIDES) {
    const stretches = points
      .slice(1)
      .map((to, index) => ({ from: points[index] ?? to, to }))
      .filter(({ from, to }) => (upright ? from.x === to.x : from.y === to.y));
    stretches.sort((p, q) => span(q) - span(p));
    for (const { from, to } of stretches) {
      const low = Math.min(upright ? from.y : from.x, upright ? to.y : to.x);
      const high = low + span({ from, to });
      const places: number[] = [];
      for (let at = low + 2; at + length <= high - 2; at += GRID) places.push(at);
      const middle = (low + high - length) / 2;
      places.sort((p, q) => Math.abs(p - middle) - Math.abs(q - middle));
      const base = (upright ? from.x : from.y) + (isBefore ? -OFF : OFF + SMALL);
      for (const at of places) {
        // As high as its letters, and what some reach below them.
        const [top, tall] = [base - SMALL - (isBefore ? 0.8 : 0.5), SMALL + (isBefore ? 1.3 : 1.35)];
        const room: Box = upright
          ? { x: top, y: at - 0.8, width: tall, height: length + 1.6 }
          : { x: at - 0.8, y: top, width: length + 1.6, height: tall };
        if (crossed(field, upright, from, at, length) || !take(room)) continue;
        return upright ? textItem(base, at + length, text, { upright }) : textItem(at, base, text);
      }
    }
  }
  return undefined;
}

const isWithin = (inner: Box, outer: Box): boolean =>
  inner.x >= outer.x &&
  inner.y >= outer.y &&
  inner.x + inner.width <= outer.x + outer.width &&
  inner.y + inner.height <= outer.y + outer.height;

const meet = (a: Box, b: Box): boolean =>
  a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;

const span = ({ from, to }: { readonly from: Point; readonly to: Point }): number =>
  Math.abs(to.x - from.x) + Math.abs(to.y - from.y);

/** Whether another wire crosses the stretch that a text stands on. */
function crossed(field: Field, upright: boolean, from: Point, at: number, length: number): boolean {
  for (let offset = 0; offset <= length + GRID; offset += GRID) {
    const along = Math.ceil((at - 0.8) / GRID - 1e-9) * GRID + offset;
    if (along > at + length + 0.8) break;
    const node = field.nodeAt(upright ? { x: from.x, y: along } : { x: along, y: from.y });
    if (node < 0) return true;
    if (upright ? (field.across[node] ?? 0) !== 0 : (field.down[node] ?? 0) !== 0) return true;
  }
  return false;
}
