/**
 * Outlines of what a scene draws, as closed rings of points in pixels. Rings turn one way where they fill and the other way where they
 * leave a hole; whatever overlaps of a stroke turns the same way, so that it is painted once.
 */
import type { Point, Stroke } from '../../scene/scene.js';

/** x and y by turns; closed by itself. */
export type Ring = readonly number[];

/** A miter longer than so many line widths is cut off, as SVG does by itself. */
const MITER_LIMIT = 4;
/** A curve strays so far from its chords at most, in pixels. */
const FLAT = 0.05;
/** A line of more dashes is drawn without them. */
const MOST_DASHES = 20_000;

/** A circle, from its right and clockwise. */
export function circle(x: number, y: number, radius: number): readonly Point[] {
  const steps = stepsOf(radius, 2 * Math.PI);
  return Array.from({ length: steps }, (_, index) => onCircle(x, y, radius, (2 * Math.PI * index) / steps));
}

/** A rectangle from its upper left corner and clockwise, with round corners if there is a radius. */
export function rectangle(
  x: number,
  y: number,
  width: number,
  height: number,
  radius: number,
): readonly Point[] {
  const round = Math.max(0, Math.min(radius, width / 2, height / 2));
  const [right, bottom] = [x + width, y + height];
  if (round === 0)
    return [
      { x, y },
      { x: right, y },
      { x: right, y: bottom },
      { x, y: bottom },
    ];
  const steps = Math.max(1, Math.ceil(stepsOf(round, 2 * Math.PI) / 4));
  const corner = (cx: number, cy: number, from: number): readonly Point[] =>
    Array.from({ length: steps + 1 }, (_, index) =>
      onCircle(cx, cy, round, from + ((Math.PI / 2) * index) / steps),
    );
  return [
    ...corner(right - round, y + round, -Math.PI / 2),
    ...corner(right - round, bottom - round, 0),
    ...corner(x + round, bottom - round, Math.PI / 2),
    ...corner(x + round, y + round, Math.PI),
  ];
}

/** Points on a curve of Bézier after its first, of two or three control points. */
export function* curve(points: readonly Point[]): Generator<Point> {
  const [a, b, c, d] = points;
  if (a === undefined || b === undefined || c === undefined) return;
  const far = points.reduce(
    (sum, point, index) =>
      sum + Math.hypot(point.x - (points[index - 1] ?? a).x, point.y - (points[index - 1] ?? a).y),
    0,
  );
  const steps = Math.max(2, Math.min(24, Math.ceil(Math.sqrt(far / FLAT / 4))));
  for (let step = 1; step <= steps; step += 1) {
    const t = step / steps;
    const s = 1 - t;
    yield d === undefined
      ? { x: s * s * a.x + 2 * s * t * b.x + t * t * c.x, y: s * s * a.y + 2 * s * t * b.y + t * t * c.y }
      : {
          x: s * s * s * a.x + 3 * s * s * t * b.x + 3 * s * t * t * c.x + t * t * t * d.x,
          y: s * s * s * a.y + 3 * s * s * t * b.y + 3 * s * t * t * c.y + t * t * t * d.y,
        };
  }
}

export const ringOf = (points: readonly Point[]): Ring => points.flatMap(({ x, y }) => [x, y]);

/** What a stroke covers: `points` and the lengths of the stroke in pixels. */
export function stroked(
  points: readonly Point[],
  closed: boolean,
  stroke: Omit<Stroke, 'colour'>,
): readonly Ring[] {
  const [first] = points;
  const line = distinct(closed && first !== undefined ? [...points, first] : points);
  if (line.length < 2 || !(stroke.width > 0)) return [];
  const dash = stroke.dash ?? [];
  const dashed =
    dash.length > 0 && dash.every((length) => length >= 0) && lengthOf(line) / sum(dash) < MOST_DASHES;
  if (!dashed) return alongOf(line, closed, stroke.width / 2);
  return dashes(line, dash).flatMap((piece) => alongOf(piece, false, stroke.width / 2));
}

function stepsOf(radius: number, angle: number): number {
  const step = 2 * Math.acos(Math.max(0, 1 - FLAT / Math.max(FLAT, radius)));
  return Math.max(8, Math.min(720, Math.ceil(angle / step)));
}

const onCircle = (x: number, y: number, radius: number, angle: number): Point => ({
  x: x + radius * Math.cos(angle),
  y: y + radius * Math.sin(angle),
});

const sum = (lengths: readonly number[]): number => lengths.reduce((total, length) => total + length, 0);

const lengthOf = (line: readonly Point[]): number =>
  line.reduce((total, { x, y }, index) => {
    const before = line[index - 1];
    return before === undefined ? 0 : total + Math.hypot(x - before.x, y - before.y);
  }, 0);

/** Without points that stand where the one before them stands. */
function distinct(points: readonly Point[]): readonly Point[] {
  return points.filter((point, index) => {
    const before = points[index - 1];
    return before === undefined || Math.hypot(point.x - before.x, point.y - before.y) > 1e-9;
  });
}

/** A band on both sides of a line, with a miter at each of its bends. */
function alongOf(line: readonly Point[], closed: boolean, half: number): readonly Ring[] {
  const rings: Ring[] = [];
  for (let index = 1; index < line.length; index += 1) {
    const [from, to] = [line[index - 1], line[index]];
    if (from === undefined || to === undefined) continue;
    const { x, y } = normal(from, to, half);
    rings.push([from.x + x, from.y + y, to.x + x, to.y + y, to.x - x, to.y - y, from.x - x, from.y - y]);
    const next = line[index + 1] ?? (closed ? line[1] : undefined);
    if (next !== undefined) rings.push(...bend(from, to, next, half));
  }
  return rings;
}

/** Leads from the middle of a line to its left side, as y grows downwards. */
function normal(from: Point, to: Point, half: number): Point {
  const length = Math.hypot(to.x - from.x, to.y - from.y);
  return { x: ((to.y - from.y) / length) * half, y: (-(to.x - from.x) / length) * half };
}

function bend(from: Point, at: Point, to: Point, half: number): readonly Ring[] {
  const [a, b] = [normal(from, at, half), normal(at, to, half)];
  const turn = a.x * b.y - a.y * b.x;
  const along = a.x * b.x + a.y * b.y;
  if (Math.abs(turn) < 1e-9 * half * half) return [];
  // The outer side is the one that it turns away from.
  const side = turn > 0 ? 1 : -1;
  const [ax, ay] = [at.x + side * a.x, at.y + side * a.y];
  const [bx, by] = [at.x + side * b.x, at.y + side * b.y];
  // Length of the miter over the width: 1 / sin of half the angle between the lines, which is turned by half the change of direction.
  const cosine = Math.sqrt(Math.max(0, (1 + along / (half * half)) / 2));
  const ring: number[] =
    cosine * MITER_LIMIT >= 1
      ? [
          at.x,
          at.y,
          ax,
          ay,
          at.x + (side * (a.x + b.x)) / (2 * cosine * cosine),
          at.y + (side * (a.y + b.y)) / (2 * cosine * cosine),
          bx,
          by,
        ]
      : [at.x, at.y, ax, ay, bx, by];
  return [sameTurn(ring)];
}

/** Turned as the band of a line is. */
function sameTurn(ring: Ring): Ring {
  let area = 0;
  for (let index = 0; index < ring.length; index += 2) {
    const next = (index + 2) % ring.length;
    area += (ring[index] ?? 0) * (ring[next + 1] ?? 0) - (ring[next] ?? 0) * (ring[index + 1] ?? 0);
  }
  if (area >= 0) return ring;
  const turned: number[] = [];
  for (let index = ring.length - 2; index >= 0; index -= 2)
    turned.push(ring[index] ?? 0, ring[index + 1] ?? 0);
  return turned;
}

/** The dashes of a line, each with the bends that it goes around. */
function dashes(line: readonly Point[], given: readonly number[]): readonly (readonly Point[])[] {
  const pattern = given.length % 2 === 0 ? given : [...given, ...given];
  const pieces: Point[][] = [];
  let index = 0;
  let left = pattern[0] ?? 0;
  let piece: Point[] | undefined;
  for (const [number, to] of line.entries()) {
    const from = line[number - 1];
    if (from === undefined) {
      piece = [to];
      continue;
    }
    const length = Math.hypot(to.x - from.x, to.y - from.y);
    let gone = 0;
    while (left <= length - gone) {
      gone += left;
      const at = {
        x: from.x + ((to.x - from.x) * gone) / length,
        y: from.y + ((to.y - from.y) * gone) / length,
      };
      if (piece !== undefined) pieces.push([...piece, at]);
      piece = piece === undefined ? [at] : undefined;
      index = (index + 1) % pattern.length;
      left = pattern[index] ?? 0;
    }
    left -= length - gone;
    piece?.push(to);
  }
  if (piece !== undefined) pieces.push(piece);
  return pieces.map(distinct).filter((one) => one.length > 1);
}
