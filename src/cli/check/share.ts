/** Checks the files that one thread is given. */
import type { Solver } from '../../checks/design/solver.js';
import type { Opening } from '../project.js';
import { checkedOf, type CheckedShare } from './checked.js';

/** What a thread is to do; plain data. */
export interface ShareTask {
  /** Absolute paths. */
  readonly files: readonly string[];
  readonly opening: Opening;
}

/** Open the files and check them. `checked` is told how many vessels are done; with a solver, cheaper designs are looked for. */
export async function checkShare(
  { files, opening }: ShareTask,
  checked?: (vessels: number) => void,
  solver?: Solver,
): Promise<CheckedShare> {
  const { openProject } = await import('../../language/project/open.js');
  const { report, unreadable } = await openProject(files, { ...opening, checked, solver });
  return { ...checkedOf(report), unreadable };
}
