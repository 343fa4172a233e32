/** Room for a box among boxes that stand: near what it is joined to, and where it moves none of them. */
import type { Box } from '../scene/scene.js';
import { GRID, type Diagram, type DiagramGroup, type DiagramNode, type DiagramWire } from './diagram.js';
import { columnsAt, type Standing } from './kept.js';
import { placeFixed, type FixedLayout } from './fixed.js';
import { PADDING, TITLE_HEIGHT, type PlacedNode, type PlacedPage } from './place.js';

export interface Room {
  readonly page: number;
  readonly x: number;
  readonly y: number;
}

/** What is around a box that looks for a place. */
export interface Surroundings {
  readonly diagram: Diagram;
  readonly area: Box;
  readonly elsewhere: ReadonlySet<string>;
  readonly mostPushed: number;
}

interface Fresh {
  readonly node: DiagramNode;
  readonly group: DiagramGroup;
}

/** Between a column and one that is begun beside it: what is written at the ports, tracks for wires, and flags. */
const BESIDE = [40, 60, 80, 100];
/** Between a box and what is new beneath it: some air where there is room for it. */
const AIR = [10, 5];
/** So many places are tried, the nearest to what the box is joined to first. */
const TRIED = 24;
/** What weighs as much as so many mm of wire: a wire to another page, a second region of the same zone, a zone that it stands out of order with, a box that it pushes, or moves by a step. */
const OTHER_PAGE = 400;
const NEW_REGION = 60;
const OUT_OF_ORDER = 80;
const PUSHED = 150;
const STEPPED = 20;

/**
 * The place with the shortest wires where a box moves no other, or undefined where there is none. The boxes of a column may be pushed a
 * little for it, as long as no more than `mostPushed` of all have left their place. `elsewhere` are boxes that come on other pages.
 */
export function bestRoom(
  fresh: Fresh,
  standing: readonly Standing[],
  { diagram, area, elsewhere, mostPushed }: Surroundings,
): Room | undefined {
  const present = new Set([...standing.map(({ node }) => node.id), fresh.node.id, ...elsewhere]);
  const wires = wiresAmong(present, diagram);
  // Where the box is tried on one page, the others stay as they are without it.
  const pages = pagesWith(standing).map(([number, own]): TriedPage => ({
    number,
    own,
    ...placeAll(own, { ...diagram, wires }, area),
  }));
  const places = new Map(
    pages.flatMap(({ number, pages: [page] }) =>
      (page?.nodes ?? []).map((one) => [one.node.id, { page: number, box: one.box }] as const),
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
  const candidates = pages
    .flatMap((on) => {
      const nodes = on.pages[0]?.nodes ?? [];
      return roomsOn(nodes, on.number, fresh.group, area).map((one) => ({
        on,
        one,
        weight: weight(one, nodes),
      }));
    })
    .sort((p, q) => p.weight - q.weight || p.one.page - q.one.page || p.one.x - q.one.x || p.one.y - q.one.y);
  const before = pages.reduce((sum, page) => sum + pushed(page.pages, page.own), 0);
  let best: { readonly room: Room; readonly weight: number } | undefined;
  for (const { on, one: room, weight } of candidates.slice(0, TRIED)) {
    if (best !== undefined && weight >= best.weight) break;
    if (pages.some((page) => page !== on && page.clashes.length > 0)) continue;
    const all = [...on.own, { ...fresh, page: room.page, x: room.x, y: room.y }];
    const tried = placeAll(all, { ...diagram, wires }, area);
    const moved = before - pushed(on.pages, on.own) + pushed(tried.pages, on.own);
    const stepped = pushed(tried.pages, on.own, 0) - pushed(on.pages, on.own, 0);
    const worth = weight + Math.max(0, moved - before) * PUSHED + Math.max(0, stepped) * STEPPED;
    if (tried.clashes.length > 0 || moved > Math.max(mostPushed, before)) continue;
    if (worth >= (best?.weight ?? Infinity)) continue;
    // It may stand a little aside of where it was tried, so that the others need not move.
    const own = tried.pages[0]?.nodes.find(({ node }) => node.id === fresh.node.id);
    if (own !== undefined) best = { room: { page: room.page, x: own.box.x, y: own.box.y }, weight: worth };
  }
  return best?.room;
}

/** A page without the box that looks for a place. */
interface TriedPage extends FixedLayout {
  readonly number: number;
  readonly own: readonly Standing[];
}

/** What comes with a device: a display with its transducer, say. */
const AT_ONCE = 2;

/** Whether some boxes more, like the highest and joined to nothing, would find room on a page. */
export function hasRoom({ nodes }: PlacedPage, diagram: Diagram, area: Box): boolean {
  const groups = new Map(diagram.groups.map((group) => [group.id, group]));
  let standing = nodes.flatMap(({ node, group, box }): readonly Standing[] => {
    const own = groups.get(group);
    return own === undefined ? [] : [{ node, group: own, page: 0, x: box.x, y: box.y }];
  });
  const [highest] = [...nodes].sort((x, y) => y.box.height - x.box.height);
  const group = groups.get(highest?.group ?? '');
  if (highest === undefined || group === undefined) return true;
  for (let more = 1; more <= AT_ONCE; more += 1) {
    const fresh = { node: { ...highest.node, id: ` ${more}` }, group };
    const room = bestRoom(fresh, standing, { diagram, area, elsewhere: new Set(), mostPushed: 0 });
    if (room === undefined) return false;
    standing = [...standing, { ...fresh, ...room }];
  }
  return true;
}

/** What stands on each page, in order. */
function pagesWith(standing: readonly Standing[]): readonly (readonly [number, readonly Standing[]])[] {
  const numbers = [...new Set(standing.map(({ page }) => page))].sort((x, y) => x - y);
  return numbers.map((number) => [number, standing.filter(({ page }) => page === number)]);
}

/** Whether boxes stand where they are to stand, but for those that may be pushed. */
export function holds(
  standing: readonly Standing[],
  { diagram, area, elsewhere, mostPushed }: Surroundings,
): boolean {
  const present = new Set([...standing.map(({ node }) => node.id), ...elsewhere]);
  const { pages, clashes } = placeAll(standing, { ...diagram, wires: wiresAmong(present, diagram) }, area);
  return clashes.length === 0 && pushed(pages, standing) <= mostPushed;
}

function wiresAmong(present: ReadonlySet<string>, { wires }: Diagram): readonly DiagramWire[] {
  return wires.filter(({ a, b }) => present.has(a.node) && present.has(b.node));
}

function placeAll(standing: readonly Standing[], diagram: Diagram, area: Box): FixedLayout {
  const { columns, fixed } = columnsAt(standing);
  return placeFixed(diagram, area, new Set(), columns, fixed);
}

/** How many boxes are not where they are to stand, by more than a step of the grid, or another length in mm. */
function pushed(pages: FixedLayout['pages'], standing: readonly Standing[], by = GRID): number {
  const places = new Map(standing.map(({ node, y }) => [node.id, y]));
  return pages
    .flatMap(({ nodes }) => nodes)
    .filter(({ node, box }) => Math.abs((places.get(node.id) ?? box.y) - box.y) > by).length;
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
      const gaps = own ? AIR : AIR.map((air) => PADDING + air + titled);
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
