/** Currents through branches without resistance: no voltage tells them, but what enters a node must leave it. */
import { createUnionFind } from '../../../vessel/unionFind.js';
import type { Branch } from './circuit.js';

/**
 * Amperes from `a` to `b` of each joint, by its id. Where joints close a ring nothing says how they share, so those that close
 * it are taken to carry none.
 *
 * @param entering - Amperes that enter each node through everything else.
 */
export function jointAmps(
  joints: readonly Branch[],
  entering: ReadonlyMap<string, number>,
): ReadonlyMap<string, number> {
  const amps = new Map<string, number>();
  const joined = createUnionFind<string>();
  const at = new Map<string, Branch[]>();
  for (const joint of joints) {
    amps.set(joint.id, 0);
    if (!joined.join(joint.a, joint.b)) continue;
    for (const node of [joint.a, joint.b]) {
      const here = at.get(node);
      if (here) here.push(joint);
      else at.set(node, [joint]);
    }
  }
  const left = new Map(entering);
  const seen = new Set<string>();
  for (const start of at.keys()) {
    if (seen.has(start)) continue;
    seen.add(start);
    // Each with the joint towards the start; from the far ends back, a joint carries what has gathered beyond it.
    const reached: { readonly node: string; readonly up: string; readonly joint: Branch }[] = [];
    const pending = [start];
    for (let node = pending.pop(); node !== undefined; node = pending.pop())
      for (const joint of at.get(node) ?? []) {
        const next = joint.a === node ? joint.b : joint.a;
        if (seen.has(next)) continue;
        seen.add(next);
        reached.push({ node: next, up: node, joint });
        pending.push(next);
      }
    for (const { node, up, joint } of reached.reverse()) {
      const gathered = left.get(node) ?? 0;
      amps.set(joint.id, joint.a === node ? gathered : -gathered);
      left.set(up, (left.get(up) ?? 0) + gathered);
    }
  }
  return amps;
}
