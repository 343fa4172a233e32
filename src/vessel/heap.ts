/** A binary heap: the least item first. */
export interface Heap<T> {
  readonly push: (item: T) => void;
  readonly pop: () => T | undefined;
}

/** An empty heap with the given order. */
export function createHeap<T>(compare: (first: T, second: T) => number): Heap<T> {
  const items: T[] = [];
  const less = (i: number, j: number): boolean => {
    const a = items[i];
    const b = items[j];
    return a !== undefined && b !== undefined && compare(a, b) < 0;
  };
  const swap = (i: number, j: number): void => {
    const a = items[i];
    const b = items[j];
    if (a === undefined || b === undefined) return;
    items[i] = b;
    items[j] = a;
  };
  return {
    push: (item) => {
      items.push(item);
      for (let at = items.length - 1; at > 0;) {
        const up = (at - 1) >> 1;
        if (!less(at, up)) break;
        swap(at, up);
        at = up;
      }
    },
    pop: () => {
      const top = items[0];
      const last = items.pop();
      if (items.length > 0 && last !== undefined) {
        items[0] = last;
        for (let at = 0; ;) {
          let least = at;
          if (less(2 * at + 1, least)) least = 2 * at + 1;
          if (less(2 * at + 2, least)) least = 2 * at + 2;
          if (least === at) break;
          swap(at, least);
          at = least;
        }
      }
      return top;
    },
  };
}
