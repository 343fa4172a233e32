/**
 * What an editor may ask about drawings, beyond the Language Server Protocol. Ranges are zero-based, as in the protocol, and hold
 * for the texts as they were when the answer was made.
 */
import type { DrawingFormat } from '../../../documents/formats/files.js';
import type { Place, Range } from '../../../vessel/origin.js';

/** Answered by a `DrawingAnswer`, once nobody has typed for a while. */
export const drawingRequest = 'wireloft/drawing';
/** Answered by a `Reach`, or null for what gives nothing to screens, or is drawn otherwise by now. */
export const reachRequest = 'wireloft/drawing/reach';
/** Answered by an `ExportAnswer`. */
export const exportRequest = 'wireloft/drawing/export';
/** Told to the editor, without parameters, when drawings may have changed. */
export const drawingChanged = 'wireloft/drawing/changed';

export interface DrawingParams {
  /** Any file of the vessel. */
  readonly uri: string;
  /** The key of the sheets that the editor has already: they are not sent again. */
  readonly known?: string | undefined;
  /** The tool with its version, for the title block. */
  readonly version?: string | undefined;
  /** Names of the options that the vessel is drawn with; one that is not declared is passed over. */
  readonly options?: readonly string[] | undefined;
}

export interface ReachParams {
  readonly uri: string;
  readonly options?: readonly string[] | undefined;
  /** Of the drawing in which somebody points at it. */
  readonly key: string;
  /** What is pointed at. */
  readonly origin: string;
}

export interface ExportParams {
  readonly uri: string;
  readonly options?: readonly string[] | undefined;
  readonly version?: string | undefined;
  readonly format: DrawingFormat;
  /** The only sheet that is wanted; the whole set where it is left out. */
  readonly sheet?: string | undefined;
}

/** A file of a drawing; its bytes in base 64. */
export interface ExportedFile {
  readonly name: string;
  readonly bytes: string;
}

/** `none`: nothing was written, and why. */
export type ExportAnswer =
  | { readonly kind: 'files'; readonly root: string; readonly files: readonly ExportedFile[] }
  | { readonly kind: 'none'; readonly reason: string };

/** A sheet as a picture. */
export interface DrawnSheet {
  /** Unique in the set, and a file's name. */
  readonly id: string;
  readonly title: string;
  /** Millimetres. */
  readonly width: number;
  readonly height: number;
  /** Its groups carry what they show as `data-origin`. */
  readonly svg: string;
  readonly ports: readonly DrawnPort[];
}

/** Where a wire ends on a box, in mm on its sheet. */
export interface DrawnPort {
  readonly x: number;
  readonly y: number;
  /** The wire's element. */
  readonly origin: string;
  readonly end: 'a' | 'b';
}

/** Where the text says what is drawn. */
export interface DrawnElement {
  readonly origin: string;
  /** What to select for it. */
  readonly place: Place;
  /** All that belongs to it: a cursor in here is at it. */
  readonly whole: Range;
  /** What to select for its ends. */
  readonly a?: Place | undefined;
  readonly b?: Place | undefined;
}

/** Who shows what a source gives. */
export interface Reach {
  /** The source's element. */
  readonly origin: string;
  readonly name: string;
  /** The elements on its ways to screens, itself and the screens included. */
  readonly lit: readonly string[];
  /** Screens that show all, or some of it. */
  readonly seen: readonly string[];
  /** Screens that show nothing of it. */
  readonly blind: readonly string[];
  /** Screens of which the spec does not say enough. */
  readonly unknown: readonly string[];
}

export interface DrawnOption {
  readonly name: string;
  readonly title: string;
  /** Whether she is drawn with it. */
  readonly chosen: boolean;
}

export interface Drawing {
  readonly kind: 'drawing';
  readonly vessel: string;
  /** The file that declares the vessel, and every file whose text is drawn. */
  readonly root: string;
  readonly files: readonly string[];
  readonly key: string;
  /** Undefined where the editor has them already. */
  readonly sheets: readonly DrawnSheet[] | undefined;
  readonly elements: readonly DrawnElement[];
  /** The options of the vessel, in the order of the text. */
  readonly options: readonly DrawnOption[];
  /** Why the drawing is older than the text, in a sentence. */
  readonly old: string | undefined;
}

/** `none`: there is nothing to draw, and why. */
export type DrawingAnswer = Drawing | { readonly kind: 'none'; readonly reason: string };
