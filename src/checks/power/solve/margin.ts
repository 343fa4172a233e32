/** How much more a network would carry: of one load with the others as they are, or of all together. */
import { once } from '../../once.js';
import type { Circuit, Solution } from './circuit.js';
import { prepare } from './solve.js';

/** A network that carries more than this many times its load has no limit that matters. */
const MOST_FACTOR = 1000;
/** Factors are found to this share of themselves. */
const PRECISION = 1e-3;

/** Factors by which every load could be multiplied; 1 is the network as it is, Infinity no limit that matters. */
export interface Margin {
  /** Up to here every load gets what it draws. */
  readonly collapse: number;
  /** Up to here a load has its lowest voltage or more; under 1 where it has less already. */
  readonly toLowest: ReadonlyMap<string, number>;
}

/**
 * The most that a load could draw with the others as they are, in its own amperes or watts, to a thousandth: nothing where the
 * network has no solution without it either, Infinity where it sets no limit. A load that would cut out has reached it too.
 */
export function mostOf(circuit: Circuit, load: string): number {
  const own = circuit.loads.find(({ id }) => id === load);
  const prepared = prepare(circuit);
  if (prepared.kind === 'refused') return 0;
  if (!own || own.amount === 0) return Infinity;
  const at = (factor: number): Solution =>
    prepared.solve(({ id, amount }) => (id === load ? amount * factor : amount));
  return own.amount * limitOf((factor) => carries(at(factor), load));
}

/**
 * The margin of a network that has a solution; undefined where even unloaded it has none.
 *
 * @param lowest - The lowest voltage at which each load still works, by its name; only these are looked at. One
 * that nothing supplies has no margin: 0.
 */
export function marginOf(circuit: Circuit, lowest: ReadonlyMap<string, number>): Margin | undefined {
  const margins = marginsOf(circuit);
  return (
    margins && {
      collapse: margins.collapse(),
      toLowest: new Map([...lowest].map(([load, volts]) => [load, margins.toLowest(load, volts)])),
    }
  );
}

/** The margins of a network, each worked out when asked for. */
export interface Margins {
  readonly collapse: () => number;
  readonly toLowest: (load: string, volts: number) => number;
}

/** Undefined where the network has no solution even unloaded. */
export function marginsOf(circuit: Circuit): Margins | undefined {
  const prepared = prepare(circuit);
  if (prepared.kind === 'refused') return undefined;
  // Halving from the same start meets the same factors for every load, so a solution serves several.
  const tried = new Map<number, Solution>();
  const at = (factor: number): Solution => {
    const known = tried.get(factor) ?? prepared.solve((load) => load.amount * factor);
    tried.set(factor, known);
    return known;
  };
  if (at(0).kind !== 'solved') return undefined;
  return {
    collapse: once(() => limitOf((factor) => carriesAll(at(factor)))),
    toLowest: (load, volts) => limitOf((factor) => (voltsAt(at(factor), load) ?? -Infinity) >= volts),
  };
}

const carriesAll = (solution: Solution): boolean =>
  solution.kind === 'solved' && solution.cutOut.length === 0;

function carries(solution: Solution, load: string): boolean {
  return solution.kind === 'solved' && !solution.cutOut.includes(load);
}

function voltsAt(solution: Solution, load: string): number | undefined {
  return solution.kind === 'solved' ? solution.loadVolts.get(load) : undefined;
}

/** The largest factor for which something holds that ceases to hold as the factor grows. */
function limitOf(holds: (factor: number) => boolean): number {
  if (!holds(0)) return 0;
  let low = 0;
  let high = 1;
  while (holds(high)) {
    low = high;
    high *= 2;
    if (high > MOST_FACTOR) return Infinity;
  }
  while (high - low > high * PRECISION) {
    const middle = (low + high) / 2;
    if (holds(middle)) low = middle;
    else high = middle;
  }
  return low;
}
