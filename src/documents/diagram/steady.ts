/** A diagram laid out where it stood before: what has no room there, and that alone, finds another place. */
import { compareText } from '../../vessel/words.js';
import type { Box } from '../scene/scene.js';
import { GRID, type Diagram } from './diagram.js';
import { placeFixed, type FixedLayout } from './fixed.js';
import { keptColumns, type KeptDiagram, type KeptNode, type Unsettled } from './kept.js';
import { routePage, type RoutedPage } from './route.js';
import { splitTall } from './split.js';

/** Where more than this share of the boxes would lose its place, the diagram is laid out anew. */
const MOST_FREED = 0.6;
/** Where more than this share of them would move, what is new comes on pages after the others. */
const MOST_MOVED = 0.15;
/** So few boxes are no arrangement that anybody has learnt: they make room for what is added. */
const FEW = 3;
/** So many of the boxes that are in the way are tried elsewhere, to see which of them is best moved. */
const TRIED = 8;

/** After so many tries too much has changed at once; one device more takes no more than twenty. */
const MOST_TRIES = 40;

/** A layout, with the numbers that its pages had. */
interface Attempt extends FixedLayout {
  readonly numbers: readonly number[];
}

/** A diagram where it stood before, and how many of its boxes do not stand there any more. */
export interface KeptLayout {
  readonly routed: readonly RoutedPage[];
  readonly moved: number;
}

/**
 * Lay a diagram out where it stood before. Boxes make room for what is new, or, where that would move more of them than a reader would
 * follow, it comes on pages after the others. Undefined where too much would move.
 */
export function layKept(diagram: Diagram, area: Box, kept: KeptDiagram): KeptLayout | undefined {
  const boxes = diagram.groups.reduce((sum, { nodes }) => sum + nodes.length, 0);
  if (kept.nodes.length <= FEW && boxes > kept.nodes.length) return undefined;
  const making = layWith(diagram, area, kept, 'room');
  if (making !== undefined && making.moved <= kept.nodes.length * MOST_MOVED) return making;
  const later = layWith(diagram, area, kept, 'later');
  return later !== undefined && later.moved < (making?.moved ?? Infinity) ? later : making;
}

/** A layout in which boxes make room first, or what is new comes later first. */
function layWith(
  diagram: Diagram,
  area: Box,
  kept: KeptDiagram,
  first: 'room' | 'later',
): KeptLayout | undefined {
  const split = splitTall(diagram, area.height);
  const old = new Map(kept.nodes.map((node) => [node.id, node]));
  const most = Math.max(1, kept.nodes.length * MOST_FREED);
  const cut = new Set<string>();
  let unsettled: Unsettled = { freed: new Set(), overflow: new Set() };
  let tries = 0;
  const attempt = (given: Unsettled): Attempt | undefined => {
    tries += 1;
    if (tries > MOST_TRIES) return undefined;
    const places = keptColumns(split, kept, area, given);
    if (places === undefined) return undefined;
    return { ...placeFixed(split, area, cut, places.columns, places.fixed), numbers: places.numbers };
  };
  let layout = attempt(unsettled);
  // Each round frees a box, puts one on a later page or takes out a wire.
  while (layout !== undefined) {
    const { clashes, pages } = layout;
    if (clashes.length === 0) {
      const routed = pages.map((page) => routePage(page, area, kept.scale));
      const lost = routed.flatMap((page) => page.lost);
      if (lost.length === 0) return { routed, moved: movedFrom(old, layout) };
      for (const id of lost) cut.add(id);
      layout = attempt(unsettled);
      continue;
    }
    if (unsettled.freed.size + 1 > most) return undefined;
    const harmOf = (tried: Attempt): number => tried.clashes.length + movedFrom(old, tried);
    const [best] = waysOut(layout, unsettled, old, first)
      .flatMap((way) => {
        const tried = attempt(way);
        return tried === undefined ? [] : [{ way, tried, harm: harmOf(tried) }];
      })
      .sort((x, y) => x.harm - y.harm);
    if (best === undefined) return undefined;
    unsettled = best.way;
    layout = best.tried;
  }
  return undefined;
}

/** What may be unsettled next: one of the boxes that are in the way, or else what is new there. */
function waysOut(
  layout: Attempt,
  { freed, overflow }: Unsettled,
  old: ReadonlyMap<string, KeptNode>,
  first: 'room' | 'later',
): readonly Unsettled[] {
  const leaving = inTheWay(layout, (id) => old.has(id) && !freed.has(id));
  const [latest] = inTheWay(layout, (id) => (!old.has(id) || freed.has(id)) && !overflow.has(id));
  return latest !== undefined && (first === 'later' || leaving.length === 0)
    ? [{ freed, overflow: new Set([...overflow, latest]) }]
    : leaving.slice(0, TRIED).map((id) => ({ freed: new Set([...freed, id]), overflow }));
}

/** How many boxes no longer stand where they stood, to a step of the grid. */
function movedFrom(old: ReadonlyMap<string, KeptNode>, { pages, numbers }: Attempt): number {
  return pages
    .flatMap(({ nodes }, index) =>
      nodes.map(({ node, box }) => ({ box, page: numbers[index], from: old.get(node.id) })),
    )
    .filter(
      ({ box, page, from }) =>
        from !== undefined &&
        (from.page !== page || Math.abs(from.x - box.x) > GRID || Math.abs(from.y - box.y) > GRID),
    ).length;
}

/** Boxes that may leave their place and are in the way: those that are in the way of most first, then what stands in a column with them. */
function inTheWay({ pages, clashes }: FixedLayout, mayLeave: (id: string) => boolean): readonly string[] {
  const counts = new Map<string, number>();
  for (const id of clashes.flat()) if (id !== undefined) counts.set(id, (counts.get(id) ?? 0) + 1);
  const columns = pages.flatMap((page) => {
    const xs = new Set(page.nodes.flatMap(({ node, box }) => (counts.has(node.id) ? [box.x] : [])));
    return page.nodes.flatMap(({ node, box }) => (xs.has(box.x) ? [node.id] : []));
  });
  for (const id of columns) if (!counts.has(id)) counts.set(id, 0);
  return [...counts]
    .filter(([id]) => mayLeave(id))
    .sort((x, y) => y[1] - x[1] || compareText(x[0], y[0]))
    .map(([id]) => id);
}
