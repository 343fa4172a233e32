/** A list as plain data: its columns, and rows that every format prints. */
import type { VesselReport } from '../../language/project/report.js';
import type { Place, Spot } from '../../vessel/origin.js';

export type Value = string | number | boolean | null | readonly string[] | readonly number[];
export type Row = Readonly<Record<string, Value>>;

/** What a field holds in JSON. */
export type FieldType = 'string' | 'number' | 'boolean' | 'strings' | 'numbers';

export interface Column {
  /** camelCase, with the unit in the name. */
  readonly field: string;
  readonly title: string;
  readonly type: FieldType;
  /** Whether it can be null, and what that means in a table; undefined where it can't. */
  readonly ifNull?: string;
  /** The only values it takes. */
  readonly values?: readonly string[];
  readonly text: string;
  /** A column that only tables have (for a reader), or only data has (for a program). */
  readonly only?: 'table' | 'data';
}

/** Where a row's element is written: for a program, which a reader's table has no room for. */
export const WHERE_COLUMNS: readonly Column[] = [
  { field: 'file', title: 'File', type: 'string', ifNull: '', text: 'Where it is written.', only: 'data' },
  {
    field: 'line',
    title: 'Line',
    type: 'number',
    ifNull: '',
    text: 'The line it starts on, counted from one.',
    only: 'data',
  },
];

/** JSON Schema of a part of an answer that is no column. */
export type Schema = Readonly<Record<string, unknown>>;

export interface Listed {
  readonly rows: readonly Row[];
  /** A last line for a reader. */
  readonly summary: string;
  /** What JSON has beside the columns, one for each row. */
  readonly details?: readonly Readonly<Record<string, unknown>>[];
}

/** Where an element stands, with its file as the program calls it; undefined where it has no place. */
export type PlaceOf = (spot: Spot) => Place | undefined;

export interface ListKind {
  readonly what: string;
  readonly summary: string;
  readonly columns: readonly Column[];
  readonly detailSchema?: Readonly<Record<string, Schema>>;
  /** It wants the vessel with each of its options as well. */
  readonly variants?: boolean;
  /** @param variants the same vessel with each of its options; empty unless the list wants them */
  readonly list: (vessel: VesselReport, placeOf: PlaceOf, variants: readonly VesselReport[]) => Listed;
}

/** The columns of a table, or of data. */
export function columnsFor(kind: ListKind, reader: 'table' | 'data'): readonly Column[] {
  return kind.columns.filter((column) => column.only === undefined || column.only === reader);
}
