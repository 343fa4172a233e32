import type { Writers } from './writers.js';
import type { Solver } from '../../checks/design/solver.js';

/** The part of its process that a command may see. Tests put another in its place. */
export interface World {
  /** The working folder, an absolute path. */
  readonly folder: string;
  readonly environment: Readonly<Record<string, string | undefined>>;
  /** Carries the result and nothing else. */
  readonly out: Sink;
  /** Carries progress and what went wrong. */
  readonly error: Sink;
  /** The program's own version. */
  readonly version: string;
  /** Today's date in local time, as `2026-05-01`. */
  readonly today: string;
  /** The entry of a thread that checks a share of the files; undefined where there is one thread only. */
  readonly worker?: URL;
  /** Loads what writes PDF and PNG. */
  readonly writers: Writers;
  /** Loads the solver of mixed-integer programs. */
  readonly solver: () => Promise<Solver>;
  /** Registers what Ctrl-C does instead of ending the process, and gives what takes that back. */
  readonly interrupted?: (act: () => void) => () => void;
}

/** Where text goes. */
export interface Sink {
  readonly write: (text: string) => void;
  /** Whether someone sits in front of it. */
  readonly terminal: boolean;
  /** Columns of the terminal; undefined where it has none. */
  readonly columns: number | undefined;
}

/** What the process ends with. */
export const STATUS = {
  /** Nothing of severity error. */
  clean: 0,
  /** Findings of severity error, more warnings than allowed, or files that are not in canonical layout. */
  findings: 1,
  /** Wrong usage, or input that cannot be read. */
  usage: 2,
  /** A fault of the tool itself. */
  fault: 3,
  /** Stopped by Ctrl-C before it was done, as shells have it: 128 and the number of the signal. */
  interrupted: 130,
} as const;
export type Status = (typeof STATUS)[keyof typeof STATUS];

/** Something that the person at the keyboard can put right; shown as one line, without a stack. */
export class UsageError extends Error {
  override readonly name = 'UsageError';
}
