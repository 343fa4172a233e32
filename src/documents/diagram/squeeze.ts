/** Columns as near to one another as what stands between them lets them, row by row, where a page is too narrow for more. */
import type { Box } from '../scene/scene.js';
import { GRID } from './diagram.js';
import { PADDING, tracksFor, type PlacedNode, type PlacedPage, type Row } from './place.js';

/** Columns stand at most so much further apart than they need to. */
const MOST_STEP = 20;

const down = (length: number): number => Math.max(0, Math.floor(length / GRID) * GRID);

/** The same page, its columns moved together; it may still be too wide. */
export function squeezed(page: PlacedPage, area: Box): PlacedPage {
  const xs = [...new Set(page.nodes.map(({ box }) => box.x))].sort((x, y) => x - y);
  const columns = xs.map((x) => page.nodes.filter(({ box }) => box.x === x));
  const padding = page.groups.some(({ group }) => group.title !== undefined) ? 2 * PADDING : 0;
  const places: number[] = [];
  let end = area.x;
  columns.forEach((column, index) => {
    const left = rowsAt(column, 'left');
    const before = columns[index - 1];
    const first = area.x + farthest(left) + (left.length > 0 ? GRID : 0) + padding;
    if (before === undefined) {
      places.push(first);
    } else {
      const right = rowsAt(before, 'right');
      const wires = new Set([...left, ...right].filter((row) => !row.reference).map((row) => row.wire));
      const tracks = wires.size === 0 ? 2 * GRID : tracksFor(wires.size);
      let x = end + Math.max(farthest(left), farthest(right)) + tracks + padding;
      for (const one of left)
        for (const other of right)
          if (Math.abs(one.y - other.y) < 2 * GRID)
            x = Math.max(x, end + lengthOf(one) + lengthOf(other) + 2 * GRID);
      places.push(x);
    }
    end = (places[index] ?? 0) + (column[0]?.box.width ?? 0);
  });
  const last = rowsAt(columns.at(-1) ?? [], 'right');
  const spare = area.x + area.width - end - farthest(last) - (last.length > 0 ? GRID : 0) - padding;
  // First between the columns, for the wires.
  const between = columns.length - 1;
  const step = between === 0 ? 0 : Math.min(MOST_STEP, down(spare / between));
  const margin = down((spare - step * between) / 2);
  const shifts = new Map(xs.map((x, index) => [x, (places[index] ?? x) + margin + step * index - x]));
  const shiftOf = (x: number): number => shifts.get(x) ?? 0;
  return {
    ...page,
    nodes: page.nodes.map((node) => {
      const by = shiftOf(node.box.x);
      return {
        ...node,
        box: { ...node.box, x: node.box.x + by },
        rows: node.rows.map((row) => ({ ...row, x: row.x + by })),
      };
    }),
    groups: page.groups.map((group) => {
      const inside = xs.find((x) => x > group.box.x && x < group.box.x + group.box.width);
      return { ...group, box: { ...group.box, x: group.box.x + shiftOf(inside ?? 0) } };
    }),
  };
}

const rowsAt = (column: readonly PlacedNode[], side: Row['side']): readonly Row[] =>
  column.flatMap(({ rows }) => rows.filter((row) => row.side === side));

const lengthOf = ({ reach, flag }: Row): number => reach + flag;

const farthest = (rows: readonly Row[]): number => Math.max(0, ...rows.map(lengthOf));
