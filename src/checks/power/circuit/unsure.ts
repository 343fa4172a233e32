/** Which fact keeps a voltage of the network from being more than a bound. */
import type { Context } from '../../context.js';
import type { ModeSolution } from './circuits.js';

/**
 * What is not known on the way to a load: a wire, or what else is drawn through it. Such a wire counts as none, and such a draw as
 * the least that it may be, so that the voltage of the load is a bound from above.
 */
export function wayMissing(
  { supply, sizing }: Pick<Context, 'supply' | 'sizing'>,
  terminal: string,
  at: ModeSolution,
): string | undefined {
  for (const { crossings } of sizing.ways.waysFrom(terminal, supply.stateIn(at.mode)))
    for (const { edge, leg } of crossings) {
      if (sizing.legOhms(edge, leg) === undefined)
        return sizing.of(edge).missing ?? edge.legs[leg]?.missing ?? `the wire of ${edge.text} is not known`;
      const { missing } = sizing.flowOf(edge, leg);
      if (missing !== undefined) return missing;
    }
  if (at.solution.kind === 'refused') return at.solution.reason;
  return at.solution.kind === 'solved' && at.solution.unsupplied.includes(terminal)
    ? undefined
    : at.missing[0];
}
