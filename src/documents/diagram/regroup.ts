/** Places whose groups have other names by now: a zone that is called something else keeps its boxes where they are. */
import type { Diagram } from './diagram.js';
import type { KeptDiagram } from './kept.js';

/** A group that is gone is one that has come where all boxes of the one that are still there are in the other. */
export function regrouped(kept: KeptDiagram, { groups }: Diagram): KeptDiagram {
  const groupOf = new Map(groups.flatMap(({ id, nodes }) => nodes.map((node) => [node.id, id] as const)));
  const there = new Set(groups.map(({ id }) => id));
  const were = new Set(kept.nodes.map(({ group }) => group));
  const names = new Map<string, string>();
  for (const old of were) {
    if (there.has(old)) continue;
    const own = kept.nodes.filter(({ group }) => group === old);
    const now = new Set(own.flatMap(({ id }) => groupOf.get(id) ?? []));
    const [name] = now;
    if (now.size === 1 && name !== undefined && !were.has(name)) names.set(old, name);
  }
  if (names.size === 0) return kept;
  return {
    ...kept,
    nodes: kept.nodes.map((node) => ({ ...node, group: names.get(node.group) ?? node.group })),
  };
}
