/** A report as plain data, that each format is written from: a cover, sections of text and tables, and sheets of drawings. */
import type { Scene } from '../scene/scene.js';

export interface ReportColumn {
  readonly title: string;
  readonly numeric?: boolean;
  /** To be filled by pen, so many millimetres wide. */
  readonly blank?: number;
}

export type Block =
  | { readonly kind: 'heading'; readonly text: string }
  | { readonly kind: 'text'; readonly text: string }
  | {
      readonly kind: 'table';
      readonly columns: readonly ReportColumn[];
      readonly rows: readonly (readonly string[])[];
    };

/** The owner reads what she can do and what she costs; whoever installs, what goes where and what to test. */
export type Reader = 'owner' | 'installer';

export const READER_TITLES: Readonly<Record<Reader, string>> = {
  owner: 'For the owner',
  installer: 'For who installs and services her',
};

export interface Section {
  readonly title: string;
  readonly blocks: readonly Block[];
  /** Who looks for it: the contents are grouped by that. */
  readonly reader: Reader;
  /** It begins a page of its own, to be taken out and handed over. */
  readonly apart?: boolean;
  /** Sheets that follow it. */
  readonly sheets?: readonly Scene[];
}

export interface Report {
  readonly title: string;
  readonly subtitle: string;
  /** What the cover says: caption and value. */
  readonly facts: readonly (readonly [caption: string, value: string])[];
  readonly caution: string;
  readonly sections: readonly Section[];
}

/** A box to tick. */
export const BOX = '\u2610';
