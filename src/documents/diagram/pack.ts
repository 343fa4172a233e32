/**
 * Pages for a diagram that follows the current: what is fed stands on one page with what feeds it, where one page does not hold it all. A
 * box and the ends that it feeds are never parted while a page holds them.
 */
import type { Box } from '../scene/scene.js';
import { wholeOf, type Diagram, type DiagramGroup, type DiagramNode } from './diagram.js';
import { clashesOn } from './fixed.js';
import type { Column } from './columns.js';
import { endsByNode, pagesOf, type PlacedPage } from './place.js';

/** A new box is tried on so many of the last pages. */
const OPEN_PAGES = 4;

const ANYWHERE = { xOf: () => undefined, yOf: () => undefined };

/** Place a diagram by its trees: whole ones first, and what does not fit on a page on the next. Undefined where pages do not hold it. */
export function packTrees(
  diagram: Diagram,
  area: Box,
  cut: ReadonlySet<string>,
): readonly PlacedPage[] | undefined {
  const ends = endsByNode(diagram);
  const pages: Set<string>[] = [];
  const pageOf = new Map<string, number>();
  /** Boxes whose flags are short, so that their page holds them. */
  const shortOn: ReadonlySet<string>[] = [];
  const groups = new Map(
    diagram.groups.flatMap((group) => group.nodes.map(({ id }) => [id, group] as const)),
  );
  const joinedTo = (ids: Iterable<string>): ReadonlySet<string> =>
    new Set([...ids].flatMap((id) => (ends.get(id) ?? []).flatMap(({ wire }) => [wire.a.node, wire.b.node])));
  /** Whether a page holds its boxes. What is not yet anywhere comes on a later page. */
  const holds = (page: number): boolean => {
    const around = joinedTo(pages[page] ?? []);
    const on = (id: string): number => pageOf.get(id) ?? Infinity;
    const before = columnsWith(diagram, (id) => on(id) < page && around.has(id));
    const own = columnsWith(diagram, (id) => on(id) === page);
    const after = columnsWith(diagram, (id) => on(id) > page && around.has(id));
    const here = own.map((_, index) => before.length + index);
    const all = [...before, ...own, ...after];
    for (const short of [new Set<string>(), new Set(pages[page])]) {
      const [placed] = pagesOf(diagram, all, area, ends, cut, { pages: [here], short, ...ANYWHERE });
      if (placed === undefined || clashesOn(placed, area).length > 0) continue;
      shortOn[page] = short;
      return true;
    }
    return false;
  };
  /** Put boxes on a page, unless it does not hold them, or another not what turns to them. */
  const put = (unit: readonly DiagramNode[], page: number): boolean => {
    const set = pages[page] ?? new Set();
    pages[page] = set;
    for (const { id } of unit) {
      set.add(id);
      pageOf.set(id, page);
    }
    const touched = new Set([page]);
    for (const id of joinedTo(unit.map((node) => node.id))) {
      const other = pageOf.get(id);
      if (other !== undefined) touched.add(other);
    }
    if ([...touched].every(holds)) return true;
    for (const { id } of unit) {
      set.delete(id);
      pageOf.delete(id);
    }
    return false;
  };
  /** Where boxes find room, on no page before that of what feeds them. */
  const place = (unit: readonly DiagramNode[], first: number): number | undefined => {
    for (let page = Math.max(first, pages.length - OPEN_PAGES); page <= pages.length; page += 1)
      if (put(unit, page)) return page;
      else if (page === pages.length - 1 && pages[page]?.size === 0) pages.pop();
    return undefined;
  };
  for (const { feeder, nodes } of unitsOf(diagram, groups)) {
    const first = feeder === undefined ? 0 : (pageOf.get(feeder) ?? 0);
    if (place(nodes, first) !== undefined) continue;
    // Too much for one page: the box, then what hangs on it as it fits.
    let from = first;
    for (const node of nodes) {
      const found = place([node], from);
      if (found === undefined) return undefined;
      from = found;
    }
  }

  const columns: Column[] = [];
  const numbers = pages.map((page) => {
    const own = columnsWith(diagram, (id) => page.has(id));
    columns.push(...own);
    return own.map((_, index) => columns.length - own.length + index);
  });
  const short = new Set(shortOn.flatMap((page) => [...page]));
  return pagesOf(diagram, columns, area, ends, cut, { pages: numbers, short, ...ANYWHERE });
}

/** The columns of a diagram, with some of its boxes alone. */
function columnsWith({ groups }: Diagram, has: (id: string) => boolean): readonly Column[] {
  return groups.flatMap((group): readonly Column[] => {
    const nodes = group.nodes.filter(({ id }) => has(id));
    return nodes.length === 0 ? [] : [{ parts: [{ group, nodes }] }];
  });
}

interface Unit {
  /** What feeds its first box. */
  readonly feeder: string | undefined;
  readonly nodes: readonly DiagramNode[];
}

/** Each box that feeds others with the ends that hang on it alone, every tree after the one before it. */
function unitsOf(diagram: Diagram, groups: ReadonlyMap<string, DiagramGroup>): readonly Unit[] {
  const nodes = diagram.groups.flatMap((group) => group.nodes);
  const order = new Map(nodes.map(({ id }, index) => [id, index]));
  const column = (id: string): number => diagram.groups.findIndex((group) => group === groups.get(id));
  const parents = new Map<string, string>();
  for (const { a, b } of diagram.wires) {
    const [over, under] = column(a.node) < column(b.node) ? [a.node, b.node] : [b.node, a.node];
    if (column(over) === column(under)) continue;
    const before = parents.get(under);
    if (before === undefined || (order.get(over) ?? 0) < (order.get(before) ?? 0)) parents.set(under, over);
  }
  for (const { id } of nodes) if (wholeOf(id) !== id) parents.set(id, wholeOf(id));
  const children = new Map<string, DiagramNode[]>();
  for (const node of nodes) {
    const parent = parents.get(node.id);
    if (parent !== undefined) children.set(parent, [...(children.get(parent) ?? []), node]);
  }
  const units: Unit[] = [];
  const visit = (node: DiagramNode): void => {
    const own = children.get(node.id) ?? [];
    const more = own.filter(({ id }) => children.has(id));
    units.push({
      feeder: parents.get(node.id),
      nodes: [node, ...own.filter((child) => !more.includes(child))],
    });
    for (const child of more) visit(child);
  };
  for (const node of nodes) if (!parents.has(node.id)) visit(node);
  return units;
}
