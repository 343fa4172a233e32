/** The nodes of a circuit by number, worked out once for any number of loadings: names cost more than the arithmetic. */
import { createForest, type Forest } from '../../../vessel/forest.js';
import type { Branch, Source } from './circuit.js';

/** Branches with less resistance join their ends. */
const JOINED_BELOW_OHMS = 1e-9;

const isJoint = (branch: Branch): boolean => branch.oneWay !== true && branch.ohms < JOINED_BELOW_OHMS;

/** What lies between loads and sources, with its nodes numbered in the order in which they are named. */
export interface Numbered {
  readonly branches: readonly Branch[];
  readonly sources: readonly Source[];
  /** Names by number. */
  readonly names: readonly string[];
  /** -1 for a node that no branch or source names. */
  readonly numberOf: (name: string) => number;
  /** Ends of each branch, `a` then `b`. */
  readonly ends: Int32Array;
  /** Whether a branch is a joint. */
  readonly joint: readonly boolean[];
  /** Plus, then minus, of each source. */
  readonly poles: Int32Array;
  /** Nodes that joints make one. */
  readonly merged: Forest;
}

export function numberNodes({
  branches,
  sources,
}: {
  readonly branches: readonly Branch[];
  readonly sources: readonly Source[];
}): Numbered {
  const numbers = new Map<string, number>();
  const names: string[] = [];
  const numbered = (name: string): number => {
    let number = numbers.get(name);
    if (number === undefined) {
      number = names.length;
      numbers.set(name, number);
      names.push(name);
    }
    return number;
  };
  const ends = new Int32Array(2 * branches.length);
  branches.forEach(({ a, b }, n) => {
    ends[2 * n] = numbered(a);
    ends[2 * n + 1] = numbered(b);
  });
  const poles = new Int32Array(2 * sources.length);
  sources.forEach(({ plus, minus }, n) => {
    poles[2 * n] = numbered(plus);
    poles[2 * n + 1] = numbered(minus);
  });
  const joint = branches.map(isJoint);
  const merged = createForest(names.length);
  joint.forEach((is, n) => {
    if (is) merged.join(ends[2 * n] ?? 0, ends[2 * n + 1] ?? 0);
  });
  return {
    branches,
    sources,
    names,
    numberOf: (name) => numbers.get(name) ?? -1,
    ends,
    joint,
    poles,
    merged,
  };
}
