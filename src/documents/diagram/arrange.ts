/**
 * Boxes on a page of their own, whatever else their diagram holds: each beside what feeds it there, as airy as the page allows. A page
 * depends on its own boxes alone, so that it stays as it is while they do.
 */
import type { Box, Point } from '../scene/scene.js';
import { GRID, type Diagram, type DiagramWire } from './diagram.js';
import { boxHeight, endsByNode, orderOf, type End } from './ends.js';
import { clashesOn } from './fixed.js';
import {
  NUMBER_REACH,
  PADDING,
  pagesOf,
  RESERVE,
  TITLE_HEIGHT,
  type PlacedGroup,
  type PlacedPage,
} from './place.js';
import { routePage, type RoutedPage } from './route.js';
import { squeezed } from './squeeze.js';
import {
  asColumn,
  byFeeders,
  byGroup,
  folded,
  FREE_WAYS,
  stacked,
  withFree,
  type Around,
  type Columns,
  type Member,
  type Room,
  type Stack,
} from './stack.js';

/** The longest way round that a wire may go where columns are moved together, as a share of the page's width. */
const MOST_ROUND = 0.4;

/** Of more boxes, in zones or without, the columns are not moved together: there would be too much between them. */
const MOST_SQUEEZED = { zones: 12, columns: 16 };

/** Boxes that a page holds, and how it looks. */
type Held = () => PlacedPage;

const NOTHING: PlacedPage = { nodes: [], groups: [], wires: [] };

/** Whether boxes find room on one page. Folded, columns may stand over one another. */
export type Hold = (ids: readonly string[], fold: boolean) => Held | undefined;

/** Tries boxes of a diagram, some at a time, and remembers which it tried. */
export function holder(diagram: Diagram, area: Box, cut: ReadonlySet<string>): Hold {
  const ends = endsByNode(diagram);
  const order = orderOf(diagram);
  const orderAt = (id: string): number => order.get(id) ?? 0;
  const members = new Map(
    diagram.groups.flatMap((group, rank) =>
      group.nodes.map((node): readonly [string, Member] => [node.id, { node, group, rank }]),
    ),
  );
  const inOrder = diagram.inOrder === true || diagram.pack;
  const least = diagram.pack ? 2 * (NUMBER_REACH + PADDING + GRID) : 2 * GRID;
  const mostColumns = Math.floor((area.width + least) / (diagram.nodeWidth + least));
  const known = new Map<string, Held | undefined>();
  return (ids, fold) => {
    const own = ids.flatMap((id) => members.get(id) ?? []);
    own.sort((x, y) => orderAt(x.node.id) - orderAt(y.node.id));
    const key = own.map(({ node }) => orderAt(node.id)).join(' ');
    const remembered = (name: string, find: () => Held | undefined): Held | undefined => {
      if (!known.has(name)) known.set(name, find());
      return known.get(name);
    };
    const flat = remembered(key, () => arranged(own, false));
    return flat !== undefined || !fold ? flat : remembered(`${key} folded`, () => arranged(own, true));
  };

  function arranged(own: Stack, fold: boolean): Held | undefined {
    const present = new Map(own.map((member) => [member.node.id, member]));
    const around: Around = new Map(
      own.map((member) => [
        member,
        (ends.get(member.node.id) ?? []).flatMap(({ far, wire }) =>
          cut.has(wire.id) ? [] : (present.get(far) ?? []),
        ),
      ]),
    );
    const free = own.filter((member) => around.get(member)?.length === 0);
    const tied = own.filter((member) => !free.includes(member));
    const tried = inOrder
      ? [{ columns: byGroup(own), apart: [] }]
      : [
          { columns: byGroup(own), apart: [] },
          { columns: byFeeders(tied, around), apart: free },
        ];
    for (const { columns: columnOf, apart } of tried) {
      const room = roomOf(own, present, columnOf);
      if (room.heightOf(own) > room.height * mostColumns) return undefined;
      let columns = stacked(columnOf, around, room, inOrder);
      // Where some have gone to another column, what feeds what would be hard to see.
      if (fold)
        columns =
          columns?.every((column) => isOne(column, columnOf)) === true ? folded(columns, room) : undefined;
      while (columns !== undefined) {
        if (columns.length <= mostColumns)
          for (const way of apart.length === 0 ? FREE_WAYS.slice(0, 1) : FREE_WAYS) {
            const held = heldIn(withFree(columns, apart, way, isFed, room));
            if (held !== undefined) return held;
          }
        columns = fold ? folded(columns, room) : undefined;
      }
    }
    return undefined;
  }

  /** Whether all that a box is joined to comes before it. */
  function isFed({ node: { id } }: Member): boolean {
    return (ends.get(id) ?? []).every(({ far }) => orderAt(far) < orderAt(id));
  }

  /** How high columns of these boxes are, which depends on what is on which side of them. */
  function roomOf(own: Stack, present: ReadonlyMap<string, Member>, columnOf: Columns): Room {
    const heights = new Map(
      own.map((member) => {
        const left: End[] = [];
        const right: End[] = [];
        for (const end of ends.get(member.node.id) ?? []) {
          const far = present.get(end.far);
          const before =
            far === undefined
              ? orderAt(end.far) < orderAt(member.node.id)
              : (columnOf.get(far) ?? 0) < (columnOf.get(member) ?? 0);
          (before ? left : right).push(end);
        }
        return [member, boxHeight(member.node, left, right)];
      }),
    );
    const heightOf = (stack: Stack): number =>
      stack.reduce((sum, member, index) => {
        const above = stack[index - 1];
        const titled = member.group.title !== undefined && above?.group !== member.group;
        return (
          sum +
          (heights.get(member) ?? 0) +
          (above === undefined ? 0 : diagram.gap) +
          (titled || above === undefined ? 2 * PADDING : 0) +
          (titled ? TITLE_HEIGHT : 0)
        );
      }, 0);
    return { heightOf, height: area.height - RESERVE };
  }

  /** A title stands on its region, which goes half a step of the grid beyond the area. */
  function isInside({ group, box }: PlacedGroup): boolean {
    if (group.title === undefined) return true;
    return box.x >= area.x - GRID / 2 && box.x + box.width <= area.x + area.width + GRID / 2;
  }

  /** As airy as may be: with long flags, with short ones, with little between the columns, with no more than each row needs. */
  function heldIn(stacks: readonly Stack[]): Held | undefined {
    if (stacks.length > mostColumns) return undefined;
    const columns = stacks.map(asColumn);
    const places = new Map(stacks.flat().map(({ node }, place) => [node.id, place]));
    // Wires are read from left to right and from the top, wherever a box stands among all.
    const placeOf = ({ a }: DiagramWire): number => places.get(a.node) ?? 0;
    const inTurn = (page: PlacedPage): PlacedPage =>
      inOrder ? page : { ...page, wires: [...page.wires].sort((x, y) => placeOf(x) - placeOf(y)) };
    const pages = [columns.map((_, index) => index)];
    const all = new Set(stacks.flat().map(({ node }) => node.id));
    const squeezable = all.size <= (diagram.pack ? MOST_SQUEEZED.zones : MOST_SQUEEZED.columns);
    const laid = (short: ReadonlySet<string>, tight: boolean): PlacedPage | undefined => {
      const given = { pages, short, tight, within: !tight || (!squeezable && columns.length > 1) };
      const [page] = pagesOf(diagram, columns, area, ends, cut, given);
      return page && inTurn(page);
    };
    const isClean = (page: PlacedPage): boolean =>
      clashesOn(page, area).length === 0 && page.groups.every(isInside);
    const airiest = (): PlacedPage | undefined => {
      const airy = laid(new Set(), false);
      if (airy !== undefined && isClean(airy)) return airy;
      const short = laid(all, false);
      return short !== undefined && isClean(short) ? short : undefined;
    };
    // Any paper is wide enough for one column.
    if (columns.length === 1) return () => airiest() ?? laid(all, true) ?? NOTHING;
    // The narrowest first, since most do not hold their boxes at all.
    const tight = laid(all, true);
    if (tight === undefined) return undefined;
    if (isClean(tight)) return () => airiest() ?? tight;
    if (!squeezable) return undefined;
    const near = squeezed(tight, area);
    return isClean(near) && isClear(routePage(near, area, 1)) ? () => near : undefined;
  }
}

/** Whether all that is in a column is there by itself. */
const isOne = (column: Stack, columnOf: Columns): boolean =>
  new Set(column.map((member) => columnOf.get(member))).size < 2;

/** Whether every wire of a page has a way, and none a long way round. */
function isClear({ lost, wires, area }: RoutedPage): boolean {
  return (
    lost.length === 0 &&
    wires.every(({ points }) => {
      const steps = points.slice(1).map((to, index) => distance(points[index] ?? to, to));
      const [first, last] = [points[0], points.at(-1)];
      if (first === undefined || last === undefined) return true;
      return steps.reduce((sum, step) => sum + step, 0) - distance(first, last) <= area.width * MOST_ROUND;
    })
  );
}

/** At right angles. */
const distance = (a: Point, b: Point): number => Math.abs(a.x - b.x) + Math.abs(a.y - b.y);
