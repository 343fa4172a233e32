/**
 * Tables as one XLSX workbook (Office Open XML, ECMA-376). What is worked out in it stands there as a formula with its value, so that a
 * reader that does not calculate shows the same. Text is stored as text: a cell that begins like a formula is none.
 */
import { utils, write, type CellObject } from '@e965/xlsx';

/** A formula without its equals sign, and what it comes to. */
export interface Formula {
  readonly formula: string;
  readonly value: number;
}

export type SheetCell = string | number | boolean | null | Formula;

export interface WorkSheet {
  /** At most 31 signs, and none of `: \ / ? * [ ]`. */
  readonly name: string;
  /** The first row is the head. */
  readonly rows: readonly (readonly SheetCell[])[];
}

/** Signs of the widest column. */
const WIDEST = 60;

/** Write the workbook. The same sheets give the same bytes. */
export function toXlsx(sheets: readonly WorkSheet[]): Uint8Array {
  const book = utils.book_new();
  for (const { name, rows } of sheets) {
    const sheet = utils.aoa_to_sheet(rows.map((row) => row.map(cellOf)));
    const columns = rows.reduce((most, row) => Math.max(most, row.length), 0);
    sheet['!cols'] = Array.from({ length: columns }, (_, index) => ({
      wch: Math.min(WIDEST, 2 + rows.reduce((most, row) => Math.max(most, textOf(row[index]).length), 4)),
    }));
    utils.book_append_sheet(book, sheet, name);
  }
  return new Uint8Array(write(book, { type: 'array', bookType: 'xlsx', compression: true }) as ArrayBuffer);
}

const isFormula = (cell: SheetCell | undefined): cell is Formula => typeof cell === 'object' && cell !== null;

const textOf = (cell: SheetCell | undefined): string =>
  cell === null || cell === undefined ? '' : String(isFormula(cell) ? cell.value : cell);

function cellOf(cell: SheetCell): CellObject | null {
  if (cell === null || cell === '') return null;
  if (isFormula(cell)) return { t: 'n', v: cell.value, f: cell.formula };
  if (typeof cell === 'number') return Number.isFinite(cell) ? { t: 'n', v: cell } : { t: 's', v: 'unknown' };
  if (typeof cell === 'boolean') return { t: 's', v: cell ? 'yes' : 'no' };
  // Control signs have no place in XML.
  // eslint-disable-next-line no-control-regex
  return { t: 's', v: cell.replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]/g, '\ufffd') };
}
