/** Room for a box among boxes that stand: near what it is joined to, and where it moves none of them. */
import type { Box } from '../scene/scene.js';
import { GRID, type Diagram, type DiagramGroup, type DiagramNode } from './diagram.js';
import { columnsAt, type Standing } from './kept.js';
import { placeFixed, type FixedLayout } from './fixed.js';
import { LEAST_GAP, PADDING, TITLE_HEIGHT, type PlacedNode } from './place.js';

export interface Room {
  readonly page: number;
  readonly x: number;
  readonly y: number | undefined;
}

interface Fresh {
  readonly node: DiagramNode;
  readonly group: DiagramGroup;
}

/** Room at the left of a column on a page that is begun for what is new: for its references. */
const NEW_COLUMN = 65;
/** Between a column and one that is begun beside it: what is written at the ports, tracks for wires, and flags. */
const BESIDE = [40, 60, 80, 100];
/** So many places are tried, the nearest to what the box is joined to first. */
const TRIED = 24;
/** What weighs as much as so many mm of wire: a wire to another page, a second region of the same zone, a zone that it stands out of order with. */
const OTHER_PAGE = 400;
const NEW_REGION = 60;
const OUT_OF_ORDER = 80;

/** The place that moves least, and among such the one with the shortest wires; a page of its own where there is no other. */
export function bestRoom(fresh: Fresh, standing: readonly Standing[], diagram: Diagram, area: Box): Room {
  const present = new Set([...standing.map(({ node }) => node.id), fresh.node.id]);
  const wires = diagram.wires.filter(({ a, b }) => present.has(a.node) && present.has(b.node));
  const placed = (list: readonly Standing[]): FixedLayout => {
    const { columns, fixed } = columnsAt(list);
    return placeFixed(diagram, area, new Set(), columns, fixed);
  };
  const base = placed(standing).pages;
  const numbers = [...new Set(standing.map(({ page }) => page))].sort((x, y) => x - y);
  const places = new Map(
    base.flatMap(({ nodes }, index) =>
      nodes.map((one) => [one.node.id, { page: numbers[index] ?? 0, box: one.box }] as const),
    ),
  );
  const neighbours = wires.flatMap(({ a, b }) => {
    const other = a.node === fresh.node.id ? b.node : b.node === fresh.node.id ? a.node : undefined;
    const place = other === undefined ? undefined : places.get(other);
    return place === undefined ? [] : [place];
  });
  const ranks = new Map(diagram.groups.map(({ id }, rank) => [id, rank]));
  const own = ranks.get(fresh.group.id) ?? 0;
  const weight = ({ page, x, y, region }: Candidate, nodes: readonly PlacedNode[]): number => {
    // Zones go from left to right.
    const amiss = new Set(
      nodes.flatMap(({ group, box }) => {
        const rank = ranks.get(group) ?? 0;
        return (rank < own && box.x > x) || (rank > own && box.x < x) ? [group] : [];
      }),
    );
    return neighbours.reduce(
      (sum, { page: other, box }) =>
        sum + (other === page ? Math.abs(box.x - x) + Math.abs(box.y - y) : OTHER_PAGE),
      (region ? NEW_REGION : 0) + amiss.size * OUT_OF_ORDER,
    );
  };
  const candidates = base
    .flatMap(({ nodes }, index) =>
      roomsOn(nodes, numbers[index] ?? 0, fresh.group, area).map((one) => ({
        one,
        weight: weight(one, nodes),
      })),
    )
    .sort((p, q) => p.weight - q.weight || p.one.page - q.one.page || p.one.x - q.one.x || p.one.y - q.one.y);
  const last = (numbers.at(-1) ?? -1) + 1;
  const all: readonly Room[] = [
    ...candidates.slice(0, TRIED).map(({ one }) => one),
    { page: last, x: area.x + NEW_COLUMN, y: undefined },
  ];
  let best: { readonly room: Room; readonly harm: number } | undefined;
  for (const room of all) {
    const { pages, clashes } = placed([...standing, { ...fresh, page: room.page, x: room.x, y: room.y }]);
    const moved = pages
      .flatMap(({ nodes }) => nodes)
      .filter(({ node, box }) => {
        const old = places.get(node.id);
        return old !== undefined && Math.abs(old.box.y - box.y) > GRID;
      });
    // Others can make room; nothing helps a box that sticks out itself.
    const others = new Set(clashes.flat().filter((id) => id !== undefined && id !== fresh.node.id));
    const stuck = clashes.some(([id, other]) => id === fresh.node.id && other === undefined);
    const harm = others.size + moved.length + (stuck ? standing.length : 0);
    if (best === undefined || harm < best.harm) best = { room, harm };
    if (harm === 0) break;
  }
  return best?.room ?? { page: last, x: area.x + NEW_COLUMN, y: undefined };
}

interface Candidate {
  readonly page: number;
  readonly x: number;
  readonly y: number;
  /** It would stand in a region of its own. */
  readonly region: boolean;
}

/** Beneath every box of a page, over every column, and at the head of a column beside the others. */
function roomsOn(
  nodes: readonly PlacedNode[],
  page: number,
  group: DiagramGroup,
  area: Box,
): readonly Candidate[] {
  const titled = group.title === undefined ? PADDING : PADDING + TITLE_HEIGHT;
  const columns = new Map<number, PlacedNode[]>();
  for (const node of nodes) {
    const column = columns.get(node.box.x);
    if (column === undefined) columns.set(node.box.x, [node]);
    else column.push(node);
  }
  const found: Candidate[] = [];
  for (const [x, column] of columns) {
    column.sort((one, other) => one.box.y - other.box.y);
    column.forEach((above, index) => {
      const bottom = above.box.y + above.box.height;
      const below = column[index + 1];
      const own = above.group === group.id;
      const room = (below?.box.y ?? area.y + area.height) - bottom;
      // Some air where there is room for it.
      const gaps = own
        ? [2 * LEAST_GAP, LEAST_GAP]
        : [PADDING + 2 * LEAST_GAP + titled, PADDING + LEAST_GAP + titled];
      for (const gap of gaps)
        if (gap < room) found.push({ page, x, y: bottom + gap, region: !own && below?.group !== group.id });
    });
    const [first] = column;
    if (first !== undefined && first.box.y - area.y > 2 * titled)
      found.push({ page, x, y: area.y + titled, region: first.group !== group.id });
  }
  const xs = [...columns.keys()];
  const width = nodes[0]?.box.width ?? 0;
  const beside = BESIDE.flatMap((room) => [Math.min(...xs) - width - room, Math.max(...xs) + width + room]);
  for (const x of beside)
    if (x >= area.x + PADDING + GRID && x + width <= area.x + area.width - PADDING - GRID)
      found.push({ page, x, y: area.y + titled, region: true });
  return found;
}
