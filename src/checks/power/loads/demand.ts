/** What flows through each terminal and conductor of a branch in a mode: the draws of all that hangs below, at one time. */
import type { Mode } from '../../../vessel/model.js';
import type { Node } from '../protection/net.js';
import type { Protection } from '../protection/protection.js';
import type { SupplyGraph } from '../supply/graph.js';
import { drawAmps } from './consumers.js';
import type { Loads } from './loads.js';

export interface Demand {
  /** Amperes at the nominal voltage: a bound from below where something does not say its draw. */
  readonly amps: number;
  readonly mode: Mode | undefined;
  /** Something below that does not say its draw, and what it does not say. */
  readonly silent: { readonly device: string; readonly missing: string } | undefined;
}

const NONE: Demand = { amps: 0, mode: undefined, silent: undefined };

/** The greatest demand of any mode at every terminal and conductor. What lies among the sources has none of its own. */
export function demandOf(graph: SupplyGraph, protection: Protection, loads: Loads): (node: Node) => Demand {
  const worst = new Map<Node, Demand>();
  for (const mode of loads.modes) {
    for (const [node, demand] of demandIn(graph, protection, loads, mode)) {
      const known = worst.get(node);
      const silent = first(known?.silent, demand.silent);
      if (known === undefined || demand.amps > known.amps) worst.set(node, { ...demand, silent });
      else worst.set(node, { ...known, silent });
    }
  }
  return (node) => worst.get(node) ?? NONE;
}

/** The demand in one mode. */
function demandIn(
  graph: SupplyGraph,
  protection: Protection,
  loads: Loads,
  mode: Mode | undefined,
): ReadonlyMap<Node, Demand> {
  const sums = new Map<Node, Demand>();
  for (const load of loads.loadsIn(mode).all) {
    if (load.state === 'off') continue;
    const { terminal, device, missing } = load;
    const drawn = drawAmps(load.running, graph.systemOf(terminal)?.nominalVolts);
    const silent =
      missing !== undefined
        ? { device, missing }
        : drawn === undefined
          ? { device, missing: `the voltage of ${terminal} is not known` }
          : undefined;
    for (let node: Node | undefined = terminal; node !== undefined; node = protection.rootOf(node)) {
      const known: Demand = sums.get(node) ?? { ...NONE, mode };
      sums.set(node, {
        amps: known.amps + (drawn ?? 0),
        mode,
        silent: first(known.silent, silent),
      });
    }
  }
  return sums;
}

/** The one whose name comes first, so that the order of declarations decides nothing. */
function first(a: Demand['silent'], b: Demand['silent']): Demand['silent'] {
  if (a === undefined || b === undefined) return a ?? b;
  return a.device <= b.device ? a : b;
}
