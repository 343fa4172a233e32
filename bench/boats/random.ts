/** Chance that comes out the same for the same seed, on every machine. */
export interface Chance {
  /** A whole number from `low` to `high`, both included. */
  readonly whole: (low: number, high: number) => number;
  /** One of the items, which must not be empty. */
  readonly oneOf: <T>(items: readonly [T, ...T[]]) => T;
}

/** Mulberry32, a public-domain generator of 32 bits: quick, and good enough to lay out boats. */
export function createChance(seed: number): Chance {
  let state = seed >>> 0;
  const next = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
  const whole = (low: number, high: number): number => low + Math.floor(next() * (high - low + 1));
  return { whole, oneOf: (items) => items[whole(0, items.length - 1)] ?? items[0] };
}
