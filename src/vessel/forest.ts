/** Sets of the numbers 0 to size - 1 that are joined two by two (union by size, path halving). */
export interface Forest {
  readonly find: (item: number) => number;
  /** Joins two sets; false where they were one already. */
  readonly join: (first: number, second: number) => boolean;
}

/** Each number is a set of its own until it is joined. */
export function createForest(size: number): Forest {
  const parent = Int32Array.from({ length: size }, (_, n) => n);
  const sizes = new Int32Array(size).fill(1);
  const find = (item: number): number => {
    let at = item;
    for (;;) {
      const up = parent[at] ?? at;
      if (up === at) return at;
      const above = parent[up] ?? up;
      parent[at] = above;
      at = above;
    }
  };
  const join = (first: number, second: number): boolean => {
    let root = find(first);
    let other = find(second);
    if (root === other) return false;
    if ((sizes[root] ?? 1) < (sizes[other] ?? 1)) [root, other] = [other, root];
    parent[other] = root;
    sizes[root] = (sizes[root] ?? 1) + (sizes[other] ?? 1);
    return true;
  };
  return { find, join };
}
