/** Lists for programs: JSON, and comma-separated values for a spreadsheet. */
import { columnsFor, type Listed, type ListKind, type Value } from './listing.js';

/** An array of objects whose fields are the columns; docs/schemas has a schema for each list. */
export function json(kind: ListKind, listed: Listed): string {
  const columns = columnsFor(kind, 'data');
  const rows = listed.rows.map((row, index) => ({
    ...Object.fromEntries(columns.map((column) => [column.field, row[column.field] ?? null])),
    ...listed.details?.[index],
  }));
  return `${JSON.stringify(rows, undefined, 2)}\n`;
}

/** Comma-separated values (RFC 4180) with the fields' names in the first line. */
export function csv(kind: ListKind, listed: Listed): string {
  const columns = columnsFor(kind, 'data');
  const lines = [
    columns.map((column) => column.field),
    ...listed.rows.map((row) => columns.map((column) => csvCell(row[column.field] ?? null))),
  ];
  return lines.map((cells) => `${cells.join(',')}\r\n`).join('');
}

function csvCell(value: Value): string {
  if (value === null) return '';
  if (typeof value === 'number' || typeof value === 'boolean') return String(value);
  const text = typeof value === 'string' ? value : value.join('; ');
  // A spreadsheet takes such a cell for a formula and carries it out; with an apostrophe before it, it is text.
  const harmless = /^[=+\-@\t\r\n]/.test(text) ? `'${text}` : text;
  return /[",\r\n]/.test(harmless) ? `"${harmless.replaceAll('"', '""')}"` : harmless;
}
