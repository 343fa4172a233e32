/**
 * Solves a direct-current network by nodal analysis, meshes, second sources and both kinds of load included.
 *
 * Constant-power loads are found by iterating I = P / V from the voltages without them: the voltages fall monotonically to the
 * high solution if there is one, and a voltage that falls to nothing proves that there is none. Near the limit, where that
 * creeps, Newton's method goes on from above; a matrix that is no longer positive proves the same. A load with an under-voltage
 * cut-out goes off as soon as its voltage falls below that, since the solution lies lower still; the rest begin anew.
 */
import { once } from '../../once.js';
import {
  faultInLoads,
  faultOf,
  type Circuit,
  type Load,
  type Refused,
  type Solution,
  type Wires,
} from './circuit.js';
import { jointTrees, type JointTrees } from './joined.js';
import type { Network } from './network.js';
import { numberNodes, type Numbered } from './numbered.js';
import { across, balance, movedBy, newton, place, type Placed, type Point } from './point.js';
import { solvedOf } from './solved.js';
import { valvesOf, type Valves } from './valves.js';

/** Rounds of plain iteration, after which Newton's method goes on: near the limit the iteration creeps. */
const PLAIN_ROUNDS = 60;
const NEWTON_ROUNDS = 100;
/**
 * Rounds where valves may change, and with them what Newton's method takes for given: there it is plain iteration alone, which
 * takes a load within about 1e-5 of the limit for one beyond it.
 */
const VALVE_ROUNDS = 3000;
/** The iteration has come to rest when no voltage moves by more. */
const REST_VOLTS = 1e-9;

/** A circuit whose figures are sound, factored once for any number of loadings. */
export interface Prepared {
  readonly kind: 'prepared';
  /** The solution with each load's amount as given: amperes or watts, zero or more. */
  readonly solve: (amountOf: (load: Load) => number) => Solution;
}

/** What lies between loads and sources, factored once for any loads. */
export interface PreparedWires {
  readonly kind: 'wires';
  readonly loaded: (loads: readonly Load[]) => Prepared | Refused;
}

/** Solves the circuit, or says why it has no solution. */
export function solve(circuit: Circuit): Solution {
  const prepared = prepare(circuit);
  return prepared.kind === 'refused' ? prepared : prepared.solve((load) => load.amount);
}

/** Readies a circuit for several loadings, or says why it is none. */
export function prepare(circuit: Circuit): Prepared | Refused {
  const wires = prepareWires(circuit);
  return wires.kind === 'refused' ? wires : wires.loaded(circuit.loads);
}

/** Readies branches and sources for any loads, or says why they are none. */
export function prepareWires(wires: Wires): PreparedWires | Refused {
  const reason = faultOf(wires);
  if (reason !== undefined) return { kind: 'refused', reason };
  const circuit = numberNodes(wires);
  const valves = valvesOf(circuit);
  const trees = once(() => jointTrees(circuit));
  return {
    kind: 'wires',
    loaded: (loads) => {
      const fault = faultInLoads(loads);
      return fault === undefined
        ? { kind: 'prepared', solve: solver({ circuit, valves, trees, loads }) }
        : { kind: 'refused', reason: fault };
    },
  };
}

interface Ground {
  readonly circuit: Numbered;
  readonly valves: Valves;
  readonly trees: () => JointTrees;
  readonly loads: readonly Load[];
}

interface Task extends Ground {
  readonly placedIn: (network: Network) => Placed;
}

function solver(ground: Ground): Prepared['solve'] {
  const { circuit, loads } = ground;
  const nodes = new Int32Array(2 * loads.length);
  loads.forEach(({ plus, minus }, n) => {
    nodes[2 * n] = circuit.numberOf(plus);
    nodes[2 * n + 1] = circuit.numberOf(minus);
  });
  const placed = new Map<Network, Placed>();
  const placedIn = (network: Network): Placed => {
    const known = placed.get(network) ?? place(nodes, network);
    placed.set(network, known);
    return known;
  };
  const task: Task = { ...ground, placedIn };
  return (amountOf) => {
    const amounts = Float64Array.from(loads, amountOf);
    const cutOut = new Set<number>();
    for (;;) {
      const answer = settle(task, amounts, cutOut);
      if (answer.kind !== 'cut out') return answer;
      cutOut.add(answer.load);
      amounts[answer.load] = 0;
    }
  };
}

/** A load's voltage has fallen below the one at which it switches itself off. */
interface CutOut {
  readonly kind: 'cut out';
  readonly load: number;
}

/** Solves with these amounts, by the number of the load. */
function settle(
  { circuit, valves, trees, loads, placedIn }: Task,
  amounts: Float64Array,
  cutOut: ReadonlySet<number>,
): Solution | CutOut {
  const isPower = (n: number): boolean => loads[n]?.kind === 'power';
  const drawn = (point: Point): Float64Array =>
    amounts.map((amount, n) => (amount > 0 && isPower(n) ? amount / across(point, n) : amount));
  const report = (point: Point, rounds: number): Solution =>
    solvedOf({ circuit, trees, loads, point, amps: drawn(point), cutOut, rounds });

  valves.reset();
  const start = balance(
    valves,
    placedIn,
    amounts.map((amount, n) => (isPower(n) ? 0 : amount)),
  );
  if ('kind' in start) return start;
  const plainRounds = valves.count > 0 ? VALVE_ROUNDS : PLAIN_ROUNDS;
  const mostRounds = valves.count > 0 ? VALVE_ROUNDS : PLAIN_ROUNDS + NEWTON_ROUNDS;
  let point = start;
  for (let rounds = 0; ; rounds++) {
    const alive: number[] = [];
    const dead: number[] = [];
    let powered = false;
    let leaving: number | undefined;
    let leastLeft = 1;
    for (let n = 0; n < loads.length; n++) {
      if (!((amounts[n] ?? 0) > 0) || point.fed[n] !== true) continue;
      const volts = across(point, n);
      alive.push(n);
      if (!(volts > 0)) dead.push(n);
      powered ||= isPower(n);
      const left = volts / (loads[n]?.cutOutVolts ?? 0);
      if (loads[n]?.cutOutVolts === undefined || !(left < leastLeft)) continue;
      leaving = n;
      leastLeft = left;
    }
    if (leaving !== undefined) return { kind: 'cut out', load: leaving };
    if (dead.length > 0) return collapse(loads, dead, start, point, rounds);
    if (!powered) return report(point, rounds);

    const next =
      rounds < plainRounds
        ? balance(valves, placedIn, drawn(point))
        : newton(point, drawn(point), alive.filter(isPower));
    if (next !== undefined && 'kind' in next) return next;
    if (next === undefined || rounds >= mostRounds)
      return collapse(loads, fallenMost(alive.filter(isPower), start, point), start, point, rounds);
    const atRest = movedBy(point, next) <= REST_VOLTS;
    point = next;
    if (atRest) return report(point, rounds + 1);
  }
}

/** What is left of a load's voltage without any constant-power load. */
function shareLeft(n: number, start: Point, point: Point): number {
  return across(point, n) / across(start, n);
}

/** Those whose voltage has fallen by at least half of what the worst has lost. */
function fallenMost(which: readonly number[], start: Point, point: Point): readonly number[] {
  const lost = which.map((n) => 1 - shareLeft(n, start, point));
  const most = lost.reduce((a, b) => Math.max(a, b), 0);
  return which.filter((_, i) => (lost[i] ?? 0) >= most / 2);
}

function collapse(
  loads: readonly Load[],
  which: readonly number[],
  start: Point,
  point: Point,
  rounds: number,
): Solution {
  // A load that had no voltage from the start is the worst of all.
  const share = (n: number): number => (across(start, n) > 0 ? shareLeft(n, start, point) : -Infinity);
  const ordered = [...which].sort((a, b) => share(a) - share(b) || a - b);
  return { kind: 'collapsed', loads: ordered.flatMap((n) => loads[n]?.id ?? []), rounds };
}
