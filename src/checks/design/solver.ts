/** What the search asks of a solver of mixed-integer programs. */
import type { Program, Row } from './program.js';

export type Answer =
  | { readonly kind: 'optimal'; readonly values: Float64Array; readonly cost: number }
  | { readonly kind: 'infeasible' }
  /** With the best answer so far, where there is one. */
  | { readonly kind: 'interrupted'; readonly values: Float64Array | undefined };

/** A program that is solved again and again with more rows. */
export interface Solving {
  readonly run: () => Answer;
  readonly add: (row: Row) => void;
  /** The solver's own memory is given back. */
  readonly close: () => void;
}

/** Opens a program. `stopped` is asked now and then; when it says so, the run ends as interrupted. */
export type Solver = (program: Program, stopped: () => boolean) => Solving;
