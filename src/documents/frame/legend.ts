/** The legend: what lines and signs on this sheet mean, and nothing that is not on it. */
import { GREY, NARROW, rectItem, textItem } from '../scene/make.js';
import type { Box, GroupItem, Item } from '../scene/scene.js';
import { BLOCK_HEIGHT, blockBox } from './titleBlock.js';
import type { Paper } from './paper.js';

export interface LegendEntry {
  readonly text: string;
  /** Draws its sample, 12 mm wide, about the height `y`. */
  readonly sample: (x: number, y: number) => readonly Item[];
}

const ROW = 5.5;
const SAMPLE = 12;
const COLUMN = 62;

/** The room left of the title block. */
function legendBox(paper: Paper): Box {
  const block = blockBox(paper);
  return { x: paper.frame.x, y: block.y, width: block.x - paper.frame.x, height: BLOCK_HEIGHT };
}

/** As many entries as go in, in their order; the last place says how many did not. */
export function legendGroup(paper: Paper, sheetId: string, entries: readonly LegendEntry[]): GroupItem {
  const box = legendBox(paper);
  const rows = Math.floor((box.height - 7) / ROW);
  const columns = Math.max(1, Math.floor(box.width / COLUMN));
  const width = box.width / columns;
  const places = rows * columns;
  const shown = entries.length <= places ? entries : entries.slice(0, places - 1);
  const items: Item[] = [
    rectItem(box, NARROW, '#ffffff'),
    textItem(box.x + 2, box.y + 4.2, 'Legend', { colour: GREY }),
  ];
  const place = (index: number): { readonly x: number; readonly y: number } => ({
    x: box.x + 2 + Math.floor(index / rows) * width,
    y: box.y + 8.5 + (index % rows) * ROW,
  });
  shown.forEach((entry, index) => {
    const { x, y } = place(index);
    items.push(
      ...entry.sample(x, y),
      textItem(x + SAMPLE + 2, y + 1.25, entry.text, { room: width - SAMPLE - 5 }),
    );
  });
  if (shown.length < entries.length) {
    const { x, y } = place(shown.length);
    items.push(textItem(x, y + 1.25, `and ${entries.length - shown.length} more`, { colour: GREY }));
  }
  return {
    kind: 'group',
    id: `${sheetId}-legend`,
    role: 'note',
    name: 'legend',
    label: `Legend: ${shown.map((entry) => entry.text).join(', ')}.`,
    items,
  };
}
