/** What is worth telling of a vessel and takes too long for whoever types: worked out apart, in another thread. Plain data. */
import type { Vessel } from '../../vessel/model.js';
import { cheaperOf, type Cheaper } from './cheaper.js';
import { search } from './search.js';
import type { Solver } from './solver.js';

export interface Thought {
  readonly cheaper: Cheaper | undefined;
  /** Devices whose loss costs a need that is met with everything aboard. */
  readonly losses: readonly Loss[];
}

interface Loss {
  readonly device: string;
  /** As they are written. */
  readonly needs: readonly string[];
}

/** `stopped` is asked now and then; what was not found by then is not told. */
export function thoughtOf(vessel: Vessel, solver: Solver, today: string, stopped: () => boolean): Thought {
  const keep = { devices: new Set<string>(), links: new Set<string>() };
  const found = search(vessel, solver, { today, best: 1, keep, stopped });
  return {
    cheaper: cheaperOf(found),
    losses: found.present
      .failures()
      .failures.filter(({ kind, needsLost }) => kind === 'device' && needsLost.length > 0)
      .map(({ name, needsLost }) => ({ device: name, needs: needsLost })),
  };
}
