/** Puts the conductances of a circuit into a matrix, with its one-way branches and limited sources as they stand. */
import { createForest } from '../../../vessel/forest.js';
import type { Branch, Source } from './circuit.js';
import { factor, Rows, type Factored } from './factor.js';
import type { Numbered } from './numbered.js';

/** An ideal source, or a diode without resistance, is taken as this: 0.1 mV at 100 A. */
const LEAST_OHMS = 1e-6;
/** What still conducts of a source at its limit or at rest, so that an island of such sources has a voltage to judge by. */
const LEAK_SIEMENS = 1e-6;

/** `on` conducts or holds its voltage, `full` gives its limit, `off` does nothing. */
export type Stand = 'on' | 'full' | 'off';

/** How the branches and the sources stand, by their numbers. */
export interface Stands {
  readonly ofBranch: (n: number) => Stand;
  readonly ofSource: (n: number) => Stand;
}

/** Two rows and the conductance between them; the row after the last is the reference. */
export type Stamp = readonly [i: number, j: number, siemens: number];

/** A circuit with its valves standing in one way. */
export interface Network {
  readonly size: number;
  /** The row of each node. */
  readonly rows: Int32Array;
  /** The island of each node; -1 where no source is in it. */
  readonly islands: Int32Array;
  /** Amperes that the sources put into each row, the reference last. */
  readonly injected: Float64Array;
  readonly matrix: Factored;
  /** The matrix with more conductances; undefined where it is no longer positive. */
  readonly factored: (more: readonly Stamp[]) => Factored | undefined;
  /** Amperes through a branch from `a` to `b`, by its number, at these voltages of the rows. */
  readonly branchAmps: (branch: number, volts: Float64Array) => number;
  /** Amperes out of the plus of a source, by its number. */
  readonly sourceAmps: (source: number, volts: Float64Array) => number;
}

const ohmsOf = ({ ohms }: Branch | Source): number => Math.max(ohms, LEAST_OHMS);
const siemensOf = (branch: Branch): number => 1 / (branch.oneWay === true ? ohmsOf(branch) : branch.ohms);

/** Undefined where the matrix can't be factored: a resistance is out of all proportion. */
export function buildNetwork(circuit: Numbered, stands: Stands): Network | undefined {
  const { branches, sources, ends, poles, joint, merged, names } = circuit;
  const count = names.length;
  const end = (n: number): number => ends[n] ?? 0;
  const pole = (n: number): number => poles[n] ?? 0;
  const joined = createForest(count);
  branches.forEach((_, n) => {
    if (stands.ofBranch(n) !== 'off') joined.join(end(2 * n), end(2 * n + 1));
  });
  sources.forEach((_, n) => joined.join(pole(2 * n), pole(2 * n + 1)));

  // The reference of an island is the negative of its first source.
  const references = new Int32Array(count).fill(-1);
  sources.forEach((_, n) => {
    const island = joined.find(pole(2 * n + 1));
    if (references[island] === -1) references[island] = merged.find(pole(2 * n + 1));
  });
  const islands = new Int32Array(count);
  const rows = new Int32Array(count);
  const numbers = new Int32Array(count).fill(-1);
  let size = 0;
  for (let node = 0; node < count; node++) {
    const island = joined.find(node);
    const reference = references[island] ?? -1;
    islands[node] = reference === -1 ? -1 : island;
    const own = merged.find(node);
    if (reference !== -1 && reference !== own && numbers[own] === -1) numbers[own] = size++;
  }
  for (let node = 0; node < count; node++) {
    const number = numbers[merged.find(node)] ?? -1;
    rows[node] = number === -1 ? size : number;
  }
  const row = (node: number): number => rows[node] ?? size;

  const own: Stamp[] = [];
  branches.forEach((branch, n) => {
    const a = end(2 * n);
    if (joint[n] !== true && islands[a] !== -1 && stands.ofBranch(n) !== 'off')
      own.push([row(a), row(end(2 * n + 1)), siemensOf(branch)]);
  });
  const injected = new Float64Array(size + 1);
  sources.forEach((source, n) => {
    const [plus, minus] = [row(pole(2 * n)), row(pole(2 * n + 1))];
    const { amps, siemens } = givenBy(source, stands.ofSource(n));
    own.push([plus, minus, siemens]);
    injected[plus] = (injected[plus] ?? 0) + amps;
    injected[minus] = (injected[minus] ?? 0) - amps;
  });
  const factored = (more: readonly Stamp[]): Factored | undefined => factor(matrixOf(size, own, more));
  const matrix = factored([]);
  if (!matrix) return undefined;

  const across = (a: number, b: number, volts: Float64Array): number =>
    (volts[row(a)] ?? 0) - (volts[row(b)] ?? 0);
  return {
    size,
    rows,
    islands,
    injected,
    matrix,
    factored,
    branchAmps: (n, volts) => {
      const branch = branches[n];
      if (branch === undefined || stands.ofBranch(n) === 'off' || islands[end(2 * n)] === -1) return 0;
      return across(end(2 * n), end(2 * n + 1), volts) * siemensOf(branch);
    },
    sourceAmps: (n, volts) => {
      const source = sources[n];
      if (source === undefined) return 0;
      const { amps, siemens } = givenBy(source, stands.ofSource(n));
      return amps - across(pole(2 * n), pole(2 * n + 1), volts) * siemens;
    },
  };
}

/** A source as a current beside a conductance. */
function givenBy(source: Source, stand: Stand): { readonly amps: number; readonly siemens: number } {
  const siemens = stand === 'on' ? 1 / ohmsOf(source) : LEAK_SIEMENS;
  const limit = stand === 'full' ? (source.limitAmps ?? 0) : 0;
  return { amps: limit + source.volts * siemens, siemens };
}

function matrixOf(size: number, own: readonly Stamp[], more: readonly Stamp[]): Rows {
  const rows = new Rows(size);
  for (const stamps of [own, more])
    for (const [i, j, siemens] of stamps) {
      if (i === j) continue;
      if (i === size) rows.ground(j, siemens);
      else if (j === size) rows.ground(i, siemens);
      else rows.join(i, j, siemens);
    }
  return rows;
}
