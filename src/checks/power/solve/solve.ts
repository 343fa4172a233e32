/**
 * Solves a direct-current network by nodal analysis, meshes, second sources and both kinds of load included.
 *
 * Constant-power loads are found by iterating I = P / V from the no-load voltages: the voltages fall monotonically to the
 * high solution if there is one, and a voltage that falls to nothing proves that there is none. Near the limit, where that
 * creeps, Newton's method goes on from above; a matrix that is no longer positive proves the same.
 */
import { createUnionFind } from '../../../vessel/unionFind.js';
import type { Branch, Circuit, Load, Solution, Source } from './circuit.js';
import { factor, Rows, type Factored } from './factor.js';

/** Least internal resistance of a source: an ideal one is taken as this, which costs 0.1 mV at 100 A. */
const LEAST_SOURCE_OHMS = 1e-6;
/** Rounds of plain iteration, after which Newton's method goes on: near the limit the iteration creeps. */
const PLAIN_ROUNDS = 60;
const NEWTON_ROUNDS = 100;
/** The iteration has come to rest when no voltage moves by more. */
const REST_VOLTS = 1e-9;
const MOST_SWITCHINGS = 60;

/** Solves the circuit, or says why it has no solution. */
export function solve(circuit: Circuit): Solution {
  const reason = fault(circuit);
  if (reason !== undefined) return { kind: 'refused', reason };
  const diodes = circuit.branches.filter((branch) => branch.oneWay);
  const open = new Set<string>();
  let answer = settle(circuit, open);
  for (let n = 0; n < MOST_SWITCHINGS && diodes.length > 0 && answer.kind === 'solved'; n++) {
    const { volts } = answer;
    // Of the one-way branches that stand wrong, one is switched at a time, or two that depend on each other would flutter.
    const wrong = diodes.find((branch) => {
      const across = (volts.get(branch.a) ?? 0) - (volts.get(branch.b) ?? 0);
      return open.has(branch.id) ? across > REST_VOLTS * 10 : across < -REST_VOLTS * 10;
    });
    if (!wrong) break;
    if (!open.delete(wrong.id)) open.add(wrong.id);
    answer = settle(circuit, open);
  }
  return answer;
}

/** The largest amount that a load could have with everything else as it is, to a thousandth; Infinity if it sets no limit. */
export function mostOf(circuit: Circuit, load: string): number {
  const amountAt = (factorOf: number): Solution =>
    solve({
      ...circuit,
      loads: circuit.loads.map((l) => (l.id === load ? { ...l, amount: l.amount * factorOf } : l)),
    });
  const own = circuit.loads.find((l) => l.id === load);
  if (!own || !(own.amount > 0)) return Infinity;
  if (amountAt(0).kind !== 'solved') return 0;
  let low = 0;
  let high = 1;
  while (amountAt(high).kind === 'solved') {
    low = high;
    high *= 2;
    if (high > 1e6) return Infinity;
  }
  while (high - low > high * 1e-3) {
    const middle = (low + high) / 2;
    if (amountAt(middle).kind === 'solved') low = middle;
    else high = middle;
  }
  return own.amount * low;
}

function fault({ branches, sources, loads }: Circuit): string | undefined {
  for (const branch of branches)
    if (!(branch.ohms >= 0) || !Number.isFinite(branch.ohms))
      return `${branch.id} has a resistance of ${branch.ohms} ohm; it must be zero or more`;
  for (const source of sources) {
    if (!(source.ohms >= 0) || !Number.isFinite(source.ohms))
      return `${source.id} has an internal resistance of ${source.ohms} ohm; it must be zero or more`;
    if (!Number.isFinite(source.volts)) return `${source.id} has no voltage`;
  }
  for (const load of loads)
    if (!(load.amount >= 0) || !Number.isFinite(load.amount))
      return `${load.id} draws ${load.amount}; it must be zero or more`;
  return undefined;
}

/** Two rows and the conductance between them. */
type Stamp = readonly [i: number, j: number, siemens: number];

/** The network with its one-way branches standing as they do: numbered, its reference chosen, its matrix factored. */
interface Network {
  readonly row: (node: string) => number;
  readonly matrix: Factored;
  /** The matrix with more conductances between rows (`size` is the reference); undefined where it is not positive. */
  readonly factored: (more: readonly Stamp[]) => Factored | undefined;
  readonly size: number;
  readonly supplied: (node: string) => boolean;
}

function settle(circuit: Circuit, open: ReadonlySet<string>): Solution {
  const branches = circuit.branches.filter((branch) => !open.has(branch.id));
  const network = build(branches, circuit);
  if (!network)
    return {
      kind: 'refused',
      reason: "the network can't be factored: a resistance is out of all proportion",
    };
  const loads = circuit.loads.filter((load) => network.supplied(load.plus) && network.supplied(load.minus));
  const unsupplied = circuit.loads.filter((load) => !loads.includes(load)).map((load) => load.id);
  const { row, matrix, size } = network;
  const ends = loads.map((load) => [row(load.plus), row(load.minus)] as const);

  const injected = new Float64Array(size + 1);
  const inject = (i: number, amps: number): void => {
    injected[i] = (injected[i] ?? 0) + amps;
  };
  for (const source of circuit.sources) {
    const amps = source.volts / sourceOhms(source);
    inject(row(source.plus), amps);
    inject(row(source.minus), -amps);
  }
  const voltsWith = (amps: readonly number[]): Float64Array => {
    const rhs = Float64Array.from(injected);
    loads.forEach((_, n) => {
      const [plus, minus] = ends[n] ?? [size, size];
      rhs[plus] = (rhs[plus] ?? 0) - (amps[n] ?? 0);
      rhs[minus] = (rhs[minus] ?? 0) + (amps[n] ?? 0);
    });
    const solved = matrix.solve(rhs.subarray(0, size));
    const volts = new Float64Array(size + 1);
    volts.set(solved);
    return volts;
  };
  const across = (volts: Float64Array, n: number): number => {
    const [plus, minus] = ends[n] ?? [size, size];
    return (volts[plus] ?? 0) - (volts[minus] ?? 0);
  };

  // From the voltages without any constant-power load.
  let volts = voltsWith(loads.map((load) => (load.kind === 'current' ? load.amount : 0)));
  const first = loads.map((_, n) => across(volts, n));
  const drawn = (): number[] =>
    loads.map((load, n) =>
      load.kind === 'current' ? load.amount : load.amount === 0 ? 0 : load.amount / across(volts, n),
    );
  const atRest = (next: Float64Array): boolean => {
    let moved = 0;
    for (let i = 0; i < size; i++) moved = Math.max(moved, Math.abs((next[i] ?? 0) - (volts[i] ?? 0)));
    volts = next;
    return moved <= REST_VOLTS;
  };
  const fallen = (): number[] =>
    loads.flatMap((load, n) =>
      load.kind === 'power' && load.amount > 0 && !(across(volts, n) > 0) ? [n] : [],
    );
  const collapse = (which: readonly number[], rounds: number): Solution =>
    collapsed(loads, which, volts, across, first, rounds);

  for (let rounds = 0; rounds < PLAIN_ROUNDS + NEWTON_ROUNDS; rounds++) {
    const dead = fallen();
    if (dead.length > 0) return collapse(dead, rounds);
    const next =
      rounds < PLAIN_ROUNDS ? voltsWith(drawn()) : newton(network, loads, ends, injected, volts, across);
    if (next === undefined) break;
    if (atRest(next) && fallen().length === 0)
      return report(circuit, branches, volts, row, network, loads, drawn(), across, unsupplied, rounds + 1);
  }
  const powered = loads.flatMap((load, n) => (load.kind === 'power' && load.amount > 0 ? [n] : []));
  return collapse(powered, PLAIN_ROUNDS + NEWTON_ROUNDS);
}

/**
 * One step of Newton's method from voltages above the solution: each constant-power load is a negative conductance P / V^2
 * with a current 2 P / V. Undefined where the network has lost its footing: past the most it can carry.
 */
function newton(
  network: Network,
  loads: readonly Load[],
  ends: readonly (readonly [number, number])[],
  injected: Float64Array,
  volts: Float64Array,
  across: Across,
): Float64Array | undefined {
  const { size } = network;
  const rhs = Float64Array.from(injected);
  const stamps: Stamp[] = [];
  loads.forEach((load, n) => {
    const [plus, minus] = ends[n] ?? [size, size];
    const v = across(volts, n);
    const amps = load.kind === 'current' ? load.amount : load.amount === 0 ? 0 : (2 * load.amount) / v;
    rhs[plus] = (rhs[plus] ?? 0) - amps;
    rhs[minus] = (rhs[minus] ?? 0) + amps;
    if (load.kind === 'power' && load.amount > 0) stamps.push([plus, minus, -load.amount / v ** 2]);
  });
  const matrix = network.factored(stamps);
  if (!matrix) return undefined;
  const next = new Float64Array(size + 1);
  next.set(matrix.solve(rhs.subarray(0, size)));
  return next;
}

type Across = (volts: Float64Array, n: number) => number;

/** The loads that fell, the one with the least of its no-load voltage left first. */
function collapsed(
  loads: readonly Load[],
  which: readonly number[],
  volts: Float64Array,
  across: Across,
  first: readonly number[],
  rounds: number,
): Solution {
  const share = (n: number): number => across(volts, n) / (first[n] ?? 1);
  return {
    kind: 'collapsed',
    loads: [...which].sort((a, b) => share(a) - share(b)).map((n) => loads[n]?.id ?? ''),
    rounds,
  };
}

function report(
  circuit: Circuit,
  branches: readonly Branch[],
  volts: Float64Array,
  row: (node: string) => number,
  network: Network,
  loads: readonly Load[],
  amps: readonly number[],
  across: Across,
  unsupplied: readonly string[],
  rounds: number,
): Solution {
  const at = (node: string): number => volts[row(node)] ?? 0;
  const nodes = new Set<string>();
  for (const branch of circuit.branches) nodes.add(branch.a).add(branch.b);
  for (const end of [...circuit.sources, ...circuit.loads]) nodes.add(end.plus).add(end.minus);
  const through = new Map(circuit.branches.filter((b) => b.ohms > 0).map((branch) => [branch.id, 0]));
  for (const branch of branches)
    if (branch.ohms > 0) through.set(branch.id, (at(branch.a) - at(branch.b)) / branch.ohms);
  return {
    kind: 'solved',
    volts: new Map([...nodes].filter(network.supplied).map((node) => [node, at(node)])),
    branchAmps: through,
    sourceAmps: new Map(
      circuit.sources.map((s) => [s.id, (s.volts - (at(s.plus) - at(s.minus))) / sourceOhms(s)]),
    ),
    loadAmps: new Map(loads.map((load, n) => [load.id, amps[n] ?? 0])),
    loadVolts: new Map(loads.map((load, n) => [load.id, across(volts, n)])),
    unsupplied,
    rounds,
  };
}

const branchOhms = (branch: Branch): number =>
  branch.oneWay ? Math.max(branch.ohms, LEAST_SOURCE_OHMS) : branch.ohms;
const sourceOhms = (source: Source): number => Math.max(source.ohms, LEAST_SOURCE_OHMS);

/** Numbers the nodes: those joined without resistance are one; each island's reference is the negative of its first source. */
function build(branches: readonly Branch[], { sources, loads }: Circuit): Network | undefined {
  const merged = createUnionFind<string>();
  const islands = createUnionFind<string>();
  for (const branch of branches) {
    // A one-way branch must show which way its current would go.
    if (branch.ohms === 0 && !branch.oneWay) merged.join(branch.a, branch.b);
    islands.join(branch.a, branch.b);
  }
  for (const source of sources) islands.join(source.plus, source.minus);
  const references = new Map<string, string>();
  for (const source of sources) {
    const island = islands.find(source.minus);
    if (!references.has(island)) references.set(island, merged.find(source.minus));
  }
  const supplied = (node: string): boolean => references.has(islands.find(node));
  const numbers = new Map<string, number>();
  const enter = (node: string): void => {
    const own = merged.find(node);
    if (supplied(node) && references.get(islands.find(node)) !== own && !numbers.has(own))
      numbers.set(own, numbers.size);
  };
  for (const branch of branches) {
    enter(branch.a);
    enter(branch.b);
  }
  for (const end of [...sources, ...loads]) {
    enter(end.plus);
    enter(end.minus);
  }
  const size = numbers.size;
  const row = (node: string): number => numbers.get(merged.find(node)) ?? size;
  const own: Stamp[] = [];
  const conduct = (a: string, b: string, ohms: number): void => {
    if (supplied(a)) own.push([row(a), row(b), 1 / ohms]);
  };
  for (const branch of branches) {
    const ohms = branchOhms(branch);
    if (ohms > 0) conduct(branch.a, branch.b, ohms);
  }
  for (const source of sources) conduct(source.plus, source.minus, sourceOhms(source));
  const factored = (more: readonly Stamp[]): Factored | undefined => {
    const rows = new Rows(size);
    for (const [i, j, siemens] of [...own, ...more]) {
      if (i === j) continue;
      if (i === size) rows.ground(j, siemens);
      else if (j === size) rows.ground(i, siemens);
      else rows.join(i, j, siemens);
    }
    return factor(rows);
  };
  const matrix = factored([]);
  return matrix && { row, matrix, factored, size, supplied };
}
