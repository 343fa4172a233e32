/**
 * Places of boxes from one drawing to the next, so that a change moves nothing that it does not touch. What is new finds room among what
 * stands; what is gone leaves its place empty; a box with another name, but alike in all else, takes the place of the one that is gone.
 */
import type { Diagram, DiagramGroup, DiagramNode } from './diagram.js';
import type { Box } from '../scene/scene.js';
import type { Column } from './columns.js';
import type { Fixed } from './place.js';
import { packed } from './pack.js';
import { bestRoom, holds, type Surroundings } from './room.js';
import type { RoutedPage } from './route.js';

export interface KeptNode {
  readonly id: string;
  readonly group: string;
  /** What it is, without its name. */
  readonly like: string;
  readonly page: number;
  readonly x: number;
  readonly y: number;
}

/** The places of one diagram, as plain data that may be stored. */
export interface KeptDiagram {
  readonly paper: string;
  readonly scale: number;
  readonly nodes: readonly KeptNode[];
}

const likeOf = ({ lines, symbol }: DiagramNode): string => [symbol ?? '', ...lines.slice(0, 2)].join('|');

/** The places in a layout, sorted by name. */
export function keptOf(pages: readonly RoutedPage[], paper: string): KeptDiagram {
  const nodes = pages.flatMap(({ page }, number) =>
    page.nodes.map(({ node, box, group }): KeptNode => ({
      id: node.id,
      group,
      like: likeOf(node),
      page: number,
      x: box.x,
      y: box.y,
    })),
  );
  return {
    paper,
    scale: pages[0]?.scale ?? 1,
    nodes: nodes.sort((a, b) => (a.id < b.id ? -1 : a.id > b.id ? 1 : 0)),
  };
}

/** A box with its place. */
export interface Standing {
  readonly node: DiagramNode;
  readonly group: DiagramGroup;
  readonly page: number;
  readonly x: number;
  readonly y: number;
}

/** What cannot stay, or find room, where the others stand. */
export interface Unsettled {
  /** Boxes that leave their place and look for another. */
  readonly freed: ReadonlySet<string>;
  /** Boxes that come on pages after the others. */
  readonly overflow: ReadonlySet<string>;
}

/** Columns of a diagram, with their places. */
export interface KeptColumns {
  readonly columns: readonly Column[];
  readonly fixed: Fixed;
  /** The number of each page among those that were kept, and after them. */
  readonly numbers: readonly number[];
}

/** Of all boxes, as many may be pushed a little so that what is new stands among them. */
const MOST_PUSHED = 0.1;

/**
 * Columns of a diagram by places that were kept, and a place for each box that has none: among the others where it moves none, and else
 * on a page of its own with what it is joined to. Undefined where no page holds that.
 */
export function keptColumns(
  diagram: Diagram,
  kept: KeptDiagram,
  area: Box,
  { freed, overflow }: Unsettled,
): KeptColumns | undefined {
  const places = new Map(kept.nodes.map((node) => [node.id, node]));
  const ids = new Set(diagram.groups.flatMap((group) => group.nodes.map((node) => node.id)));
  const gone = kept.nodes.filter((node) => !ids.has(node.id));
  let standing: readonly Standing[] = [];
  const fresh: Fresh[] = [];
  const later = new Set<string>();
  for (const group of diagram.groups) {
    for (const node of group.nodes) {
      const own = places.get(node.id);
      const index = gone.findIndex((old) => old.group === group.id && old.like === likeOf(node));
      const [successor] = own === undefined && index >= 0 ? gone.splice(index, 1) : [];
      // A group without a title is only a column: what feeds a box may change, and the box stays.
      const place =
        own !== undefined && (own.group === group.id || group.title === undefined) ? own : successor;
      if (overflow.has(node.id)) later.add(node.id);
      else if (place === undefined || freed.has(node.id)) fresh.push({ node, group });
      else standing = [...standing, { node, group, page: place.page, x: place.x, y: place.y }];
    }
  }
  // What left its place made room for what is new, and comes after it.
  fresh.sort((x, y) => Number(places.has(x.node.id)) - Number(places.has(y.node.id)));
  const mostPushed = Math.floor(kept.nodes.length * MOST_PUSHED);
  for (const unit of joined(fresh, new Set(standing.map(({ node }) => node.id)), diagram)) {
    const settled = settle(unit, standing, { diagram, area, elsewhere: later, mostPushed });
    if (settled === undefined) for (const { node } of unit) later.add(node.id);
    else standing = settled;
  }
  const added = pagesAfter(later, standing, diagram, area);
  return added === undefined ? undefined : columnsAt([...standing, ...added]);
}

interface Fresh {
  readonly node: DiagramNode;
  readonly group: DiagramGroup;
}

/** What is new and joined with one another comes together, from what is joined to the others outwards. */
function joined(
  fresh: readonly Fresh[],
  standing: ReadonlySet<string>,
  diagram: Diagram,
): readonly (readonly Fresh[])[] {
  const far = new Map<string, string[]>(fresh.map(({ node }) => [node.id, []]));
  for (const { a, b } of diagram.wires) {
    far.get(a.node)?.push(b.node);
    far.get(b.node)?.push(a.node);
  }
  const near = ({ node }: Fresh): boolean => far.get(node.id)?.some((id) => standing.has(id)) === true;
  const waiting = new Map(fresh.map((one) => [one.node.id, one]));
  const units: (readonly Fresh[])[] = [];
  for (const first of [...fresh.filter(near), ...fresh]) {
    if (!waiting.delete(first.node.id)) continue;
    const unit = [first];
    for (const { node } of unit) {
      for (const id of far.get(node.id) ?? []) {
        const next = waiting.get(id);
        if (next === undefined) continue;
        waiting.delete(id);
        unit.push(next);
      }
    }
    units.push(unit);
  }
  return units;
}

/** Boxes that stand, with a unit of new ones among them; undefined where one of it finds no room. */
function settle(
  unit: readonly Fresh[],
  standing: readonly Standing[],
  surroundings: Surroundings,
): readonly Standing[] | undefined {
  const { diagram, elsewhere } = surroundings;
  const own = new Set(unit.map(({ node }) => node.id));
  // What is joined to nothing but what comes later comes with it.
  const ends = diagram.wires.flatMap(({ a, b }) =>
    own.has(a.node) && !own.has(b.node) ? [b.node] : own.has(b.node) && !own.has(a.node) ? [a.node] : [],
  );
  if (ends.length > 0 && ends.every((id) => elsewhere.has(id))) return undefined;
  // Close together if that goes well; else each with room for its wires to those that are still to come.
  for (const awaited of [new Set<string>(), own]) {
    const settled = settleEach(unit, standing, surroundings, awaited);
    if (settled !== undefined) return settled;
  }
  return undefined;
}

function settleEach(
  unit: readonly Fresh[],
  given: readonly Standing[],
  surroundings: Surroundings,
  awaited: ReadonlySet<string>,
): readonly Standing[] | undefined {
  const elsewhere = new Set([...surroundings.elsewhere, ...awaited]);
  let standing = given;
  for (const one of unit) {
    elsewhere.delete(one.node.id);
    const room = bestRoom(one, standing, { ...surroundings, elsewhere });
    if (room === undefined) return undefined;
    standing = [...standing, { ...one, ...room }];
  }
  return unit.length === 1 || holds(standing, surroundings) ? standing : undefined;
}

/** Pages after those that there are, for boxes that find no room on them. */
function pagesAfter(
  later: ReadonlySet<string>,
  standing: readonly Standing[],
  diagram: Diagram,
  area: Box,
): readonly Standing[] | undefined {
  if (later.size === 0) return [];
  const groups = new Map(
    diagram.groups.flatMap((group) => group.nodes.map(({ id }) => [id, group] as const)),
  );
  const first = 1 + Math.max(-1, ...standing.map(({ page }) => page));
  return packed(diagram, area, new Set(), new Set(standing.map(({ node }) => node.id)))?.flatMap(
    ({ nodes }, index) =>
      nodes.flatMap(({ node, box }): readonly Standing[] => {
        const group = groups.get(node.id);
        return group === undefined ? [] : [{ node, group, page: first + index, x: box.x, y: box.y }];
      }),
  );
}

/** Columns of boxes that stand, page by page and from left to right. */
export function columnsAt(given: readonly Standing[]): KeptColumns {
  const standing = [...given].sort((a, b) => a.page - b.page || a.x - b.x || a.y - b.y);
  const columns: {
    parts: { group: DiagramGroup; nodes: DiagramNode[] }[];
    readonly page: number;
    readonly x: number;
  }[] = [];
  for (const { node, group, page, x } of standing) {
    const last = columns.at(-1);
    const column = last?.page === page && last.x === x ? last : { parts: [], page, x };
    if (column !== last) columns.push(column);
    const part = column.parts.at(-1);
    if (part?.group !== group) column.parts.push({ group, nodes: [node] });
    else part.nodes.push(node);
  }
  const numbers = [...new Set(columns.map(({ page }) => page))];
  const ys = new Map(standing.map(({ node, y }) => [node.id, y]));
  return {
    columns,
    numbers,
    fixed: {
      pages: numbers.map((number) =>
        columns.flatMap((column, index) => (column.page === number ? [index] : [])),
      ),
      xOf: (column) => columns[column]?.x,
      yOf: (node) => ys.get(node),
    },
  };
}
