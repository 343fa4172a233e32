/** Tables on sheets: cells that wrap, the head on every page, rows spread evenly over as few pages as they take. */
import { GREY, lineItem, NARROW, rectItem, textItem, WIDE } from '../scene/make.js';
import type { Box, GroupItem, Item } from '../scene/scene.js';
import { brokenLines, widthOf } from '../text/measure.js';

export interface Column {
  readonly title: string;
  /** Share of the width. */
  readonly share: number;
}

export interface Table {
  readonly title: string;
  /** What holds for the whole of it. */
  readonly note?: string;
  readonly columns: readonly Column[];
  /** A row whose first cell is empty belongs to the one above. */
  readonly rows: readonly (readonly string[])[];
}

/** What stands on a page: one table, a piece of one, or two that both go in. */
export interface TablePage {
  readonly title: string;
  readonly items: (sheetId: string) => readonly Item[];
}

/** A row of one line; each line more takes less. */
const ROW = 5.5;
const LINE = 4.25;
/** A piece of a table has as many rows, or is all of it. */
const LEAST_ROWS = 4;
const TITLE = 9;
/** Between two tables on one page. */
const BETWEEN = 7.5;
const PAD = 1.2;

interface Row {
  readonly cells: readonly (readonly string[])[];
  readonly height: number;
  readonly begins: boolean;
}

interface Piece {
  readonly table: Table;
  readonly widths: readonly number[];
  readonly rows: readonly Row[];
  /** Counted from 1. */
  readonly part: number;
}

/** Break tables over pages of an area: as few as they take, about equally full, the next table under the end of the one before. */
export function tablePages(tables: readonly Table[], area: Box): readonly TablePage[] {
  const measured = tables.filter(({ rows }) => rows.length > 0).map((table) => measuredIn(table, area));
  const { length } = flowed(measured, area.height);
  const total = flowed(measured, Infinity)
    .flat()
    .reduce((sum, piece) => sum + heightOf(piece), 0);
  let limit = Math.min(area.height, total / Math.max(1, length));
  while (limit < area.height && flowed(measured, limit).length > length)
    limit = Math.min(area.height, limit + 1);
  const pages = flowed(measured, limit);
  const titled = pages.map((pieces) =>
    pieces.map((piece) => ({ piece, title: titleOf(piece, pages.flat()) })),
  );
  return titled.map((pieces) => ({
    title: pieces.map(({ title }) => title).join(', '),
    items: (sheetId) => {
      let { y } = area;
      return pieces.map(({ piece, title }, index) => {
        const group = pieceGroup(piece, title, { ...area, y }, `${sheetId}-table-${index + 1}`);
        y += heightOf(piece) + BETWEEN;
        return group;
      });
    },
  }));
}

const heightOf = ({ rows }: Piece): number => TITLE + ROW + rows.reduce((sum, { height }) => sum + height, 0);

function titleOf({ table, part }: Piece, all: readonly Piece[]): string {
  const of = all.filter((piece) => piece.table === table).length;
  return of === 1 ? table.title : `${table.title} ${part} of ${of}`;
}

function measuredIn(table: Table, area: Box): Piece {
  const shares = table.columns.reduce((sum, { share }) => sum + share, 0);
  const widths = table.columns.map(({ share }) => (area.width * share) / shares);
  const rows = table.rows.map((row): Row => {
    const cells = widths.map((width, index) => brokenLines([row[index] ?? ''], width - 2 * PAD, 0));
    return { cells, height: heightIn(cells), begins: (row[0] ?? '') !== '' };
  });
  return { table, widths, rows, part: 1 };
}

const heightIn = (cells: Row['cells']): number =>
  ROW + (Math.max(1, ...cells.map((cell) => cell.length)) - 1) * LINE;

/** Rows on pages of at most a height. */
function flowed(tables: readonly Piece[], most: number): readonly (readonly Piece[])[] {
  const pages: Piece[][] = [];
  let left = -Infinity;
  for (const { table, widths, rows } of tables) {
    let start = 0;
    for (let part = 1; start < rows.length; part += 1) {
      const waiting = named(rows, start);
      let count = fitting(waiting, left - BETWEEN);
      if (count < Math.min(LEAST_ROWS, waiting.length)) {
        pages.push([]);
        left = most;
        count = Math.max(1, fitting(waiting, left));
      } else left -= BETWEEN;
      // Rather a few rows less here than one or two on the next page.
      const rest = waiting.length - count;
      if (rest > 0 && rest < LEAST_ROWS) count = Math.max(1, count - LEAST_ROWS + rest);
      const piece = { table, widths, rows: waiting.slice(0, count), part };
      pages.at(-1)?.push(piece);
      left -= heightOf(piece);
      start += count;
    }
  }
  return pages;
}

/** The rows from one on; where that is within a group, its name stands there again. */
function named(rows: readonly Row[], start: number): readonly Row[] {
  const [first, ...others] = rows.slice(start);
  const head = rows.slice(0, start + 1).findLast(({ begins }) => begins)?.cells[0];
  if (first === undefined || head === undefined) return rows.slice(start);
  const cells = [head, ...first.cells.slice(1)];
  return [{ cells, height: heightIn(cells), begins: true }, ...others];
}

/** How many rows go into a height, below their head. */
function fitting(rows: readonly Row[], height: number): number {
  let left = height - TITLE - ROW;
  const over = rows.findIndex((row) => {
    left -= row.height;
    return left < 0;
  });
  return over < 0 ? rows.length : over;
}

function pieceGroup(piece: Piece, title: string, area: Box, id: string): GroupItem {
  const { table, widths, rows } = piece;
  const top = area.y + TITLE;
  const height = heightOf(piece) - TITLE;
  const items: Item[] = [
    textItem(area.x, area.y + 5, title, { height: 3.5, bold: true, room: area.width }),
    rectItem({ x: area.x, y: top, width: area.width, height: ROW }, NARROW, '#e4ebf2'),
  ];
  if (table.note !== undefined) {
    const after = widthOf(title, 3.5, 'bold') + 5;
    items.push(textItem(area.x + after, area.y + 5, table.note, { colour: GREY, room: area.width - after }));
  }
  let { x } = area;
  table.columns.forEach(({ title: head }, index) => {
    const width = widths[index] ?? 0;
    if (index > 0) items.push(lineItem(x, top, x, top + height));
    items.push(textItem(x + PAD, top + 4, head, { bold: true, room: width - 2 * PAD, colour: GREY }));
    let y = top + ROW;
    for (const { cells, height: taken } of rows) {
      (cells[index] ?? []).forEach((line, place) => {
        if (line !== '') items.push(textItem(x + PAD, y + 4 + place * LINE, line));
      });
      y += taken;
    }
    x += width;
  });
  let y = top + ROW;
  rows.forEach((row, place) => {
    const from = row.begins ? area.x : area.x + (widths[0] ?? 0);
    if (place > 0) items.push(lineItem(from, y, area.x + area.width, y));
    y += row.height;
  });
  items.push(rectItem({ x: area.x, y: top, width: area.width, height }, WIDE));
  return {
    kind: 'group',
    id,
    role: 'table',
    name: table.title,
    label: `${title}: ${rows.length} of ${table.rows.length} rows.`,
    items,
  };
}
