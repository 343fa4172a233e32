/**
 * Places of boxes from one drawing to the next, so that a change moves nothing that it does not touch. What is new finds room among what
 * stands; what is gone leaves its place empty; a box with another name, but alike in all else, takes the place of the one that is gone.
 */
import type { Diagram, DiagramGroup, DiagramNode } from './diagram.js';
import type { Box } from '../scene/scene.js';
import type { Column } from './columns.js';
import type { Fixed } from './place.js';
import { bestRoom } from './room.js';
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

/** A box with its place; `y` is undefined where it stands under the last of its column. */
export interface Standing {
  readonly node: DiagramNode;
  readonly group: DiagramGroup;
  readonly page: number;
  readonly x: number;
  readonly y: number | undefined;
}

/** Columns of a diagram by places that were kept, and a place for each box that has none. `freed` are boxes that leave their place. */
export function keptColumns(
  diagram: Diagram,
  kept: KeptDiagram,
  area: Box,
  freed: ReadonlySet<string>,
): { readonly columns: readonly Column[]; readonly fixed: Fixed } {
  const places = new Map(kept.nodes.map((node) => [node.id, node]));
  const ids = new Set(diagram.groups.flatMap((group) => group.nodes.map((node) => node.id)));
  const gone = kept.nodes.filter((node) => !ids.has(node.id));
  const standing: Standing[] = [];
  const fresh: { readonly node: DiagramNode; readonly group: DiagramGroup }[] = [];
  for (const group of diagram.groups) {
    for (const node of group.nodes) {
      const own = places.get(node.id);
      const index = gone.findIndex((old) => old.group === group.id && old.like === likeOf(node));
      const [successor] = own === undefined && index >= 0 ? gone.splice(index, 1) : [];
      // A group without a title is only a column: what feeds a box may change, and the box stays.
      const place =
        own !== undefined && (own.group === group.id || group.title === undefined) ? own : successor;
      if (place === undefined || freed.has(node.id)) fresh.push({ node, group });
      else standing.push({ node, group, page: place.page, x: place.x, y: place.y });
    }
  }
  // What is new first: a box that leaves its place for it looks for another with it there.
  fresh.sort((x, y) => Number(freed.has(x.node.id)) - Number(freed.has(y.node.id)));
  for (const one of fresh) standing.push({ ...one, ...bestRoom(one, standing, diagram, area) });
  return columnsAt(standing);
}

/** Columns of boxes that stand, page by page and from left to right. */
export function columnsAt(given: readonly Standing[]): {
  readonly columns: readonly Column[];
  readonly fixed: Fixed;
} {
  const standing = [...given].sort(
    (a, b) => a.page - b.page || a.x - b.x || (a.y ?? Infinity) - (b.y ?? Infinity) || 0,
  );
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
  const ys = new Map(standing.flatMap(({ node, y }) => (y === undefined ? [] : [[node.id, y] as const])));
  return {
    columns,
    fixed: {
      pages: numbers.map((number) =>
        columns.flatMap((column, index) => (column.page === number ? [index] : [])),
      ),
      xOf: (column) => columns[column]?.x,
      yOf: (node) => ys.get(node),
    },
  };
}
