/** The legend: what lines and signs on this sheet mean, and nothing that is not on it. */
import { GREY, NARROW, rectItem, textItem } from '../scene/make.js';
import type { Box, GroupItem, Item } from '../scene/scene.js';
import { SMALL, widthOf } from '../text/measure.js';
import { blockBox } from './titleBlock.js';
import type { Paper } from './paper.js';

export interface LegendEntry {
  readonly text: string;
  /** Draws its sample, 12 mm wide, about the height `y`. */
  readonly sample: (x: number, y: number) => readonly Item[];
}

const ROW = 4.5;
const SAMPLE = 12;
/** Of the heading, which reads from below. */
const HEADING = 5;
/** Between sample and text, and behind a text. */
const GAP = 1.5;
const AFTER = 2.5;
/** Least room for a text. */
const LEAST = 10;

/** The room left of the title block. */
function legendBox(paper: Paper): Box {
  const block = blockBox(paper);
  return { ...block, x: paper.frame.x, width: block.x - paper.frame.x };
}

/** In columns as wide as their texts, in their order from the top; the last place says how many found none. */
export function legendGroup(paper: Paper, sheetId: string, entries: readonly LegendEntry[]): GroupItem {
  const box = legendBox(paper);
  const rows = Math.floor(box.height / ROW);
  const room = box.width - HEADING;
  const most = rows * Math.floor(room / (SAMPLE + GAP + LEAST + AFTER));
  const shown = entries.length <= most ? entries : entries.slice(0, most - 1);
  const more = entries.length - shown.length;
  const columns = Array.from({ length: Math.ceil(shown.length / rows) }, (_, index) =>
    shown.slice(index * rows, (index + 1) * rows),
  );
  const rooms = textRooms(columns, room);
  const items: Item[] = [
    rectItem(box, NARROW, '#ffffff'),
    textItem(box.x + 3.7, box.y + box.height / 2, 'Legend', {
      colour: GREY,
      anchor: 'middle',
      upright: true,
    }),
  ];
  let x = box.x + HEADING;
  columns.forEach((column, index) => {
    const width = rooms[index] ?? 0;
    column.forEach((entry, row) => {
      const y = box.y + (row + 0.5) * ROW;
      items.push(
        ...entry.sample(x, y),
        textItem(x + SAMPLE + GAP, y + SMALL / 2, entry.text, { room: width }),
      );
    });
    if (index === columns.length - 1 && more > 0)
      items.push(textItem(x, box.y + (rows - 0.5) * ROW + SMALL / 2, `and ${more} more`, { colour: GREY }));
    x += SAMPLE + GAP + width + AFTER;
  });
  return {
    kind: 'group',
    id: `${sheetId}-legend`,
    role: 'note',
    name: 'legend',
    label: `Legend: ${shown.map((entry) => entry.text).join(', ')}.`,
    items,
  };
}

/** What each column has for its texts: what they take, the widest cut down where they do not go in beside one another. */
function textRooms(columns: readonly (readonly LegendEntry[])[], room: number): readonly number[] {
  const wanted = columns.map((column) => Math.max(0, ...column.map(({ text }) => widthOf(text) + 0.1)));
  let left = room - columns.length * (SAMPLE + GAP + AFTER);
  const rooms = new Map<number, number>();
  const narrowFirst = wanted.map((_, index) => index).sort((a, b) => (wanted[a] ?? 0) - (wanted[b] ?? 0));
  narrowFirst.forEach((index, place) => {
    const width = Math.min(wanted[index] ?? 0, left / (narrowFirst.length - place));
    rooms.set(index, width);
    left -= width;
  });
  return wanted.map((_, index) => rooms.get(index) ?? 0);
}
