/** Boxes at places that are given, and what gets in each other's way there. */
import type { Box } from '../scene/scene.js';
import { GRID, type Diagram } from './diagram.js';
import type { Column } from './columns.js';
import { endsByNode, rowHeight, rowMiddle, SHORT_FLAG } from './ends.js';
import { PADDING, pagesOf, TITLE_HEIGHT, type Fixed, type PlacedPage, type Row } from './place.js';

/** Boxes that get in each other's way, or one that sticks out or stands on a title. */
export type Clash = readonly [string, string | undefined];

export interface FixedLayout {
  readonly pages: readonly PlacedPage[];
  readonly clashes: readonly Clash[];
}

/** Place a diagram where it stood before, and say what cannot stand there. Where the flags of references find no room they are short. */
export function placeFixed(
  diagram: Diagram,
  area: Box,
  cut: ReadonlySet<string>,
  columns: readonly Column[],
  fixed: Fixed,
): FixedLayout {
  const ends = endsByNode(diagram);
  const short = new Set<string>();
  for (;;) {
    const pages = pagesOf(diagram, columns, area, ends, cut, { ...fixed, short });
    const clashes = pages.flatMap((page) => clashesOn(page, area));
    const before = short.size;
    const inTheWay = new Set(clashes.flat());
    for (const { node, rows } of pages.flatMap((page) => page.nodes))
      if (inTheWay.has(node.id) && rows.some(({ flag }) => flag > SHORT_FLAG)) short.add(node.id);
    if (short.size === before) return { pages, clashes };
  }
}

/** Boxes, and what is kept at their ports, that stick out of the area or meet another box, a title or what is kept for another. */
export function clashesOn({ nodes, groups }: PlacedPage, area: Box): readonly Clash[] {
  const bottom = area.y + area.height - PADDING;
  const right = area.x + area.width;
  const found: Clash[] = [];
  const taken: { readonly owner: string | undefined; readonly box: Box }[] = groups.flatMap(
    ({ group, box }) =>
      group.title === undefined ? [] : [{ owner: undefined, box: { ...box, height: TITLE_HEIGHT } }],
  );
  for (const { node, box, rows } of nodes) {
    const own = [box, ...rows.flatMap(keptBoxes)];
    if (box.y < area.y || box.y + box.height > bottom) found.push([node.id, undefined]);
    if (own.some((one) => one.x < area.x || one.x + one.width > right)) found.push([node.id, undefined]);
    const met = taken.filter((other) => own.some((one) => meets(one, other.box)));
    for (const owner of new Set(met.map((other) => other.owner))) found.push([node.id, owner]);
    taken.push(...own.map((one) => ({ owner: node.id, box: one })));
  }
  return found;
}

/** What belongs to one end of a wire: its row, as far as something is written there, and a step of the grid to every side of its flag. */
function keptBoxes({ wire, end, side, x, y, reach, flag }: Row): readonly Box[] {
  const { tag } = wire[end];
  const box = (width: number, top: number, height: number): Box => ({
    x: side === 'left' ? x - width - GRID : x,
    y: top,
    width: width + GRID,
    height,
  });
  const row = box(reach, y - rowMiddle(tag), rowHeight(tag));
  return flag === 0 ? [row] : [row, box(reach + flag, y - GRID, 2 * GRID)];
}

const meets = (a: Box, b: Box): boolean =>
  a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
