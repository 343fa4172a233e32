/** What is pulled through each conduit. */
import type { Run } from '../../vessel/model.js';
import type { Context } from '../context.js';
import type { Passage } from './passages.js';

/** Every conduit with what goes through it, in the order of the runs. */
export function collectConduits({
  vessel,
  passages,
}: Context): readonly { readonly run: Run; readonly through: readonly Passage[] }[] {
  const through = new Map<Run, Passage[]>(vessel.runs.filter((run) => run.conduit).map((run) => [run, []]));
  for (const passage of passages) {
    if (passage.route.kind !== 'route') continue;
    for (const run of new Set(passage.route.runs)) through.get(run)?.push(passage);
  }
  return [...through].map(([run, list]) => ({ run, through: list }));
}
