/** Tables for a reader: aligned in a terminal, or in Markdown. */
import stringWidth from 'string-width';
import { escapeMarkdown } from '../../documents/report/markdown.js';
import { number } from '../../vessel/words.js';
import type { Paint } from '../terminal/colours.js';
import { printable } from '../terminal/printable.js';
import { columnsFor, type Column, type Listed, type ListKind, type Value } from './listing.js';

const GAP = '  ';
/** A column is not made narrower than this to fit the terminal. */
const NARROWEST = 10;
const graphemes = new Intl.Segmenter('en', { granularity: 'grapheme' });

/** What a reader sees for a value. */
function cellText(column: Column, value: Value | undefined): string {
  if (value === undefined || value === null) return column.ifNull ?? '';
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (typeof value === 'number') return number(value);
  if (typeof value === 'string') return printable(value);
  const texts = value.map((one) => (typeof one === 'number' ? number(one) : one));
  return printable(texts.join(texts.some((text) => text.includes(',')) ? '; ' : ', '));
}

/**
 * An aligned table that fits `width` columns as long as each column keeps its least width; cells that are too long are wrapped.
 * `width` undefined: as wide as it is.
 */
export function table(kind: ListKind, listed: Listed, paint: Paint, width: number | undefined): string {
  const { columns, cells } = grid(kind, listed);
  const widths = columnWidths(columns, cells, width);
  const line = (texts: readonly string[], painted: (text: string) => string): string[] => {
    const wrapped = texts.map((text, index) => wrapCell(text, widths[index] ?? NARROWEST));
    const height = Math.max(1, ...wrapped.map((lines) => lines.length));
    return Array.from({ length: height }, (_, at) =>
      painted(
        columns
          .map((column, index) =>
            pad(wrapped[index]?.[at] ?? '', widths[index] ?? NARROWEST, isNumeric(column)),
          )
          .join(GAP)
          .trimEnd(),
      ),
    );
  };
  const head = line(
    columns.map((column) => column.title),
    paint.bold,
  );
  const rule = paint.dim(widths.map((one) => '-'.repeat(one)).join(GAP));
  const body = cells.flatMap((texts) => line(texts, (text) => text));
  return [...head, rule, ...body, '', listed.summary, ''].join('\n');
}

/** A table of GitHub Flavored Markdown. */
export function markdown(kind: ListKind, listed: Listed): string {
  const { columns, cells } = grid(kind, listed);
  const line = (texts: readonly string[]): string => `| ${texts.join(' | ')} |`;
  return [
    line(columns.map((column) => column.title)),
    line(columns.map((column) => (isNumeric(column) ? '---:' : '---'))),
    ...cells.map((texts) => line(texts.map(escapeMarkdown))),
    '',
    listed.summary,
    '',
  ].join('\n');
}

/** The cells of a table. Columns that would be empty throughout are left out of it. */
export function grid(
  kind: ListKind,
  listed: Listed,
): { columns: readonly Column[]; cells: readonly (readonly string[])[] } {
  const texts = (column: Column): string[] => listed.rows.map((row) => cellText(column, row[column.field]));
  const all = columnsFor(kind, 'table').map((column) => ({ column, texts: texts(column) }));
  const used = listed.rows.length === 0 ? all : all.filter((one) => one.texts.some((text) => text !== ''));
  return {
    columns: used.map((one) => one.column),
    cells: listed.rows.map((_, index) => used.map((one) => one.texts[index] ?? '')),
  };
}

const isNumeric = (column: Column): boolean => column.type === 'number';

function columnWidths(
  columns: readonly Column[],
  cells: readonly (readonly string[])[],
  width: number | undefined,
): number[] {
  const widths = columns.map((column, index) =>
    cells.reduce((widest, row) => Math.max(widest, stringWidth(row[index] ?? '')), stringWidth(column.title)),
  );
  if (width === undefined) return widths;
  const least = columns.map((column, index) =>
    Math.min(widths[index] ?? 0, Math.max(NARROWEST, stringWidth(column.title))),
  );
  let excess = widths.reduce((sum, one) => sum + one, 0) + GAP.length * (columns.length - 1) - width;
  while (excess > 0) {
    // Always the widest gives way, so that short columns keep their shape.
    const candidates = widths.map((one, index) => (one > (least[index] ?? one) ? one : -1));
    const widest = Math.max(...candidates);
    if (widest < 0) break;
    const index = candidates.indexOf(widest);
    widths[index] = widest - 1;
    excess--;
  }
  return widths;
}

function pad(text: string, width: number, right: boolean): string {
  const space = ' '.repeat(Math.max(0, width - stringWidth(text)));
  return right ? space + text : text + space;
}

/** Breaks at spaces, and inside a word that is wider than the cell. */
function wrapCell(text: string, width: number): string[] {
  if (stringWidth(text) <= width) return [text];
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ').flatMap((one) => chunks(one, width))) {
    const joined = line === '' ? word : `${line} ${word}`;
    if (stringWidth(joined) <= width) {
      line = joined;
    } else {
      if (line !== '') lines.push(line);
      line = word;
    }
  }
  return [...lines, line];
}

function chunks(word: string, width: number): string[] {
  if (stringWidth(word) <= width) return [word];
  const parts: string[] = [];
  let part = '';
  for (const { segment } of graphemes.segment(word)) {
    if (part !== '' && stringWidth(part + segment) > width) {
      parts.push(part);
      part = '';
    }
    part += segment;
  }
  return [...parts, part];
}
