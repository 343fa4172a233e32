/**
 * Places of boxes from one drawing to the next, so that a change moves nothing that it does not touch. What is new stands under the last
 * box of its group; what is gone leaves its place empty; a box with another name, but alike in all else, takes the place of the one that
 * is gone.
 */
import type { Diagram, DiagramGroup, DiagramNode } from './diagram.js';
import type { Box } from '../scene/scene.js';
import { heightsOf, LEAST_GAP, PADDING, TITLE_HEIGHT, type Column, type Fixed } from './place.js';
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

/** Room at the left of a column on a page that is begun for what is new: for its references. */
const NEW_COLUMN = 65;

interface Standing {
  readonly node: DiagramNode;
  readonly group: DiagramGroup;
  readonly page: number;
  readonly x: number;
  readonly y: number | undefined;
}

/**
 * Columns of a diagram by places that were kept, and a place for each box that has none. `freed` are boxes
 * that leave their place; those `apart` go to a page that is begun for them.
 */
export function keptColumns(
  diagram: Diagram,
  kept: KeptDiagram,
  area: Box,
  freed: ReadonlySet<string>,
  apart: ReadonlySet<string>,
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
      const place = own?.group === group.id ? own : successor;
      if (place === undefined || freed.has(node.id)) fresh.push({ node, group });
      else standing.push({ node, group, page: place.page, x: place.x, y: place.y });
    }
  }
  const heightOf = heightsOf(diagram);
  let page = Math.max(-1, ...kept.nodes.map((node) => node.page)) + 1;
  let used = 0;
  for (const one of fresh) {
    const room = apart.has(one.node.id) ? undefined : roomFor(one, standing, heightOf, area);
    if (room === undefined) {
      const height = heightOf(one.node) + TITLE_HEIGHT + 2 * PADDING + diagram.gap;
      if (used > 0 && used + height > area.height - PADDING) {
        page += 1;
        used = 0;
      }
      used += height;
    }
    standing.push({ ...one, ...(room ?? { page, x: area.x + NEW_COLUMN, y: undefined }) });
  }
  return columnsAt(standing);
}

/** The first gap in a column of its own group that is high enough, from the top. */
function roomFor(
  { node, group }: { readonly node: DiagramNode; readonly group: DiagramGroup },
  standing: readonly Standing[],
  heightOf: (node: DiagramNode) => number,
  area: Box,
): { readonly page: number; readonly x: number; readonly y: number } | undefined {
  const height = heightOf(node);
  for (const above of standing) {
    if (above.group !== group || above.y === undefined) continue;
    const y = above.y + heightOf(above.node) + LEAST_GAP;
    const beneath = standing.filter(
      (one) => one.page === above.page && one.x === above.x && one.y !== undefined && one.y > (above.y ?? 0),
    );
    // A group that begins beneath needs its title, and both need their edges.
    const tops = beneath.map(
      (one) => (one.y ?? 0) - (one.group === group ? LEAST_GAP : TITLE_HEIGHT + 2 * PADDING + LEAST_GAP),
    );
    if (y + height <= Math.min(area.y + area.height - PADDING, ...tops))
      return { page: above.page, x: above.x, y };
  }
  return undefined;
}

function columnsAt(given: readonly Standing[]): {
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
    const part = column.parts.find((one) => one.group === group);
    if (part === undefined) column.parts.push({ group, nodes: [node] });
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
