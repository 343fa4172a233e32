/** The ways that current takes: from a place up to what supplies it, and from what charges to the banks. */
import type { Arc, FaultNet, Node } from '../protection/net.js';
import { createFaultNet } from '../protection/net.js';
import type { Join, SupplyEdge, SupplyGraph, SupplyState } from '../supply/graph.js';

/** A leg of a conductor on a way. */
export interface Crossing {
  readonly edge: SupplyEdge;
  readonly leg: number;
  /** Current flows from the conductor's start to the end of the leg. */
  readonly outward: boolean;
}

/** A way to one source. */
export interface Way {
  readonly source: string;
  /** From the place to the source. */
  readonly crossings: readonly Crossing[];
}

/** The crossings up a branch, and the node among the sources at which it ends. */
export interface Branch {
  readonly crossings: readonly Crossing[];
  readonly top: Node;
}

export interface Ways {
  readonly net: FaultNet;
  /** What is crossed from a node to the next one towards the source. */
  readonly stepOf: (near: Node, far: Node) => readonly Crossing[];
  readonly branchOf: (node: Node) => Branch;
  /**
   * The ways from a place to the banks that supply it as the switches stand, the nearest first; to other outputs where no bank
   * does. None where nothing supplies it.
   */
  readonly waysFrom: (node: Node, state: SupplyState) => readonly Way[];
  /** The legs that the current of a charging source may flow through, to each bank that it reaches, through others too. */
  readonly charging: (output: string, state: SupplyState) => readonly Crossing[];
}

/**
 * Prepare the ways of a boat. A switch whose position is not said passes; so does a relay, for what charges, in a mode in which
 * nothing does.
 */
export function createWays(graph: SupplyGraph): Ways {
  const outputs = new Set(graph.outputs.map((output) => output.terminal));
  const net = createFaultNet(
    graph,
    (terminal) => graph.bankAt(terminal) !== undefined || outputs.has(terminal),
  );
  const passes = (join: Join | undefined, state: SupplyState): boolean =>
    join === undefined || state.closed(join) !== false;
  const charges = (join: Join | undefined, state: SupplyState): boolean =>
    passes(join, state) || (join?.kind === 'combiner' && state.charging.size === 0);

  const branches = new Map<Node, Branch>();
  const branchOf = (node: Node): Branch => {
    const known = branches.get(node);
    if (known !== undefined) return known;
    const crossings: Crossing[] = [];
    let top = node;
    for (let up = net.rootOf(top); up !== undefined; up = net.rootOf(top)) {
      crossings.push(...between(top, up));
      top = up;
    }
    const branch = { crossings, top };
    branches.set(node, branch);
    return branch;
  };

  /** Nodes from which current can come to the start, each with its next towards it. */
  const spread = (
    start: Node,
    next: (node: Node) => readonly Node[],
    ends: (node: Node) => boolean,
  ): ReadonlyMap<Node, Node | undefined> => {
    const before = new Map<Node, Node | undefined>([[start, undefined]]);
    const queue: Node[] = [start];
    for (const node of queue) {
      if (node !== start && ends(node)) continue;
      for (const to of next(node)) {
        if (before.has(to)) continue;
        before.set(to, node);
        queue.push(to);
      }
    }
    return before;
  };
  const upstream =
    (state: SupplyState) =>
    (node: Node): readonly Node[] =>
      net.waysTo(node).flatMap((arc) => (arc.comes && passes(arc.join, state) ? [arc.to] : []));
  const comesTo = (arc: Arc, node: Node, state: SupplyState): boolean =>
    net.waysTo(arc.to).some((back) => back.to === node && back.comes && charges(back.join, state));
  const downstream =
    (state: SupplyState) =>
    (node: Node): readonly Node[] =>
      net.waysTo(node).flatMap((arc) => (comesTo(arc, node, state) ? [arc.to] : []));

  const chain = (end: Node, before: ReadonlyMap<Node, Node | undefined>): readonly Node[] => {
    const nodes: Node[] = [];
    for (let node: Node | undefined = end; node !== undefined; node = before.get(node)) nodes.push(node);
    return nodes;
  };

  const found = new Map<SupplyState, Map<Node, readonly Way[]>>();
  const fromTop = (top: Node, state: SupplyState): readonly Way[] => {
    const isBank = (node: Node): node is string =>
      typeof node === 'string' && graph.bankAt(node) !== undefined;
    const isOutput = (node: Node): node is string => typeof node === 'string' && outputs.has(node);
    if (isBank(top)) return [{ source: top, crossings: [] }];
    const before = spread(top, upstream(state), isBank);
    const at = [...before.keys()];
    const banks = at.filter(isBank);
    const sources = banks.length > 0 ? banks : at.filter(isOutput);
    return sources.map((source) => ({
      source,
      crossings: pairs([...chain(source, before)].reverse()).flatMap(([near, far]) => between(near, far)),
    }));
  };
  return {
    net,
    stepOf: between,
    branchOf,
    waysFrom: (node, state) => {
      const known = found.get(state) ?? new Map<Node, readonly Way[]>();
      found.set(state, known);
      const before = known.get(node);
      if (before !== undefined) return before;
      const { crossings, top } = branchOf(node);
      let ways = known.get(top);
      if (ways === undefined) known.set(top, (ways = fromTop(top, state)));
      if (crossings.length > 0)
        ways = ways.map((way) => ({ source: way.source, crossings: [...crossings, ...way.crossings] }));
      known.set(node, ways);
      return ways;
    },
    charging: (output, state) => {
      const before = spread(output, downstream(state), () => false);
      const met = new Map<SupplyEdge, Map<number, Crossing>>();
      for (const node of before.keys()) {
        if (typeof node !== 'string' || graph.bankAt(node) === undefined) continue;
        for (const [far, near] of pairs(chain(node, before))) {
          for (const crossing of between(far, near)) {
            const legs = met.get(crossing.edge) ?? new Map<number, Crossing>();
            met.set(crossing.edge, legs.set(crossing.leg, crossing));
          }
        }
      }
      return [...met.values()].flatMap((legs) => [...legs.values()]);
    },
  };
}

/** The state in which engines are started: every switch on, also one for an emergency. */
export function starting(graph: SupplyGraph): SupplyState {
  return { ...graph.stateIn(), closed: (join) => join.kind !== 'combiner' };
}

/** What is crossed between a node and the next one towards the source. */
function between(near: Node, far: Node): readonly Crossing[] {
  if (typeof near === 'string') return typeof far === 'string' ? [] : crossed(far, near, true);
  return typeof far === 'string' ? crossed(near, far, false) : [];
}

function crossed(edge: SupplyEdge, terminal: string, outward: boolean): readonly Crossing[] {
  if (edge.from === terminal) return [];
  const leg = edge.legs.find(({ to }) => to === terminal)?.index;
  return leg === undefined ? [] : [{ edge, leg, outward }];
}

function pairs(nodes: readonly Node[]): readonly (readonly [Node, Node])[] {
  return nodes.slice(1).flatMap((node, index) => {
    const before = nodes[index];
    return before === undefined ? [] : [[before, node] as const];
  });
}
