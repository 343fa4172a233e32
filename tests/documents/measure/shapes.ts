/** Points, rectangles and stretches of lines on a sheet, in mm; texts are measured with the font file itself. */
import * as fontkit from 'fontkit';
import type { Point, RectItem, TextItem } from '../../../src/documents/scene/scene.js';
import { FONT_FILES } from '../../support/writers.js';

export interface Rect {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** A straight piece of a line. */
export interface Stretch {
  readonly from: Point;
  readonly to: Point;
}

/** What is drawn nearer to one another than this touches. */
const TOUCH = 0.3;
/** Two points that are one. */
const SAME = 0.01;

function opened(file: string): fontkit.Font {
  const font = fontkit.openSync(file);
  if (!('layout' in font)) throw new Error(`${file} is no single font`);
  return font;
}
const FACES = { regular: opened(FONT_FILES.regular), bold: opened(FONT_FILES.bold) };

/** The em of a text whose capitals have this height; the height of an H is asked of the font. */
function emOf(height: number): number {
  const { bbox } = FACES.regular.glyphForCodePoint(72);
  return (height * FACES.regular.unitsPerEm) / bbox.maxY;
}

/** The ink of a text. */
export function inkOf(item: TextItem): Rect {
  const font = item.bold === true ? FACES.bold : FACES.regular;
  const run = font.layout(item.text, { kern: false, liga: false });
  const unit = emOf(item.height) / font.unitsPerEm;
  const width = run.advanceWidth * unit;
  const up = run.bbox.maxY * unit;
  const down = -run.bbox.minY * unit;
  const back = item.anchor === 'start' ? 0 : item.anchor === 'middle' ? width / 2 : width;
  return item.upright === true
    ? { left: item.x - up, right: item.x + down, top: item.y + back - width, bottom: item.y + back }
    : { left: item.x - back, right: item.x - back + width, top: item.y - up, bottom: item.y + down };
}

export const rectOf = ({ x, y, width, height }: Omit<RectItem, 'kind'>): Rect => ({
  left: x,
  top: y,
  right: x + width,
  bottom: y + height,
});

/** The least rectangle about points, a little larger by `more`. */
export function around(points: readonly Point[], more = 0): Rect {
  const xs = points.map(({ x }) => x);
  const ys = points.map(({ y }) => y);
  return {
    left: Math.min(...xs) - more,
    right: Math.max(...xs) + more,
    top: Math.min(...ys) - more,
    bottom: Math.max(...ys) + more,
  };
}

/** Whether rectangles lie on one another by more than `slack`. */
export const overlap = (a: Rect, b: Rect, slack = 0.05): boolean =>
  a.left < b.right - slack &&
  b.left < a.right - slack &&
  a.top < b.bottom - slack &&
  b.top < a.bottom - slack;

/** Whether a rectangle is in another, or on its edge. */
export const within = (inner: Rect, outer: Rect, slack = SAME): boolean =>
  inner.left >= outer.left - slack &&
  inner.top >= outer.top - slack &&
  inner.right <= outer.right + slack &&
  inner.bottom <= outer.bottom + slack;

export const samePoint = (a: Point, b: Point): boolean =>
  Math.abs(a.x - b.x) < SAME && Math.abs(a.y - b.y) < SAME;

/** Whether a point is on the edge of a rectangle. */
export function onEdge({ x, y }: Point, rect: Rect): boolean {
  const near = (a: number, b: number): boolean => Math.abs(a - b) < SAME;
  const inside = within({ left: x, right: x, top: y, bottom: y }, rect);
  return inside && (near(x, rect.left) || near(x, rect.right) || near(y, rect.top) || near(y, rect.bottom));
}

/** How far a point is from a stretch. */
export function distance({ x, y }: Point, { from, to }: Stretch): number {
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  const square = dx * dx + dy * dy;
  const along = square === 0 ? 0 : ((x - from.x) * dx + (y - from.y) * dy) / square;
  const at = Math.min(1, Math.max(0, along));
  return Math.hypot(x - from.x - at * dx, y - from.y - at * dy);
}

/** The pieces of a line. */
export function stretchesOf(points: readonly Point[], closed = false): readonly Stretch[] {
  const all = closed ? [...points, ...points.slice(0, 1)] : points;
  return all.slice(1).map((to, index) => ({ from: all[index] ?? to, to }));
}

/** Whether a stretch at any angle comes into a rectangle (Liang and Barsky's way of clipping a line). */
export function enters({ from, to }: Stretch, rect: Rect): boolean {
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  let [first, last] = [0, 1];
  for (const [step, room] of [
    [-dx, from.x - rect.left],
    [dx, rect.right - from.x],
    [-dy, from.y - rect.top],
    [dy, rect.bottom - from.y],
  ] as const) {
    if (step === 0 && room <= 0) return false;
    if (step < 0) first = Math.max(first, room / step);
    if (step > 0) last = Math.min(last, room / step);
  }
  return first < last;
}

/** How two stretches at right angles meet: `cross` is in the middle of both. */
export function meeting(one: Stretch, other: Stretch): 'cross' | 'run on one line' | 'touch' | undefined {
  const near = (a: number, b: number): boolean => Math.abs(a - b) < TOUCH;
  const flat = ({ from, to }: Stretch): boolean => from.y === to.y;
  const [a, b] = [around([one.from, one.to]), around([other.from, other.to])];
  if (flat(one) === flat(other)) {
    const level = flat(one) ? near(one.from.y, other.from.y) : near(one.from.x, other.from.x);
    const along = flat(one)
      ? a.left < b.right + TOUCH && b.left < a.right + TOUCH
      : a.top < b.bottom + TOUCH && b.top < a.bottom + TOUCH;
    return level && along ? 'run on one line' : undefined;
  }
  const [across, down] = flat(one) ? [a, b] : [b, a];
  const [x, y] = [down.left, across.top];
  if (x < across.left - TOUCH || x > across.right + TOUCH) return undefined;
  if (y < down.top - TOUCH || y > down.bottom + TOUCH) return undefined;
  const inside =
    x > across.left + TOUCH && x < across.right - TOUCH && y > down.top + TOUCH && y < down.bottom - TOUCH;
  return inside ? 'cross' : 'touch';
}

/** Where two stretches at right angles to one another meet. */
export function crossingOf(one: Stretch, other: Stretch): Point {
  const [across, down] = one.from.y === one.to.y ? [one, other] : [other, one];
  return { x: down.from.x, y: across.from.y };
}
