/** Currents through branches without resistance: no voltage tells them, but what enters a node must leave it. */
import { createForest } from '../../../vessel/forest.js';
import type { Numbered } from './numbered.js';

/** Joints as trees: each node that hangs on another, with the joint between, the farthest from the start last. */
export interface JointTrees {
  readonly nodes: Int32Array;
  readonly ups: Int32Array;
  /** Numbers of the branches. */
  readonly joints: Int32Array;
  /** Joints that close a ring: nothing says how they share, so they are taken to carry none. */
  readonly idle: readonly number[];
}

/** Finds the trees, once for a circuit. */
export function jointTrees({ joint, ends, names }: Numbered): JointTrees {
  const forest = createForest(names.length);
  const idle: number[] = [];
  // Joints at each node, as chains through one array: those of a node follow each other.
  const first = new Int32Array(names.length).fill(-1);
  const next = new Int32Array(ends.length).fill(-1);
  let count = 0;
  joint.forEach((is, n) => {
    if (!is) return;
    if (!forest.join(ends[2 * n] ?? 0, ends[2 * n + 1] ?? 0)) {
      idle.push(n);
      return;
    }
    count += 1;
    for (const end of [2 * n, 2 * n + 1]) {
      const node = ends[end] ?? 0;
      next[end] = first[node] ?? -1;
      first[node] = end;
    }
  });
  const nodes = new Int32Array(count);
  const ups = new Int32Array(count);
  const joints = new Int32Array(count);
  const seen = new Uint8Array(names.length);
  let filled = 0;
  const pending: number[] = [];
  for (let start = 0; start < names.length; start++) {
    if (seen[start] === 1 || first[start] === -1) continue;
    seen[start] = 1;
    pending.push(start);
    for (let node = pending.pop(); node !== undefined; node = pending.pop())
      for (let end = first[node] ?? -1; end !== -1; end = next[end] ?? -1) {
        const other = ends[end ^ 1] ?? 0;
        if (seen[other] === 1) continue;
        seen[other] = 1;
        nodes[filled] = other;
        ups[filled] = node;
        joints[filled] = end >> 1;
        filled += 1;
        pending.push(other);
      }
  }
  return { nodes, ups, joints, idle };
}

/**
 * Puts the amperes from `a` to `b` of each joint in its place.
 *
 * @param entering - Amperes that enter each node through everything else; used up.
 */
export function putJointAmps(
  { ends }: Numbered,
  { nodes, ups, joints }: JointTrees,
  entering: Float64Array,
  amps: Float64Array,
): void {
  // From the far ends back, a joint carries what has gathered beyond it.
  for (let n = nodes.length - 1; n >= 0; n--) {
    const node = nodes[n] ?? 0;
    const up = ups[n] ?? 0;
    const joint = joints[n] ?? 0;
    const gathered = entering[node] ?? 0;
    amps[joint] = ends[2 * joint] === node ? gathered : -gathered;
    entering[up] = (entering[up] ?? 0) + gathered;
  }
}
