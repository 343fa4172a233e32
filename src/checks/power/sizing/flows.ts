/** What every leg of every conductor has to carry: loads mode by mode, charging currents and starters. Amperes at nominal voltage. */
import { drawAmps } from '../loads/consumers.js';
import type { Loads, ModeLoads } from '../loads/loads.js';
import type { Node } from '../protection/net.js';
import type { SupplyEdge, SupplyGraph } from '../supply/graph.js';
import { starting, type Crossing, type Ways } from './ways.js';

/** The loads of one mode through a leg. */
export interface ModeFlow {
  /** With everything that is on at its usual draw, and at the most of its mode. */
  readonly typicalAmps: number;
  readonly runningAmps: number;
  /** How much more flows when the one load behind it that adds the most runs at its maximum. */
  readonly moreAmps: number;
}

export interface LegFlow {
  /** By the number of the mode. */
  readonly modes: readonly ModeFlow[];
  readonly typicalAmps: number;
  /** A device at its maximum, what feeds several at a mode's demand with one of them at its maximum; or what charges, if that is more. */
  readonly maxAmps: number;
  readonly chargeAmps: number;
  /** The strongest starter, for its seconds. */
  readonly crankingAmps: number;
  /** A fact that is missing for the whole figure. */
  readonly missing: string | undefined;
}

interface Sum {
  typicalAmps: number;
  runningAmps: number;
  moreAmps: number;
}

interface Filling {
  readonly modes: Sum[];
  outwardAmps: number;
  inwardAmps: number;
  crankingAmps: number;
  missing: string | undefined;
}

export type FlowOf = (edge: SupplyEdge, leg: number) => LegFlow;

/** Work out the flows of a boat. */
export function createFlows(graph: SupplyGraph, loads: Loads, ways: Ways): FlowOf {
  const legs = new Map<SupplyEdge, Filling[]>();
  const at = ({ edge, leg }: Pick<Crossing, 'edge' | 'leg'>): Filling => {
    let all = legs.get(edge);
    if (all === undefined) {
      all = edge.legs.map(() => emptyOf(loads.modes.length));
      legs.set(edge, all);
    }
    return all[leg] ?? emptyOf(loads.modes.length);
  };
  loads.modes.forEach((mode, index) => {
    for (const [node, sum, missing] of branchSums(graph, loads.loadsIn(mode), ways)) {
      const up = ways.net.rootOf(node);
      const carries = (crossing: Crossing): void => {
        const filling = at(crossing);
        const held = filling.modes[index];
        if (held === undefined) return;
        held.typicalAmps += sum.typicalAmps;
        held.runningAmps += sum.runningAmps;
        held.moreAmps = Math.max(held.moreAmps, sum.moreAmps);
        filling.missing ??= missing;
      };
      if (up !== undefined) for (const crossing of ways.stepOf(node, up)) carries(crossing);
      else {
        // What is joined to several banks may be carried by any of them alone.
        const met = new Set<string>();
        for (const way of ways.waysFrom(node, graph.stateIn(mode)))
          for (const crossing of way.crossings) {
            const key = `${crossing.edge.origin}\n${crossing.leg}`;
            if (!met.has(key)) carries(crossing);
            met.add(key);
          }
      }
    }
  });
  addCharging(graph, loads, ways, at);
  addCranking(graph, loads, ways, at);
  const done = new Map<Filling, LegFlow>();
  return (edge, leg) => {
    const filling = at({ edge, leg });
    let flow = done.get(filling);
    if (flow === undefined) done.set(filling, (flow = flowOf(filling)));
    return flow;
  };
}

function emptyOf(modes: number): Filling {
  return {
    modes: Array.from({ length: modes }, () => ({ typicalAmps: 0, runningAmps: 0, moreAmps: 0 })),
    outwardAmps: 0,
    inwardAmps: 0,
    crankingAmps: 0,
    missing: undefined,
  };
}

function flowOf({ modes, outwardAmps, inwardAmps, crankingAmps, missing }: Filling): LegFlow {
  const chargeAmps = Math.max(outwardAmps, inwardAmps);
  const most = (of: (sum: Sum) => number): number => modes.reduce((max, sum) => Math.max(max, of(sum)), 0);
  return {
    modes,
    typicalAmps: Math.max(
      most((sum) => sum.typicalAmps),
      chargeAmps,
    ),
    maxAmps: Math.max(
      most((sum) => sum.runningAmps + sum.moreAmps),
      chargeAmps,
    ),
    chargeAmps,
    crankingAmps,
    missing,
  };
}

/** The sum of what draws at and below every node of a branch. What lies among the sources gets what hangs on it directly. */
function branchSums(
  graph: SupplyGraph,
  { all }: ModeLoads,
  { net }: Ways,
): readonly (readonly [Node, Sum, string | undefined])[] {
  const sums = new Map<Node, { sum: Sum; missing: string | undefined }>();
  for (const load of all) {
    const volts = graph.systemOf(load.terminal)?.nominalVolts;
    const running = drawAmps(load.running, volts);
    const maximum = drawAmps(load.maximum, volts);
    const typical = drawAmps(load.state === 'on' ? load.typical : load.running, volts);
    const missing =
      load.missing ??
      (maximum !== undefined
        ? undefined
        : load.maximum === undefined
          ? `${load.device} does not say what it draws`
          : `the voltage at ${load.terminal} is not known`);
    const more = Math.max(0, (maximum ?? 0) - (running ?? 0));
    for (let node: Node | undefined = load.terminal; node !== undefined; node = net.rootOf(node)) {
      let held = sums.get(node);
      if (held === undefined)
        sums.set(node, (held = { sum: { typicalAmps: 0, runningAmps: 0, moreAmps: 0 }, missing }));
      held.sum.typicalAmps += typical ?? 0;
      held.sum.runningAmps += running ?? 0;
      held.sum.moreAmps = Math.max(held.sum.moreAmps, more);
      held.missing ??= missing;
    }
  }
  return [...sums].map(([node, { sum, missing }]) => [node, sum, missing] as const);
}

/** Each source that charges, at its limit, whether or not a mode has it charge: its conductors have to stand it. */
function addCharging(
  graph: SupplyGraph,
  loads: Loads,
  ways: Ways,
  at: (crossing: Crossing) => Filling,
): void {
  for (const mode of loads.modes) {
    const sums = new Map<Filling, { outward: number; inward: number }>();
    for (const output of graph.outputs) {
      for (const crossing of ways.charging(output.terminal, graph.stateIn(mode))) {
        const filling = at(crossing);
        const sum = sums.get(filling) ?? { outward: 0, inward: 0 };
        sums.set(filling, sum);
        sum[crossing.outward ? 'outward' : 'inward'] += output.limitsAmps ?? 0;
        if (output.limitsAmps === undefined)
          filling.missing ??= `${output.model.name} does not say what its output limits its current to`;
      }
    }
    for (const [filling, { outward, inward }] of sums) {
      filling.outwardAmps = Math.max(filling.outwardAmps, outward);
      filling.inwardAmps = Math.max(filling.inwardAmps, inward);
    }
  }
}

/** Starters, one after the other, each from any battery that some position of the switches brings to it. */
function addCranking(
  graph: SupplyGraph,
  loads: Loads,
  ways: Ways,
  at: (crossing: Crossing) => Filling,
): void {
  const state = starting(graph);
  for (const { terminal, amps } of loads.starters) {
    for (const way of ways.waysFrom(terminal, state))
      for (const crossing of way.crossings) {
        const filling = at(crossing);
        filling.crankingAmps = Math.max(filling.crankingAmps, amps);
      }
  }
}
