/** Tables of a report: as wide as their texts ask for and the page allows, every cell whole, rows never cut in two. */
import { GREY, lineItem, NARROW, rectItem, textItem } from '../scene/make.js';
import type { Item } from '../scene/scene.js';
import { drawable, widthOf } from '../text/measure.js';
import { BOX, type ReportColumn } from './report.js';

/** Height of capitals, distance of lines, and room around a cell, in mm. */
const CELL = 1.9;
const LINE = 3.7;
const PAD = 1.1;
const NARROWEST = 13;
const HEAD_FILL = '#e4ebf2';

/** A row or a head with its height. */
export interface LaidRow {
  readonly height: number;
  readonly draw: (x: number, y: number) => readonly Item[];
}

export interface LaidTable {
  readonly head: LaidRow;
  readonly rows: readonly LaidRow[];
}

/** Lay a table out in `room` mm. */
export function layTable(
  columns: readonly ReportColumn[],
  rows: readonly (readonly string[])[],
  room: number,
): LaidTable {
  const widths = columnWidths(columns, rows, room);
  const laid = (texts: readonly string[], head: boolean): LaidRow => {
    const cells = columns.map((_, index) =>
      brokenLines(texts[index] ?? '', (widths[index] ?? NARROWEST) - 2 * PAD, CELL, head),
    );
    const height = Math.max(1, ...cells.map((lines) => lines.length)) * LINE + 1.4;
    return { height, draw: (x, y) => rowItems({ columns, widths, cells, height, head }, x, y) };
  };
  return {
    head: laid(
      columns.map(({ title }) => title),
      true,
    ),
    rows: rows.map((row) => laid(row, false)),
  };
}

interface Row {
  readonly columns: readonly ReportColumn[];
  readonly widths: readonly number[];
  readonly cells: readonly (readonly string[])[];
  readonly height: number;
  readonly head: boolean;
}

function rowItems({ columns, widths, cells, height, head }: Row, x: number, y: number): readonly Item[] {
  const whole = widths.reduce((sum, width) => sum + width, 0);
  const items: Item[] = [rectItem({ x, y, width: whole, height }, NARROW, head ? HEAD_FILL : undefined)];
  let left = x;
  columns.forEach((column, index) => {
    const width = widths[index] ?? 0;
    const right = column.numeric === true;
    if (index > 0) items.push(lineItem(left, y, left, y + height));
    (cells[index] ?? []).forEach((text, line) => {
      const baseline = y + 0.9 + LINE * line + (LINE + CELL) / 2 - 0.2;
      if (text === BOX)
        items.push(rectItem({ x: left + width / 2 - 1.4, y: y + height / 2 - 1.4, width: 2.8, height: 2.8 }));
      else
        items.push(
          textItem(right ? left + width - PAD : left + PAD, baseline, text, {
            height: CELL,
            anchor: right ? 'end' : 'start',
            bold: head,
            ...(head ? { colour: GREY } : {}),
          }),
        );
    });
    left += width;
  });
  return items;
}

/** What each asks for; where that is too much, the widest gives way, but none below its longest word while there is another. */
function columnWidths(
  columns: readonly ReportColumn[],
  rows: readonly (readonly string[])[],
  room: number,
): readonly number[] {
  const texts = columns.map(({ title }, index) => [title, ...rows.map((row) => row[index] ?? '')]);
  const needed = (words: readonly string[]): number =>
    words.reduce(
      (most, text, index) => Math.max(most, widthOf(drawable(text), CELL, index === 0 ? 'bold' : 'regular')),
      0,
    ) +
    2 * PAD +
    0.6;
  const widths = columns.map(({ blank }, index) => blank ?? needed(texts[index] ?? []));
  const least = columns.map(({ blank }, index) => {
    if (blank !== undefined) return blank;
    const words = (texts[index] ?? []).flatMap((text) => text.split(' '));
    return Math.min(
      widths[index] ?? 0,
      Math.max(needed(['', ...words]), needed([columns[index]?.title ?? ''])),
    );
  });
  for (const floor of [
    least,
    least.map((width, index) => (columns[index]?.blank === undefined ? Math.min(width, NARROWEST) : width)),
  ]) {
    let excess = widths.reduce((sum, width) => sum + width, 0) - room;
    while (excess > 0.01) {
      const free = widths.map((width, index) => (width > (floor[index] ?? width) + 0.01 ? width : -1));
      const widest = Math.max(...free);
      if (widest < 0) break;
      const index = free.indexOf(widest);
      const step = Math.min(0.5, excess, widest - (floor[index] ?? widest));
      widths[index] = widest - step;
      excess -= step;
    }
  }
  const sum = widths.reduce((total, width) => total + width, 0);
  return sum > room ? widths.map((width) => (width * room) / sum) : widths;
}

/** The whole of a text in lines: broken at spaces, and inside a word that is wider than a line. */
export function brokenLines(text: string, width: number, height: number, bold = false): readonly string[] {
  const face = bold ? 'bold' : 'regular';
  const lines: string[] = [];
  let line = '';
  const fits = (candidate: string): boolean => widthOf(candidate, height, face) <= width;
  for (const word of drawable(text).split(' ')) {
    const joined = line === '' ? word : `${line} ${word}`;
    if (fits(joined)) {
      line = joined;
      continue;
    }
    if (line !== '') lines.push(line);
    line = '';
    for (const sign of word) {
      if (line !== '' && !fits(line + sign)) {
        lines.push(line);
        line = '';
      }
      line += sign;
    }
  }
  return [...lines, line];
}
