/** Loads the solver of mixed-integer programs, which is large and needed by one command alone. */
import highs, { type Highs } from 'highs';
import { solverOf } from '../../checks/design/highs.js';
import type { Solver } from '../../checks/design/solver.js';

/** The package's types describe its older build, where the loader is a member; the module that is loaded is the loader. */
const load = highs as unknown as (options: { readonly locateFile?: () => string }) => Promise<Highs>;

/** @param wasm - Where its code lies; by default in its package. */
export async function loadSolver(wasm?: string): Promise<Solver> {
  return solverOf(await load(wasm === undefined ? {} : { locateFile: () => wasm }));
}
