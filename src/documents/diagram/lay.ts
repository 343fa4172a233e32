/** A diagram laid out on pages: places, ways, and references where a wire leaves its page or finds no way. */
import type { Paper } from '../frame/paper.js';
import { zoneAt } from '../frame/paper.js';
import { BLOCK_HEIGHT } from '../frame/titleBlock.js';
import type { Box, Item } from '../scene/scene.js';
import { enlarged } from '../scene/enlarge.js';
import { GRID, type Diagram } from './diagram.js';
import { holder } from './arrange.js';
import { packed } from './pack.js';
import { placeDiagram, type Row } from './place.js';
import type { KeptDiagram } from './kept.js';
import { layKept } from './steady.js';
import { hasRoom } from './room.js';
import { splitTall } from './split.js';
import { referenceId, renderPage, type Reference } from './render.js';
import { routePage, type RoutedPage } from './route.js';
import { leadOf } from './way.js';

/** Room for a diagram on a paper: inside the frame, over title block and legend. */
export function diagramArea({ frame }: Paper): Box {
  return {
    x: frame.x + 2.5,
    y: frame.y + 5,
    width: Math.round((frame.width - 5) / GRID) * GRID,
    height: Math.floor((frame.height - BLOCK_HEIGHT - 7.5) / GRID) * GRID,
  };
}

/** A sheet with little on it is drawn larger: a little, or as much as lets it be printed on the next smaller paper. */
export const SCALES = [1.4, 1.2];

/** Where more of the boxes have moved than this share, the diagram is laid out anew if that saves a page. */
const MUCH = 0.3;

/** Lay a diagram out. A wire for which there is no way becomes a pair of references. */
export function layDiagram(diagram: Diagram, paper: Paper, kept?: KeptDiagram): readonly RoutedPage[] {
  const whole = diagramArea(paper);
  if (kept?.paper === paper.name) {
    const old = layKept(diagram, areaAt(whole, kept.scale), kept);
    if (old === undefined) return anew(diagram, whole);
    if (old.moved <= kept.nodes.length * MUCH) return old.routed;
    const other = anew(diagram, whole);
    return other.length < old.routed.length ? other : old.routed;
  }
  return anew(diagram, whole);
}

/** The one page that holds a diagram with its columns as they are; undefined where none does. */
export function layOnOne(diagram: Diagram, paper: Paper): RoutedPage | undefined {
  const area = diagramArea(paper);
  const airy = enlargedOnOne(diagram, area) ?? layIn(diagram, area, 1, 1)?.[0];
  if (airy !== undefined) return airy;
  const ids = diagram.groups.flatMap(({ nodes }) => nodes.map(({ id }) => id));
  const page = holder(diagram, area, new Set())(ids, false)?.();
  const routed = page && routePage(page, area, 1);
  return routed?.lost.length === 0 ? routed : undefined;
}

function anew(diagram: Diagram, whole: Box): readonly RoutedPage[] {
  const page = enlargedOnOne(diagram, whole);
  return page === undefined ? (layIn(diagram, whole, 1, Infinity) ?? []) : [page];
}

function enlargedOnOne(diagram: Diagram, whole: Box): RoutedPage | undefined {
  for (const scale of SCALES) {
    const area = areaAt(whole, scale);
    const [page, ...others] = layIn(diagram, area, scale, 1) ?? [];
    // Not so large that the next device would need a sheet of its own.
    if (page !== undefined && others.length === 0 && hasRoom(page.page, diagram, area)) return page;
  }
  return undefined;
}

/** The area as it is before what is drawn in it is enlarged. */
export function areaAt(whole: Box, scale: number): Box {
  const down = (length: number): number => Math.floor(length / scale / GRID) * GRID;
  return scale === 1 ? whole : { ...whole, width: down(whole.width), height: down(whole.height) };
}

/** Laid out in an area of each page, or undefined where it takes more than `most` pages or leaves a wire without a way on so few. */
function layIn(diagram: Diagram, area: Box, scale: number, most: number): readonly RoutedPage[] | undefined {
  const cut = new Set<string>();
  const whole = splitTall(diagram, area.height);
  // Each round takes out at least one wire.
  for (;;) {
    const onOne = placeDiagram(whole, area, cut, 1);
    const one = onOne?.length === 1 ? onOne : undefined;
    if (one === undefined && most === 1) return undefined;
    const placed = one ?? packed(whole, area, cut) ?? placeDiagram(whole, area, cut, most) ?? [];
    const pages = placed.map((page) => routePage(page, area, scale));
    const lost = pages.flatMap((page) => page.lost);
    if (lost.length === 0) return pages;
    if (most !== Infinity) return undefined;
    for (const id of lost) cut.add(id);
  }
}

/** A page of a diagram as items, its references to the others with it. `sheets` are those of all its pages, in order. */
export function diagramItems(
  pages: readonly RoutedPage[],
  index: number,
  paper: Paper,
  sheets: readonly { readonly id: string; readonly number: number }[],
): readonly Item[] {
  const page = pages[index];
  const sheet = sheets[index];
  if (page === undefined || sheet === undefined) return [];
  const items = renderPage(page, {
    sheetId: sheet.id,
    referenceOf: (row) => partnerOf(pages, row, paper, sheets),
  });
  return page.scale === 1 ? items : enlarged(items, page.scale, page.area);
}

function partnerOf(
  pages: readonly RoutedPage[],
  row: Row,
  paper: Paper,
  sheets: readonly { readonly id: string; readonly number: number }[],
): Reference | undefined {
  for (const [index, { page }] of pages.entries()) {
    for (const { rows } of page.nodes) {
      const partner = rows.find((one) => one.wire === row.wire && one.end !== row.end && one.reference);
      const sheet = sheets[index];
      if (partner === undefined || sheet === undefined) continue;
      const lead = leadOf(partner);
      const middle = { x: lead.x + (partner.side === 'left' ? -partner.flag : partner.flag) / 2, y: lead.y };
      return {
        text: `/${sheet.number}.${zoneAt(paper, middle)}`,
        leadsTo: referenceId(sheet.id, partner.wire, partner.end),
      };
    }
  }
  return undefined;
}
