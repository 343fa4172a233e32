/**
 * Pages for a diagram that one page does not hold: few and full ones, and on each what belongs together. A zone, or a box that feeds
 * others with the ends that it alone feeds, begins as one; what is joined comes together for as long as a page holds it, and what then
 * leaves much of a page empty shares one with its neighbour.
 */
import type { Box } from '../scene/scene.js';
import { holder, type Hold } from './arrange.js';
import { wholeOf, type Diagram, type DiagramGroup, type DiagramNode } from './diagram.js';
import { orderOf } from './ends.js';
import type { PlacedPage } from './place.js';

type Holds = (ids: readonly string[]) => boolean;

type OnePage = (ids: readonly string[]) => ReturnType<Hold>;

/** What is joined to nothing on a page is tried on so many others, the nearest first. */
const NEAR = 6;

/** What stands together on a page. */
interface Cluster {
  readonly ids: readonly string[];
  /** Of its first box among all, by what feeds what. */
  readonly at: number;
}

/**
 * The better of two packings: with its columns as they are, and over one another. Undefined where there is a box that no page holds. Boxes
 * that stand `elsewhere` are not placed.
 */
export function packed(
  diagram: Diagram,
  area: Box,
  cut: ReadonlySet<string>,
  elsewhere: ReadonlySet<string> = new Set(),
): readonly PlacedPage[] | undefined {
  const hold = holder(diagram, area, cut);
  const units = unitsOf(diagram)
    .map((unit) => unit.filter((id) => !elsewhere.has(id)))
    .filter((unit) => unit.length > 0);
  const found = waysFor(diagram).flatMap((fold) => {
    const pages = packedBy(diagram, units, cut, (ids) => hold(ids, fold));
    return pages === undefined ? [] : [pages];
  });
  const worth = (pages: readonly PlacedPage[]): readonly number[] => [
    -pages.length,
    leastFilled(pages),
    -referencesOn(pages),
  ];
  return found.sort((x, y) => compare(worth(y), worth(x)))[0];
}

/** Whether columns may stand over one another. */
const waysFor = ({ pack }: Diagram): readonly boolean[] => (pack ? [true] : [false, true]);

const compare = (x: readonly number[], y: readonly number[]): number => {
  for (const [index, value] of x.entries()) if (value !== y[index]) return value - (y[index] ?? 0);
  return 0;
};

/** The area of the boxes on the page that has least. */
const leastFilled = (pages: readonly PlacedPage[]): number =>
  Math.min(...pages.map(({ nodes }) => nodes.reduce((sum, { box }) => sum + box.width * box.height, 0)));

/** How many references a layout has. */
const referencesOn = (pages: readonly PlacedPage[]): number =>
  pages.flatMap(({ nodes }) => nodes.flatMap(({ rows }) => rows)).filter(({ reference }) => reference).length;

/** Undefined where there is a box that no page holds. */
function packedBy(
  diagram: Diagram,
  units: readonly (readonly string[])[],
  cut: ReadonlySet<string>,
  hold: OnePage,
): readonly PlacedPage[] | undefined {
  const holds = (ids: readonly string[]): boolean => hold(ids) !== undefined;
  let clusters: readonly Cluster[] = units
    .flatMap((unit) => (holds(unit) ? [unit] : pieces(unit, hold)))
    .map((ids, at) => ({ ids, at }));
  clusters = joined(diagram, clusters, cut, holds);
  clusters = filled(clusters, holds);
  const pages: PlacedPage[] = [];
  for (const { ids } of [...clusters].sort((x, y) => x.at - y.at)) {
    const page = hold(ids)?.();
    if (page === undefined) return undefined;
    pages.push(page);
  }
  return pages;
}

/** A box with as many of its ends as a page holds, then the others, as many at a time. */
function pieces(unit: readonly string[], hold: OnePage): readonly (readonly string[])[] {
  const found: string[][] = [];
  for (const id of unit) {
    const last = found.at(-1);
    if (last !== undefined && hold([...last, id]) !== undefined) last.push(id);
    else found.push([id]);
  }
  return found;
}

/** Bring together what is joined by wires, while a page holds it: first what then leads hardly anywhere else. */
function joined(
  diagram: Diagram,
  given: readonly Cluster[],
  cut: ReadonlySet<string>,
  holds: Holds,
): readonly Cluster[] {
  const links = linksOf(diagram, given, cut);
  const failed = new Map<Cluster, Set<Cluster>>();
  for (;;) {
    const best = bestPair(links, failed);
    if (best === undefined) return [...links.keys()];
    const [one, other] = best;
    const both: Cluster = { ids: [...one.ids, ...other.ids], at: one.at };
    if (!holds(both.ids)) {
      failed.set(one, (failed.get(one) ?? new Set<Cluster>()).add(other));
      continue;
    }
    const around = new Map<Cluster, number>();
    for (const old of best) {
      for (const [far, count] of links.get(old) ?? []) {
        links.get(far)?.delete(old);
        if (!best.includes(far)) around.set(far, (around.get(far) ?? 0) + count);
      }
      links.delete(old);
    }
    for (const [far, count] of around) links.get(far)?.set(both, count);
    links.set(both, around);
  }
}

/** How many wires lead from each to each other. */
type Links = Map<Cluster, Map<Cluster, number>>;

function linksOf({ wires }: Diagram, clusters: readonly Cluster[], cut: ReadonlySet<string>): Links {
  const clusterOf = new Map(clusters.flatMap((cluster) => cluster.ids.map((id) => [id, cluster] as const)));
  const links: Links = new Map(clusters.map((cluster) => [cluster, new Map<Cluster, number>()]));
  for (const { id, a, b } of wires) {
    const [one, other] = [clusterOf.get(a.node), clusterOf.get(b.node)];
    if (cut.has(id) || one === undefined || other === undefined || one === other) continue;
    for (const [from, to] of [
      [one, other],
      [other, one],
    ] as const)
      links.get(from)?.set(to, (links.get(from)?.get(to) ?? 0) + 1);
  }
  return links;
}

/** The two of which one has most of its wires to the other; of equal ones those with more, then the first. */
function bestPair(
  links: Links,
  failed: ReadonlyMap<Cluster, ReadonlySet<Cluster>>,
): readonly [Cluster, Cluster] | undefined {
  const totals = new Map([...links].map(([one, around]) => [one, sum(around.values())]));
  let best: { readonly pair: readonly [Cluster, Cluster]; readonly worth: readonly number[] } | undefined;
  for (const [one, around] of links) {
    for (const [other, count] of around) {
      if (one.at > other.at || failed.get(one)?.has(other) === true) continue;
      const share = count / Math.min(totals.get(one) ?? 1, totals.get(other) ?? 1);
      const worth = [share, count, -one.at, -other.at];
      if (best === undefined || compare(worth, best.worth) > 0) best = { pair: [one, other], worth };
    }
  }
  return best?.pair;
}

const sum = (values: Iterable<number>): number => [...values].reduce((total, value) => total + value, 0);

/** Bring together what is not joined, while a page holds it: the least first, and with what is nearest. */
function filled(given: readonly Cluster[], holds: Holds): readonly Cluster[] {
  const clusters = [...given].sort((x, y) => x.at - y.at);
  for (const least of [...clusters].sort((x, y) => x.ids.length - y.ids.length || x.at - y.at)) {
    const index = clusters.findIndex(({ at }) => at === least.at);
    const own = clusters[index];
    if (own === undefined) continue;
    const near = Array.from(
      { length: NEAR },
      (_, step) => index + (step % 2 === 0 ? -1 : 1) * (1 + Math.floor(step / 2)),
    );
    const others = near.flatMap((place) => clusters[place] ?? []);
    const other = others.find(({ ids }) => holds([...own.ids, ...ids]));
    if (other === undefined) continue;
    const [first, second] = own.at < other.at ? [own, other] : [other, own];
    clusters.splice(clusters.indexOf(second), 1);
    clusters.splice(clusters.indexOf(first), 1, { ids: [...first.ids, ...second.ids], at: first.at });
  }
  return clusters;
}

/** Zones, or each box that feeds others with the ends that hang on it alone, every tree after the one before it. */
function unitsOf(diagram: Diagram): readonly (readonly string[])[] {
  if (diagram.pack) return diagram.groups.map((group) => group.nodes.map(({ id }) => id));
  const nodes = diagram.groups.flatMap((group) => group.nodes);
  const order = orderOf(diagram);
  const columns = new Map(
    diagram.groups.flatMap((group: DiagramGroup, column) =>
      group.nodes.map(({ id }) => [id, column] as const),
    ),
  );
  const column = (id: string): number => columns.get(id) ?? 0;
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
  const units: (readonly string[])[] = [];
  const visit = ({ id }: DiagramNode): void => {
    const own = children.get(id) ?? [];
    const more = own.filter((child) => children.has(child.id));
    units.push([id, ...own.filter((child) => !more.includes(child)).map((child) => child.id)]);
    for (const child of more) visit(child);
  };
  for (const node of nodes) if (!parents.has(node.id)) visit(node);
  return units;
}
