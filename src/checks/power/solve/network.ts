/** Numbers the nodes of a circuit and puts its conductances into a matrix, with its one-way branches and limited sources as they stand. */
import { createUnionFind, type UnionFind } from '../../../vessel/unionFind.js';
import type { Branch, Circuit, Source } from './circuit.js';
import { factor, Rows, type Factored } from './factor.js';

/** Branches with less resistance join their ends. */
const JOINED_BELOW_OHMS = 1e-9;
/** An ideal source, or a diode without resistance, is taken as this: 0.1 mV at 100 A. */
const LEAST_OHMS = 1e-6;
/** What still conducts of a source at its limit or at rest, so that an island of such sources has a voltage to judge by. */
const LEAK_SIEMENS = 1e-6;

/** `on` conducts or holds its voltage, `full` gives its limit, `off` does nothing. */
export type Stand = 'on' | 'full' | 'off';

/** Two rows and the conductance between them; the row after the last is the reference. */
export type Stamp = readonly [i: number, j: number, siemens: number];

/** A circuit with its valves standing in one way. */
export interface Network {
  readonly size: number;
  readonly row: (node: string) => number;
  /** A source is in the same island. */
  readonly supplied: (node: string) => boolean;
  /** The rows of the plus and minus of each load, two a load. */
  readonly ends: Int32Array;
  /** Of each load, whether both its ends are in one island that has a source. */
  readonly fed: readonly boolean[];
  /** Amperes that the sources put into each row, the reference last. */
  readonly injected: Float64Array;
  readonly matrix: Factored;
  /** The matrix with more conductances; undefined where it is no longer positive. */
  readonly factored: (more: readonly Stamp[]) => Factored | undefined;
  /** Amperes through a branch from `a` to `b`, at these voltages of the rows. */
  readonly branchAmps: (branch: Branch, volts: Float64Array) => number;
  /** Amperes out of the plus of a source. */
  readonly sourceAmps: (source: Source, volts: Float64Array) => number;
}

export const isJoint = (branch: Branch): boolean => branch.oneWay !== true && branch.ohms < JOINED_BELOW_OHMS;

const ohmsOf = ({ ohms }: Branch | Source): number => Math.max(ohms, LEAST_OHMS);
const siemensOf = (branch: Branch): number => 1 / (branch.oneWay === true ? ohmsOf(branch) : branch.ohms);

/** Undefined where the matrix can't be factored: a resistance is out of all proportion. */
export function buildNetwork(
  circuit: Circuit,
  standOf: (one: Branch | Source) => Stand,
): Network | undefined {
  const branches = circuit.branches.filter((branch) => standOf(branch) !== 'off');
  const merged = createUnionFind<string>();
  for (const branch of branches) if (isJoint(branch)) merged.join(branch.a, branch.b);
  const islands = islandsOf(branches, circuit.sources);
  const references = new Map<string, string>();
  for (const source of circuit.sources) {
    const island = islands.find(source.minus);
    if (!references.has(island)) references.set(island, merged.find(source.minus));
  }
  const supplied = (node: string): boolean => references.has(islands.find(node));

  const numbers = new Map<string, number>();
  for (const node of nodesOf(branches, circuit)) {
    const own = merged.find(node);
    const reference = references.get(islands.find(node));
    if (reference !== undefined && reference !== own && !numbers.has(own)) numbers.set(own, numbers.size);
  }
  const size = numbers.size;
  const rows = new Map<string, number>();
  for (const node of nodesOf(circuit.branches, circuit))
    rows.set(node, numbers.get(merged.find(node)) ?? size);
  const row = (node: string): number => rows.get(node) ?? size;

  const own: Stamp[] = [];
  for (const branch of branches)
    if (!isJoint(branch) && supplied(branch.a)) own.push([row(branch.a), row(branch.b), siemensOf(branch)]);
  const injected = new Float64Array(size + 1);
  for (const source of circuit.sources) {
    const [plus, minus] = [row(source.plus), row(source.minus)];
    const { amps, siemens } = givenBy(source, standOf(source));
    own.push([plus, minus, siemens]);
    injected[plus] = (injected[plus] ?? 0) + amps;
    injected[minus] = (injected[minus] ?? 0) - amps;
  }
  const factored = (more: readonly Stamp[]): Factored | undefined => factor(matrixOf(size, own, more));
  const matrix = factored([]);
  if (!matrix) return undefined;

  const across = (a: string, b: string, volts: Float64Array): number =>
    (volts[row(a)] ?? 0) - (volts[row(b)] ?? 0);
  return {
    size,
    row,
    supplied,
    ends: Int32Array.from(circuit.loads.flatMap(({ plus, minus }) => [row(plus), row(minus)])),
    fed: circuit.loads.map(({ plus, minus }) => supplied(plus) && islands.find(plus) === islands.find(minus)),
    injected,
    matrix,
    factored,
    branchAmps: (branch, volts) =>
      standOf(branch) === 'off' || !supplied(branch.a)
        ? 0
        : across(branch.a, branch.b, volts) * siemensOf(branch),
    sourceAmps: (source, volts) => {
      const { amps, siemens } = givenBy(source, standOf(source));
      return amps - across(source.plus, source.minus, volts) * siemens;
    },
  };
}

/** A source as a current beside a conductance. */
function givenBy(source: Source, stand: Stand): { readonly amps: number; readonly siemens: number } {
  const siemens = stand === 'on' ? 1 / ohmsOf(source) : LEAK_SIEMENS;
  const limit = stand === 'full' ? (source.limitAmps ?? 0) : 0;
  return { amps: limit + source.volts * siemens, siemens };
}

function islandsOf(branches: readonly Branch[], sources: readonly Source[]): UnionFind<string> {
  const islands = createUnionFind<string>();
  for (const { a, b } of branches) islands.join(a, b);
  for (const { plus, minus } of sources) islands.join(plus, minus);
  return islands;
}

/** Every node, in the order in which it is named. */
export function nodesOf(branches: readonly Branch[], { sources, loads }: Circuit): ReadonlySet<string> {
  const nodes = new Set<string>();
  for (const { a, b } of branches) nodes.add(a).add(b);
  for (const { plus, minus } of sources) nodes.add(plus).add(minus);
  for (const { plus, minus } of loads) nodes.add(plus).add(minus);
  return nodes;
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
