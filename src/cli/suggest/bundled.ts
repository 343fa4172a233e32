/** The solver as the build lays it beside the program. */
import { fileURLToPath } from 'node:url';
import type { Solver } from '../../checks/design/solver.js';
import type * as highs from './highs.js';

/** @param beside - The URL of the bundle that asks. */
export async function bundledSolver(beside: string): Promise<Solver> {
  const { loadSolver } = (await import(new URL('solver.mjs', beside).href)) as typeof highs;
  return loadSolver(fileURLToPath(new URL('highs.wasm', beside)));
}
