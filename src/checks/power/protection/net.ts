/**
 * The supply as fault current sees it: which way it can come to a terminal, and what lies on the way.
 *
 * What hangs on the boat's sources as on a branch (a panel with its loads) has one way to them only. Those branches are taken
 * off first, leaf by leaf, so that a walk goes straight up a branch and only ever spreads between the sources themselves.
 */
import { compareText } from '../../../vessel/words.js';
import type { Join, PlacedDevice, SupplyEdge, SupplyGraph } from '../supply/graph.js';

/** A terminal by its id, or a conductor. */
export type Node = string | SupplyEdge;
/** An end of a conductor: its start, or the number of a leg. */
export type EdgeEnd = 'from' | number;

export interface Arc {
  readonly to: Node;
  /** Where it is an end of a conductor. */
  readonly edge: SupplyEdge | undefined;
  readonly end: EdgeEnd | undefined;
  /** Where it is inside a device. */
  readonly join: Join | undefined;
  /** Current can come from `to` to here: not against a diode. */
  readonly comes: boolean;
}

export interface FaultNet {
  /** Ways by which current can come to a node: up its branch, or about among the sources. */
  readonly waysTo: (node: Node) => readonly Arc[];
  /** What a branch hangs on; undefined for what lies among the sources. */
  readonly rootOf: (node: Node) => Node | undefined;
  /** Conductors by their distance from a bank, the nearest first; then those that only another output reaches. */
  readonly outward: readonly SupplyEdge[];
}

/** The terminal at an end. */
export function terminalAt(edge: SupplyEdge, end: EdgeEnd): string | undefined {
  return end === 'from' ? edge.from : edge.legs[end]?.to;
}

/** Every end of a conductor. */
export function endsOf(edge: SupplyEdge): readonly EdgeEnd[] {
  return ['from', ...edge.legs.map((leg) => leg.index)];
}

/** Whether a device sits at an end. What does not say where it sits is taken to be at the start. */
export function sitsAt(device: PlacedDevice, end: EdgeEnd): boolean {
  return device.end === undefined ? end === 'from' : device.end === end;
}

/**
 * Prepare a boat's supply for walks. What is no source can end a branch: for fault currents a source is a battery, or what does
 * not say its limit.
 */
export function createFaultNet(
  graph: SupplyGraph,
  isSource: (terminal: string) => boolean = (terminal) =>
    graph.bankAt(terminal) !== undefined || isUnlimited(graph, terminal),
): FaultNet {
  const arcs = arcsIn(graph);
  const roots = branchesOf(arcs, (node) => typeof node === 'string' && isSource(node));
  const ways = new Map<Node, readonly Arc[]>();
  const waysTo = (node: Node): readonly Arc[] => {
    const known = ways.get(node);
    if (known !== undefined) return known;
    const root = roots.get(node);
    const all = arcs.get(node) ?? [];
    const found = roots.has(node)
      ? all.filter(({ to }) => to === root)
      : all.filter(({ to }) => !roots.has(to));
    ways.set(node, found);
    return found;
  };
  let outward: readonly SupplyEdge[] | undefined;
  return {
    waysTo,
    rootOf: (node) => roots.get(node),
    get outward() {
      return (outward ??= outwardOf(graph, arcs));
    },
  };
}

/** One boat's arcs serve every walk through it. */
const arcsOfGraphs = new WeakMap<SupplyGraph, ReadonlyMap<Node, readonly Arc[]>>();

function arcsIn(graph: SupplyGraph): ReadonlyMap<Node, readonly Arc[]> {
  let arcs = arcsOfGraphs.get(graph);
  if (arcs === undefined) arcsOfGraphs.set(graph, (arcs = arcsOf(graph)));
  return arcs;
}

function arcsOf(graph: SupplyGraph): ReadonlyMap<Node, readonly Arc[]> {
  const arcs = new Map<Node, Arc[]>();
  const put = (at: Node, arc: Arc): void => {
    const list = arcs.get(at);
    if (list === undefined) arcs.set(at, [arc]);
    else list.push(arc);
  };
  const inside = (a: string, b: string, join: Join | undefined): void => {
    put(a, { to: b, edge: undefined, end: undefined, join, comes: join?.kind !== 'diode' });
    put(b, { to: a, edge: undefined, end: undefined, join, comes: true });
  };
  // By name, so that the order of declarations decides nothing.
  const joins = [...graph.joins].sort((x, y) => compareText(x.device, y.device));
  for (const join of joins) if (join.kind !== 'converter') inside(join.a, join.b, join);
  for (const bank of graph.banks) {
    const [first] = bank.terminals;
    for (const other of bank.terminals.slice(1)) if (first !== undefined) inside(first, other, undefined);
  }
  for (const edge of [...graph.edges].sort((x, y) => compareText(x.origin, y.origin))) {
    for (const end of endsOf(edge)) {
      const terminal = terminalAt(edge, end);
      if (terminal === undefined) continue;
      put(edge, { to: terminal, edge, end, join: undefined, comes: true });
      put(terminal, { to: edge, edge, end, join: undefined, comes: true });
    }
  }
  return arcs;
}

/** What each branch hangs on: leaves that are no source are taken off again and again until only what lies among sources is left. */
function branchesOf(
  arcs: ReadonlyMap<Node, readonly Arc[]>,
  isSource: (node: Node) => boolean,
): ReadonlyMap<Node, Node | undefined> {
  const degree = new Map<Node, number>([...arcs].map(([node, list]) => [node, list.length]));
  const roots = new Map<Node, Node | undefined>();
  const leaves = [...arcs.keys()].filter((node) => (degree.get(node) ?? 0) <= 1 && !isSource(node));
  for (const node of leaves) {
    if (roots.has(node)) continue;
    const root = arcs.get(node)?.find(({ to }) => !roots.has(to))?.to;
    roots.set(node, root);
    if (root === undefined) continue;
    const left = (degree.get(root) ?? 0) - 1;
    degree.set(root, left);
    if (left <= 1 && !isSource(root)) leaves.push(root);
  }
  return roots;
}

/** A source that does not say what it limits its current to, and so may feed a fault with any. */
export function isUnlimited(graph: SupplyGraph, terminal: string): boolean {
  const output = graph.outputAt(terminal);
  return output !== undefined && output.limitsAmps === undefined;
}

function outwardOf(graph: SupplyGraph, arcs: ReadonlyMap<Node, readonly Arc[]>): readonly SupplyEdge[] {
  const banks = [...graph.banks].sort((x, y) => compareText(x.device, y.device));
  const queue: Node[] = [];
  const seen = new Set<Node>();
  const spread = (from: readonly Node[]): void => {
    const begin = queue.length;
    for (const node of from) if (!seen.has(node)) queue.push(node);
    for (const node of queue.slice(begin)) seen.add(node);
    for (let at = begin; at < queue.length; at++) {
      for (const { to } of arcs.get(queue[at] ?? '') ?? []) {
        if (seen.has(to)) continue;
        seen.add(to);
        queue.push(to);
      }
    }
  };
  spread(banks.flatMap((bank) => bank.terminals));
  spread(graph.outputs.map((output) => output.terminal).sort(compareText));
  const reached = queue.filter((node) => typeof node !== 'string');
  return [...reached, ...graph.edges.filter((edge) => !seen.has(edge))];
}
