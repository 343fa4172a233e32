/** Sets that are joined two by two (union by size, path halving): near-linear over any number of joins. */
export interface UnionFind<T> {
  readonly find: (item: T) => T;
  /** Joins two sets; false where they were one already. */
  readonly join: (first: T, second: T) => boolean;
}

/** An empty collection; an item is a set of its own until it is joined. */
export function createUnionFind<T>(): UnionFind<T> {
  const parent = new Map<T, T>();
  const size = new Map<T, number>();
  const find = (item: T): T => {
    let at = item;
    for (;;) {
      const up = parent.get(at) ?? at;
      if (up === at) return at;
      const above = parent.get(up) ?? up;
      parent.set(at, above);
      at = above;
    }
  };
  const join = (first: T, second: T): boolean => {
    let root = find(first);
    let other = find(second);
    if (root === other) return false;
    if ((size.get(root) ?? 1) < (size.get(other) ?? 1)) [root, other] = [other, root];
    parent.set(other, root);
    size.set(root, (size.get(root) ?? 1) + (size.get(other) ?? 1));
    return true;
  };
  return { find, join };
}
