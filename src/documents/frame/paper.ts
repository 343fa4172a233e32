/** Papers, their frames and their reference zones (after ISO 5457; ANSI sizes for letter and tabloid). Millimetres, landscape. */
import type { Box, Point } from '../scene/scene.js';

export const PAPERS = ['A4', 'A3', 'letter', 'tabloid'] as const;
export type PaperName = (typeof PAPERS)[number];

export interface Paper {
  readonly name: PaperName;
  readonly width: number;
  readonly height: number;
  /** Inside of the frame. */
  readonly frame: Box;
}

const SIZES: Readonly<Record<PaperName, readonly [number, number]>> = {
  A4: [297, 210],
  A3: [420, 297],
  letter: [279.4, 215.9],
  tabloid: [431.8, 279.4],
};

/** Left margin for filing; the others. */
const FILING = 20;
const MARGIN = 10;
/** Side of a reference zone. */
const ZONE = 50;
const LETTERS = 'ABCDEFGHJKLMNPQRSTUVWXYZ';

/** A paper by its name. */
export function paperOf(name: PaperName): Paper {
  const [width, height] = SIZES[name];
  return {
    name,
    width,
    height,
    frame: { x: FILING, y: MARGIN, width: width - FILING - MARGIN, height: height - 2 * MARGIN },
  };
}

/** Where the reference zones end, counted outwards from the middle of the paper. */
export function zoneEdges(from: number, to: number, middle: number): readonly number[] {
  const edges = [from];
  const before = Math.ceil((middle - from) / ZONE) - 1;
  for (let step = before; step > 0; step -= 1) edges.push(middle - step * ZONE);
  edges.push(middle);
  const after = Math.ceil((to - middle) / ZONE) - 1;
  for (let step = 1; step <= after; step += 1) edges.push(middle + step * ZONE);
  return [...edges, to];
}

/** `B4`: a letter from the top, a number from the left. */
export function zoneAt(paper: Paper, point: Point): string {
  const { frame } = paper;
  const index = (edges: readonly number[], at: number): number =>
    Math.max(0, edges.slice(1, -1).filter((edge) => edge <= at).length);
  const row = index(zoneEdges(frame.y, frame.y + frame.height, paper.height / 2), point.y);
  const column = index(zoneEdges(frame.x, frame.x + frame.width, paper.width / 2), point.x);
  return `${zoneLetter(row)}${column + 1}`;
}

export const zoneLetter = (row: number): string => LETTERS[row] ?? '?';
