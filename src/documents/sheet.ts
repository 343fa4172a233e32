/** What a sheet is, and what a set is drawn with. */
import type { KeptDiagram } from './diagram/kept.js';
import type { PaperName } from './frame/paper.js';
import type { Scene } from './scene/scene.js';

export const SHEET_KINDS = ['network', 'bus', 'power', 'plan'] as const;
export type SheetKind = (typeof SHEET_KINDS)[number];

/** Places of boxes by diagram: `network`, `serial`, `power`, and `plan` or `described plan`. */
export type KeptPlaces = Readonly<Record<string, KeptDiagram>>;

export interface DrawOptions {
  readonly paper: PaperName;
  /** The kinds to draw; all where none is named. */
  readonly sheets?: readonly SheetKind[] | undefined;
  /** ISO date for the title block; empty where undefined, so that nothing in the output depends on the day. */
  readonly date?: string | undefined;
  readonly revision?: string | undefined;
  /** The spec's file as the reader knows it. */
  readonly file?: string | undefined;
  /** Of what is drawn, for the title block; worked out of the vessel where it is not given. */
  readonly hash?: string | undefined;
  /** The tool with its version. */
  readonly version?: string | undefined;
  /** Where boxes stood in the last drawing. */
  readonly places?: KeptPlaces | undefined;
}

export interface Sheet {
  readonly kind: SheetKind;
  /** From 1, over the whole set. */
  readonly number: number;
  readonly scene: Scene;
}
