/** Walks over the supply with conditions: what is reached without passing a switch, say. */
import type { Join, SupplyEdge, SupplyGraph } from './graph.js';

export interface Passing {
  /** Whether a join is passed, coming from one of its sides. */
  readonly join: (join: Join, from: string) => boolean;
  readonly edge?: (edge: SupplyEdge) => boolean;
  /** Whether a walk goes on from a terminal that it has reached. */
  readonly on?: (terminal: string) => boolean;
}

/** Every terminal that is reached from the given ones, they included, the nearest first. */
export function reachedFrom(
  graph: SupplyGraph,
  starts: readonly string[],
  { join: passes, edge: follows = () => true, on = () => true }: Passing,
): ReadonlySet<string> {
  const seen = new Set(starts);
  const queue = [...starts];
  const put = (terminal: string | undefined): void => {
    if (terminal === undefined || seen.has(terminal)) return;
    seen.add(terminal);
    queue.push(terminal);
  };
  const spent = new Set<SupplyEdge>();
  let index = 0;
  for (const terminal of queue) {
    index += 1;
    if (index > starts.length && !on(terminal)) continue;
    for (const join of graph.joinsAt(terminal))
      if (passes(join, terminal)) put(join.a === terminal ? join.b : join.a);
    for (const edge of graph.edgesAt(terminal)) {
      if (spent.has(edge) || !follows(edge)) continue;
      spent.add(edge);
      put(edge.from);
      for (const leg of edge.legs) put(leg.to);
    }
  }
  return seen;
}

/** What passes current on whichever way a switch stands: not a switch, a relay or a converter, nor a diode against its way. */
export function withoutSwitch(join: Join, from: string): boolean {
  return join.kind === 'solid' || join.kind === 'way' || (join.kind === 'diode' && from === join.a);
}
