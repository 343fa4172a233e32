/**
 * Where things come from. An `Origin` names an element of a vessel by what it is and by the names it was declared with
 * (`device plotter`, `link live.head -- liveHead.plug`), never by a position; `Places` maps it to the text.
 */
export type Origin = string;

/** Zero-based, as in the Language Server Protocol. */
export interface Position {
  readonly line: number;
  readonly character: number;
}

export interface Range {
  readonly start: Position;
  readonly end: Position;
}

/** A stretch of a file. `file` is a URI. */
export interface Place {
  readonly file: string;
  readonly range: Range;
}

/**
 * A place to point at: an element, and optionally one part of it (`model`, `zone`, `a`, `b`, `cable`, `length`, `screen`,
 * `pane left`, ...). A part that has no place of its own falls back to its element.
 */
export interface Spot {
  readonly origin: Origin;
  readonly part?: string | undefined;
}

/** Side table from origins to text. */
export interface Places {
  find(spot: Spot): Place | undefined;
}
