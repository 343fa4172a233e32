/**
 * Places for boxes: groups from left to right, in each the boxes from the top in their given order. Nothing here looks at names, and a
 * box moves only for what stands before it in its own column, so that one more or one less leaves the rest in place.
 */
import { columnsOf, type Column } from './columns.js';
import { compareText } from '../../vessel/words.js';
import { standing, type Stander } from './stand.js';
import type { Box } from '../scene/scene.js';
import {
  boxHeight,
  endsByNode,
  headHeight,
  heightsOf,
  orderOf,
  rowHeight,
  rowMiddle,
  SHORT_FLAG,
  up,
  type End,
} from './ends.js';
import { GRID, type Diagram, type DiagramGroup, type DiagramNode, type DiagramWire } from './diagram.js';

/** One end of a wire at a box. */
export interface Row {
  readonly wire: DiagramWire;
  readonly end: 'a' | 'b';
  readonly side: 'left' | 'right';
  /** Where the stub begins, on the edge of the box. */
  readonly x: number;
  readonly y: number;
  /** How far from the edge the way belongs to this end alone. */
  readonly reach: number;
  /** The other end is on another page, or no way leads there: a reference stands here. */
  readonly reference: boolean;
  /** Length of its flag, 0 where there is none. */
  readonly flag: number;
}

export interface PlacedNode {
  readonly node: DiagramNode;
  /** The id of its group. */
  readonly group: string;
  readonly box: Box;
  /** Height of the head with name and lines. */
  readonly head: number;
  readonly rows: readonly Row[];
}

export interface PlacedGroup {
  readonly group: DiagramGroup;
  readonly box: Box;
}

export interface PlacedPage {
  readonly nodes: readonly PlacedNode[];
  readonly groups: readonly PlacedGroup[];
  /** Wires with both ends on this page. */
  readonly wires: readonly DiagramWire[];
}

/** Places that are given: columns by their pages, and the places of columns and boxes; a box without one stands under the last. */
export interface Fixed {
  readonly pages: readonly (readonly number[])[];
  readonly xOf?: (column: number) => number | undefined;
  readonly yOf?: (node: string) => number | undefined;
  /** Boxes with little room beside them: their references have short flags. */
  readonly short?: ReadonlySet<string>;
  /** Columns without a title stand as near to one another as their wires let them. */
  readonly tight?: boolean;
  /** Pages that are far too wide are left out, since nobody would take them. */
  readonly within?: boolean;
}

/** What a page takes beyond its area at most while boxes and texts may yet be within. */
const MOST_OVER = 10;
/** Rows stand at most this much further apart than boxes. */
const MOST_BETWEEN_ROWS = 30;
/** Boxes of a column stand at most this much further apart than they need to. */
const MOST_EXTRA = 10;
/** Where one has grown, the next may come as near as this: a step of the grid, so that the one after it need not move. */
const LEAST_GAP = GRID;
/** Between groups, each of which has an edge. */
const LEAST_BETWEEN = 5;
/** At the foot of every column, for a box that grows by a port. */
export const RESERVE = 5;
/** What a cable's number takes. */
export const NUMBER_REACH = 12.5;
/** Around the boxes of a group. */
export const PADDING = 2.5;
/** A group's edge stands between the lines of the grid, so that no wire runs on it. */
const HALF = GRID / 2;
/** Over the boxes of a group that has a title. */
export const TITLE_HEIGHT = 7.5;
const LEAST_TRACKS = 7.5;
/** No paper is so wide that more columns stand beside one another. */
const MOST_COLUMNS = 8;

/** Room for as many wires side by side, no more of it than they need. */
export const tracksFor = (wires: number): number => Math.max(2 * GRID, up(wires * GRID * 0.6 + GRID));

/** Place a diagram in an area of each page; undefined where it surely takes more than `mostPages`. Wires in `cut` are drawn as references. */
export function placeDiagram(
  diagram: Diagram,
  area: Box,
  cut: ReadonlySet<string>,
  mostPages: number,
): readonly PlacedPage[] | undefined {
  const ends = endsByNode(diagram);
  const most = heightsOf(diagram);
  const groups = diagram.groups.filter((group) => group.nodes.length > 0);
  const columnsWith = (pack: boolean): readonly Column[] =>
    columnsOf(groups, area.height - RESERVE, most, diagram.gap, pack);
  const tooWide = (columns: readonly Column[]): boolean =>
    columns.length * diagram.nodeWidth > mostPages * area.width;
  const loose = columnsWith(false);
  if (tooWide(loose) && (!diagram.pack || tooWide(columnsWith(true)))) return undefined;
  const attempt = pagesOf(diagram, loose, area, ends, cut);
  if (attempt.length <= 1 || !diagram.pack) return attempt;
  return pagesOf(diagram, columnsWith(true), area, ends, cut);
}

/** An end, with the column of the box at the other; -1 where its wire is cut or that box is nowhere. */
interface Port extends End {
  readonly column: number;
}

/** One side of a box. */
interface Side {
  readonly ports: readonly Port[];
  /** Room for what is written at any of them. */
  readonly texts: number;
}

interface Sided {
  readonly left: Side;
  readonly right: Side;
}

/** What a part of a column takes over its boxes and under them; without titles, the groups of a column are one. */
function around(parts: Column['parts'], place: number): { readonly over: number; readonly under: number } {
  const titled = (part: Column['parts'][number] | undefined): boolean =>
    part === undefined || part.group.title !== undefined;
  if (titled(parts[place])) return { over: PADDING + TITLE_HEIGHT, under: PADDING };
  return {
    over: titled(parts[place - 1]) ? PADDING : 0,
    under: titled(parts[place + 1]) ? PADDING : 0,
  };
}

const untitled = ({ parts }: Column): boolean => parts.every(({ group }) => group.title === undefined);

const sideOf = (ports: readonly Port[]): Side => ({
  ports,
  texts: ports.reduce((most, { reach }) => Math.max(most, reach), 0),
});

const NO_SIDES: Sided = { left: sideOf([]), right: sideOf([]) };

/** Columns with their boxes placed, page by page. */
export function pagesOf(
  diagram: Diagram,
  columns: readonly Column[],
  area: Box,
  ends: ReadonlyMap<string, readonly End[]>,
  cut: ReadonlySet<string>,
  fixed?: Fixed,
): readonly PlacedPage[] {
  const columnOf = new Map<string, number>();
  const rankOf = new Map<string, number>();
  columns.forEach((column, index) => {
    column.parts
      .flatMap((part) => part.nodes)
      .forEach((node, rank) => {
        columnOf.set(node.id, index);
        rankOf.set(node.id, rank);
      });
  });
  const order = orderOf(diagram);
  const pageOf = new Map(fixed?.pages.flatMap((page, index) => page.map((column) => [column, index])));
  /** Whether an end is on the left: where the other stands, or on which side it would, were it on this page. */
  const isBefore = (far: string, near: string, here: number): boolean => {
    const there = columnOf.get(far);
    if (fixed === undefined || (there !== undefined && pageOf.get(there) === pageOf.get(here)))
      return there !== undefined && there < here;
    return (order.get(far) ?? Infinity) < (order.get(near) ?? 0);
  };
  const sidesOf = (node: DiagramNode): Sided => {
    const here = columnOf.get(node.id) ?? 0;
    const left: Port[] = [];
    const right: Port[] = [];
    for (const end of ends.get(node.id) ?? []) {
      const port = { ...end, column: cut.has(end.wire.id) ? -1 : (columnOf.get(end.far) ?? -1) };
      (isBefore(end.far, node.id, here) ? left : right).push(port);
    }
    return { left: sideOf(left), right: sideOf(right) };
  };
  /** Ends in the order in which their wires part without crossing; references last, by their ports. */
  const sorted = (node: DiagramNode, list: readonly Port[], page: ReadonlySet<number>): readonly Port[] => {
    if (list.length < 2) return list;
    const here = columnOf.get(node.id) ?? 0;
    const rank = rankOf.get(node.id) ?? 0;
    const keyOf = (port: Port): readonly [number, number, number] => {
      if (isReference(port, page)) return [3, 0, 0];
      const other = rankOf.get(port.far) ?? 0;
      // Loops back to the own column lie in one another: the nearest above first, the nearest below last.
      if (port.column === here) return [other < rank ? 0 : 2, -other, 0];
      return [1, other, -Math.abs(port.column - here)];
    };
    const portOf = ({ wire, end }: End): string => wire[end].port;
    return list
      .map((end) => ({ end, key: keyOf(end) }))
      .sort(
        (x, y) =>
          x.key[0] - y.key[0] ||
          x.key[1] - y.key[1] ||
          x.key[2] - y.key[2] ||
          byNumber(portOf(x.end), portOf(y.end)),
      )
      .map(({ end }) => end);
  };
  const sides = new Map(
    columns.flatMap((column) =>
      column.parts.flatMap((part) => part.nodes.map((node) => [node.id, sidesOf(node)] as const)),
    ),
  );

  const pages: (readonly number[])[] = [];
  // The longest run of columns that fits: what is joined within it needs no flags, so that more may fit where fewer do not.
  const breakPages = (): void => {
    for (let start = 0; start < columns.length;) {
      let page = [start];
      for (let end = start + 1; end < Math.min(columns.length, start + MOST_COLUMNS); end += 1) {
        const trial = Array.from({ length: end - start + 1 }, (_, index) => start + index);
        if (widthOfPage(trial, new Set(trial)) <= area.width) page = trial;
      }
      pages.push(page);
      start += page.length;
    }
  };

  const isReference = ({ column }: Port, here: ReadonlySet<number>): boolean => !here.has(column);

  /** The length of the flags on a side of a box: of one length, so that they end under one another. */
  const flagAt = (node: DiagramNode, { ports }: Side, here: ReadonlySet<number>): number => {
    let longest = 0;
    for (const port of ports) if (isReference(port, here)) longest = Math.max(longest, port.flag);
    return longest > 0 && fixed?.short?.has(node.id) === true ? SHORT_FLAG : longest;
  };

  /** Room that a side of a column needs for what is written at its ports. */
  const reachOn = (column: number, side: 'left' | 'right', here: ReadonlySet<number>): number => {
    let reach = 0;
    for (const part of columns[column]?.parts ?? []) {
      for (const node of part.nodes) {
        const own = sides.get(node.id)?.[side];
        if (own !== undefined && own.ports.length > 0)
          reach = Math.max(reach, own.texts + flagAt(node, own, here));
      }
    }
    return reach;
  };
  const tracksBetween = (
    first: number | undefined,
    second: number | undefined,
    here: ReadonlySet<number>,
  ): number => {
    const crossing = new Set<DiagramWire>();
    const add = (column: number | undefined, side: 'left' | 'right'): void => {
      if (column === undefined) return;
      for (const part of columns[column]?.parts ?? [])
        for (const node of part.nodes)
          for (const port of sides.get(node.id)?.[side].ports ?? [])
            if (!isReference(port, here)) crossing.add(port.wire);
    };
    add(first, 'right');
    add(second, 'left');
    if (crossing.size === 0) return first === undefined || second === undefined ? 0 : GRID;
    if (fixed?.tight === true) return tracksFor(crossing.size);
    return Math.max(LEAST_TRACKS, up(crossing.size * GRID * 0.6 + GRID, LEAST_TRACKS));
  };
  const padding = fixed?.tight === true && columns.every(untitled) ? 0 : 2 * PADDING;
  const channel = (
    first: number | undefined,
    second: number | undefined,
    here: ReadonlySet<number>,
  ): number => {
    // By zones, room for a number at a side that has no wire yet, so that one more finds its place.
    const least = diagram.pack ? NUMBER_REACH : 0;
    const left = first === undefined ? 0 : Math.max(least, reachOn(first, 'right', here));
    const right =
      second === undefined ? 0 : Math.max(first === undefined ? 0 : least, reachOn(second, 'left', here));
    return padding + left + right + tracksBetween(first, second, here);
  };
  const widthOfPage = (page: readonly number[], here: ReadonlySet<number>): number =>
    page.reduce(
      (sum, column, index) => sum + channel(page[index - 1], column, here) + diagram.nodeWidth,
      channel(page.at(-1), undefined, here),
    );
  if (fixed === undefined) breakPages();
  else pages.push(...fixed.pages);

  return pages.flatMap((page): readonly PlacedPage[] => {
    const here = new Set(page);
    const spare = area.width - widthOfPage(page, here);
    if (spare < -MOST_OVER && fixed?.within === true) return [];
    const extra = page.length < 2 ? 0 : Math.min(20, Math.max(0, Math.floor(spare / page.length / 5) * 5));
    const margin = Math.max(0, Math.floor((spare - extra * (page.length - 1)) / 2 / GRID) * GRID);
    const rows = rowTops(page.flatMap((column) => columns[column] ?? []));
    const nodes: PlacedNode[] = [];
    const groups: PlacedGroup[] = [];
    let x = area.x + margin;
    page.forEach((column, index) => {
      x = fixed?.xOf?.(column) ?? x + channel(page[index - 1], column, here) + (index > 0 ? extra : 0);
      let { y } = area;
      const parts = columns[column]?.parts ?? [];
      const tops = topsOf(parts);
      const gap = rows === undefined ? gapIn(parts) : diagram.gap;
      parts.forEach((part, place) => {
        const { over, under } = around(parts, place);
        const [first] = part.nodes;
        const top = (tops?.get(first?.id ?? '') ?? y + over) - over;
        y = top + over;
        part.nodes.forEach((node, rank) => {
          if (rank > 0) y = tops?.get(node.id) ?? y + gap;
          if (tops === undefined) y = Math.max(y, rows?.get(node.row ?? 0) ?? y);
          const placed = placeNode(node, part.group.id, x, y, sides.get(node.id) ?? NO_SIDES, here);
          nodes.push(placed);
          y += placed.box.height;
        });
        y += under;
        groups.push({
          group: part.group,
          box: {
            x: x - PADDING - HALF,
            y: top - HALF,
            width: diagram.nodeWidth + 2 * (PADDING + HALF),
            height: y - top + 2 * HALF,
          },
        });
        y += gap;
      });
      x += diagram.nodeWidth;
    });
    const present = new Set(nodes.map(({ node }) => node.id));
    const wires = diagram.wires.filter(
      (wire) => present.has(wire.a.node) && present.has(wire.b.node) && !cut.has(wire.id),
    );
    return [{ nodes, groups, wires }];
  });

  /** Where boxes stand that have places; undefined where they have none. */
  function topsOf(parts: Column['parts']): ReadonlyMap<string, number> | undefined {
    const boxes: Stander[] = [];
    const ids: string[] = [];
    for (const [place, part] of parts.entries()) {
      const { over } = around(parts, place);
      const between =
        place === 0 ? 0 : around(parts, place - 1).under + (over > 0 ? LEAST_BETWEEN : LEAST_GAP);
      for (const [rank, node] of part.nodes.entries()) {
        const top = fixed?.yOf?.(node.id);
        if (top === undefined) return undefined;
        const height = sidedHeight(node, sides.get(node.id) ?? NO_SIDES);
        boxes.push({ top, height, over: rank > 0 ? LEAST_GAP : over + between });
        ids.push(node.id);
      }
    }
    const tops = standing(boxes, area.y, area.y + area.height - PADDING);
    return new Map(ids.map((id, index) => [id, tops[index] ?? 0]));
  }

  /** Where each row begins, so that all boxes of those over it have room; undefined where there are none, or the page is too low. */
  function rowTops(page: readonly Column[]): ReadonlyMap<number, number> | undefined {
    const isOrdered = ({ parts }: Column): boolean => {
      const own = parts.flatMap(({ nodes }) => nodes.map(({ row }) => row ?? 0));
      return own.every((row, index) => index === 0 || row >= (own[index - 1] ?? 0));
    };
    if (!page.every(isOrdered)) return undefined;
    const columnsOfRows = page.map(({ parts }) => {
      const heights = new Map<number, number>();
      for (const node of parts.flatMap((part) => part.nodes)) {
        if (node.row === undefined) continue;
        const above = heights.get(node.row);
        const own = sidedHeight(node, sides.get(node.id) ?? NO_SIDES);
        heights.set(node.row, above === undefined ? own : above + diagram.gap + own);
      }
      return heights;
    });
    const numbers = [...new Set(columnsOfRows.flatMap((heights) => [...heights.keys()]))].sort(
      (x, y) => x - y,
    );
    const highest = numbers.map((row) => Math.max(...columnsOfRows.map((heights) => heights.get(row) ?? 0)));
    if (numbers.length < 2) return undefined;
    const spare = area.height - RESERVE - 2 * PADDING - highest.reduce((sum, height) => sum + height, 0);
    const gap = Math.floor(spare / (numbers.length - 1) / GRID) * GRID;
    if (gap < diagram.gap) return undefined;
    let top = area.y + PADDING;
    return new Map(
      numbers.map((row, index) => {
        const own = top;
        top = own + (highest[index] ?? 0) + Math.min(gap, diagram.gap + MOST_BETWEEN_ROWS);
        return [row, own] as const;
      }),
    );
  }

  /** Between the boxes of a column: as much as there is room for, so that one may grow and the others stay. */
  function gapIn(parts: Column['parts']): number {
    let high = RESERVE;
    let gaps = -1;
    parts.forEach((part, place) => {
      const { over, under } = around(parts, place);
      high += over + under;
      for (const node of part.nodes) {
        high += sidedHeight(node, sides.get(node.id) ?? NO_SIDES);
        gaps += 1;
      }
    });
    const spare = Math.floor((area.height - high) / Math.max(1, gaps) / GRID) * GRID;
    return Math.min(diagram.gap + MOST_EXTRA, Math.max(diagram.gap, spare));
  }

  function placeNode(
    node: DiagramNode,
    group: string,
    x: number,
    y: number,
    sided: Sided,
    here: ReadonlySet<number>,
  ): PlacedNode {
    const head = headHeight(node);
    const rows: Row[] = [];
    for (const side of ['left', 'right'] as const) {
      let at = node.compact === true ? y : y + head;
      // A flag would stand on the longer text of the row beneath it.
      const flag = flagAt(node, sided[side], here);
      for (const port of sorted(node, sided[side].ports, here)) {
        const { wire, end } = port;
        const { tag } = wire[end];
        rows.push({
          wire,
          end,
          side,
          x: side === 'left' ? x : x + diagram.nodeWidth,
          y: at + rowMiddle(tag),
          reach: flag > 0 ? sided[side].texts : port.reach,
          reference: isReference(port, here),
          flag: isReference(port, here) ? flag : 0,
        });
        at += rowHeight(tag);
      }
    }
    return {
      node,
      group,
      head,
      rows,
      box: { x, y, width: diagram.nodeWidth, height: sidedHeight(node, sided) },
    };
  }
}

/** `2` before `10`. */
export function byNumber(first: string, second: string): number {
  return Number(first) - Number(second) || compareText(first, second);
}

const sidedHeight = (node: DiagramNode, { left, right }: Sided): number =>
  boxHeight(node, left.ports, right.ports);
