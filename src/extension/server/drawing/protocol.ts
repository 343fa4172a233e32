/**
 * What an editor may ask about drawings, beyond the Language Server Protocol. Ranges are zero-based, as in the protocol, and hold
 * for the texts as they were when the answer was made.
 */
import type { DrawingFormat } from '../../../documents/formats/files.js';
import type { Position } from '../../../vessel/origin.js';

/** Answered by a `DrawingAnswer`, once nobody has typed for a while. */
export const drawingRequest = 'wireloft/drawing';
/** Answered by a `ShownSheet`, or null for one that is not there, or is drawn otherwise by now. */
export const sheetRequest = 'wireloft/drawing/sheet';
/** Answered by a `Reach`, or null for what gives nothing to screens, or is drawn otherwise by now. */
export const reachRequest = 'wireloft/drawing/reach';
/** Answered by a `CursorAnswer`, or null where the boat is drawn otherwise by now. */
export const cursorRequest = 'wireloft/drawing/cursor';
/** Answered by a `Place`, or null for what is not in the text, or is drawn otherwise by now. */
export const placeRequest = 'wireloft/drawing/place';
/** Answered by what laying out anew would save, as `DrawnDrift`s, or null where the boat is drawn otherwise by now. */
export const driftRequest = 'wireloft/drawing/drift';
/** Answered by null, when the next drawing will be laid out from nothing. */
export const anewRequest = 'wireloft/drawing/anew';
/** Answered by an `ExportAnswer`. */
export const exportRequest = 'wireloft/drawing/export';
/** Told to the editor, without parameters, when drawings may have changed. */
export const drawingChanged = 'wireloft/drawing/changed';

/** The boat of which a drawing is meant. */
export interface BoatParams {
  /** Any file of the vessel. */
  readonly uri: string;
  /** Names of the options that the vessel is drawn with; one that is not declared is passed over. */
  readonly options?: readonly string[] | undefined;
}

export interface DrawingParams extends BoatParams {
  /** The id of the sheet that is wanted; else one of its kind, or the first. */
  readonly sheet?: string | undefined;
  /** The key of the sheet that the editor shows: its picture is not sent again. */
  readonly known?: string | undefined;
  /** The tool with its version, for the title block. */
  readonly version?: string | undefined;
}

/** A question about a drawing that was answered. */
interface DrawnParams {
  /** Any file of the vessel. */
  readonly uri: string;
  /** Of the drawing. */
  readonly key: string;
}

export interface SheetParams extends DrawnParams {
  readonly sheet: string;
}

export type DriftParams = DrawnParams;

/** A diagram that would take fewer sheets if it were laid out anew. */
export interface DrawnDrift {
  /** As in the places that are kept, such as `power`. */
  readonly diagram: string;
  readonly sheets: number;
  readonly anew: number;
}

export interface ReachParams extends DrawnParams {
  /** What is pointed at. */
  readonly origin: string;
}

export interface CursorParams extends DrawnParams {
  /** The file that the cursor is in, and where. */
  readonly file: string;
  readonly position: Position;
}

export interface PlaceParams extends DrawnParams {
  readonly origin: string;
  /** The end of a wire that is wanted; the whole of it where it is left out. */
  readonly end?: End | undefined;
}

/** `places`: where every box stands, as `wireloft draw --places` reads it. */
export type ExportFormat = DrawingFormat | 'places';

export interface ExportParams extends BoatParams {
  readonly version?: string | undefined;
  readonly format: ExportFormat;
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

/** What a sheet is called. */
export interface SheetName {
  /** Unique in the set, and a file's name. */
  readonly id: string;
  readonly title: string;
}

/** A sheet as a picture. */
export interface SheetPicture {
  /** Millimetres. */
  readonly width: number;
  readonly height: number;
  /** Its groups carry what they show as `data-origin`. */
  readonly svg: string;
  readonly ports: readonly DrawnPort[];
  readonly references: readonly DrawnReference[];
}

/** The sheet that an editor shows. */
export interface ShownSheet {
  readonly id: string;
  /** Equal keys, equal pictures. */
  readonly key: string;
  /** What of it has a line in the text. */
  readonly origins: readonly string[];
  /** Undefined where the editor has it already. */
  readonly picture?: SheetPicture | undefined;
}

export type End = 'a' | 'b';

/** Where a wire ends on a box, in mm on its sheet. */
export interface DrawnPort {
  readonly x: number;
  readonly y: number;
  /** The wire's element. */
  readonly origin: string;
  readonly end: End;
}

/** Where a wire goes on, on another sheet: the ids of both groups. */
export interface DrawnReference {
  readonly id: string;
  readonly to: string;
}

/** What the cursor is in. */
export interface CursorAnswer {
  /** The innermost element that is drawn; undefined where there is none. */
  readonly origin?: string | undefined;
  /** The ids of the sheets that show it. */
  readonly sheets: readonly string[];
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
  /** Of all sheets together: what is asked about them names it. */
  readonly key: string;
  readonly sheets: readonly SheetName[];
  /** Undefined where there is no sheet. */
  readonly shown?: ShownSheet | undefined;
  /** The options of the vessel, in the order of the text. */
  readonly options: readonly DrawnOption[];
  /** Why the drawing is not all of what is written, in a sentence. */
  readonly old: string | undefined;
}

/** `none`: there is nothing to draw, and why. */
export type DrawingAnswer = Drawing | { readonly kind: 'none'; readonly reason: string };
