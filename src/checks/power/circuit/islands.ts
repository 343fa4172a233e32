/** The parts of a circuit that do not hang together: what happens in one is no matter to another. */
import { createUnionFind } from '../../../vessel/unionFind.js';
import type { Branch, Circuit, Load, Source } from '../solve/circuit.js';

/** Each part with its own branches, sources and loads, in the order of their first branch or source; a load that nothing reaches is in none. */
export function islandsOf({ branches, sources, loads }: Circuit): readonly Circuit[] {
  const sets = createUnionFind<string>();
  for (const { a, b } of branches) sets.join(a, b);
  for (const { plus, minus } of sources) sets.join(plus, minus);
  // The two conductors of a feed hang together by the source alone, and by nothing where none reaches them.
  const islands = new Map<string, { branches: Branch[]; sources: Source[]; loads: Load[] }>();
  const islandAt = (node: string): { branches: Branch[]; sources: Source[]; loads: Load[] } => {
    const root = sets.find(node);
    const known = islands.get(root) ?? { branches: [], sources: [], loads: [] };
    islands.set(root, known);
    return known;
  };
  for (const source of sources) islandAt(source.plus).sources.push(source);
  for (const branch of branches) islandAt(branch.a).branches.push(branch);
  for (const load of loads) if (islands.has(sets.find(load.plus))) islandAt(load.plus).loads.push(load);
  return [...islands.values()];
}
