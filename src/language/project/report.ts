/**
 * What a face gets when it asks for vessels to be checked: every problem with its place in the text, and the analysis of each
 * vessel for whatever else the face wants to show. Plain data but for the functions of `Analysis`.
 */
import type { Analysis } from '../../checks/analysis.js';
import type { Counts, Finding, Severity } from '../../checks/finding.js';
import type { VesselOption } from '../../vessel/options/model.js';
import type { Place, Places } from '../../vessel/origin.js';

/** A repair worked out as text edits. */
export interface Fix {
  readonly title: string;
  /** The best of several. */
  readonly preferred: boolean;
  readonly edits: readonly { readonly place: Place; readonly text: string }[];
}

/** A finding or a fault of the text, at its place. */
export interface Problem {
  readonly rule: string;
  readonly severity: Severity;
  readonly message: string;
  readonly place: Place;
  readonly related: readonly { readonly place: Place; readonly message: string }[];
  readonly fixes: readonly Fix[];
  /** The waiver's reason, or null. */
  readonly waived: string | null;
  /** Fades unused declarations in an editor. */
  readonly unused: boolean;
  /** The option that brings it; null where the vessel has it without any. */
  readonly option: string | null;
  /** What the analysis found; undefined for a fault of the text. */
  readonly finding: Finding | undefined;
}

/** One vessel (its base, or the base with an option, or with several). */
export interface VesselReport {
  readonly name: string;
  /** URI of the file that declares it. */
  readonly file: string;
  readonly option: string | null;
  /** Every option that the vessel has, whichever it is checked with. */
  readonly options: readonly VesselOption[];
  /** Sorted by file, then place. Includes faults of the text in the vessel's own file and its fragments. */
  readonly problems: readonly Problem[];
  readonly counts: Counts;
  readonly rulesRun: number;
  readonly analysis: Analysis;
  readonly places: Places;
}

/** A catalogue, or a fragment that no vessel uses, with what is true of it alone. */
export interface FileReport {
  readonly file: string;
  readonly problems: readonly Problem[];
}

export interface ProjectReport {
  readonly vessels: readonly VesselReport[];
  readonly files: readonly FileReport[];
  /** The text of a loaded file, for quoting lines. */
  readonly text: (file: string) => string | undefined;
}

/** A path that could not be read or holds no spec; a usage error (exit status 2). */
export interface Unreadable {
  readonly path: string;
  readonly message: string;
}
