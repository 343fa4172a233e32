import { createUnionFind } from '../../../vessel/unionFind.js';
import { compareText, listOf } from '../../../vessel/words.js';
import { rule } from '../../rule.js';
import { endsOf, terminalAt } from '../protection/net.js';
import type { SupplyEdge, SupplyGraph } from '../supply/graph.js';

/**
 * `power/loop`: feeds form a cycle that passes no battery, no charging source, no switch, relay, diode or converter. What a
 * fuse on one side cuts off then stays alive from the other. Common practice, no source.
 */
export const loop = rule(
  { code: 'power/loop', severities: ['error'], summary: 'Feeds form a cycle.' },
  ({ supply }, report) => {
    for (const cycle of cyclesOf(supply)) {
      const [named, ...others] = [...cycle].sort((a, b) => compareText(a.origin, b.origin));
      if (named === undefined) continue;
      const texts = [named, ...others].map((edge) => `"${edge.text}"`);
      report.find({
        message: `the feeds ${listOf(texts, 'and', 5)} form a cycle: what a fuse on one side cuts off stays alive from the other. Take one of them out.`,
        at: { origin: named.origin },
        related: others
          .slice(0, 6)
          .map((edge) => ({ at: { origin: edge.origin }, message: `${edge.text} is part of the cycle` })),
      });
    }
  },
);

/** A panel, a busbar or a post, by any of its terminals; or a feed. */
type Node = string | SupplyEdge;

/**
 * The feeds of each cycle. Leaves are taken off again and again; what is left is on a cycle or between two. Neither banks nor
 * what isolates is a node, and charging paths are left out, as are the taps of backbones, which have a rule of their own.
 */
function cyclesOf(supply: SupplyGraph): readonly (readonly SupplyEdge[])[] {
  const solid = createUnionFind<string>();
  for (const join of supply.joins)
    if (join.kind === 'solid' || join.kind === 'way') solid.join(join.a, join.b);
  const arcs = new Map<Node, Node[]>();
  const put = (a: Node, b: Node): void => {
    const list = arcs.get(a);
    if (list === undefined) arcs.set(a, [b]);
    else list.push(b);
  };
  for (const edge of supply.edges) {
    if (edge.kind === 'tap' || (edge.from !== undefined && supply.outputAt(edge.from) !== undefined))
      continue;
    for (const end of endsOf(edge)) {
      const terminal = terminalAt(edge, end);
      if (terminal === undefined || supply.bankAt(terminal) !== undefined) continue;
      put(edge, solid.find(terminal));
      put(solid.find(terminal), edge);
    }
  }
  const degree = new Map<Node, number>([...arcs].map(([node, list]) => [node, list.length]));
  const gone = new Set<Node>();
  const leaves = [...arcs.keys()].filter((node) => (degree.get(node) ?? 0) < 2);
  for (const node of leaves) {
    if (gone.has(node)) continue;
    gone.add(node);
    for (const next of arcs.get(node) ?? []) {
      const left = (degree.get(next) ?? 0) - 1;
      degree.set(next, left);
      if (left < 2 && !gone.has(next)) leaves.push(next);
    }
  }
  const nets = createUnionFind<Node>();
  for (const [node, list] of arcs)
    if (!gone.has(node)) for (const next of list) if (!gone.has(next)) nets.join(node, next);
  const cycles = new Map<Node, SupplyEdge[]>();
  for (const node of arcs.keys()) {
    if (typeof node === 'string' || gone.has(node)) continue;
    const root = nets.find(node);
    cycles.set(root, [...(cycles.get(root) ?? []), node]);
  }
  return [...cycles.values()];
}
