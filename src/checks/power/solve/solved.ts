/** What a network at rest comes to, by the names of its circuit. */
import { once } from '../../once.js';
import type { Load, Solved } from './circuit.js';
import { putJointAmps, type JointTrees } from './joined.js';
import type { Numbered } from './numbered.js';
import { across, type Point } from './point.js';

export interface Rest {
  readonly circuit: Numbered;
  readonly trees: () => JointTrees;
  readonly loads: readonly Load[];
  readonly point: Point;
  /** What each load draws, by its number. */
  readonly amps: Float64Array;
  /** Numbers of the loads that switched themselves off, the first first. */
  readonly cutOut: ReadonlySet<number>;
  readonly rounds: number;
}

/** The answer; what many ask little of is written out when it is first asked for. */
export function solvedOf({ circuit, trees, loads, point, amps, cutOut, rounds }: Rest): Solved {
  const { branches, sources, names } = circuit;
  const { network, volts } = point;
  const loadAmps = new Map<string, number>();
  const loadVolts = new Map<string, number>();
  const unsupplied: string[] = [];
  loads.forEach(({ id }, n) => {
    if (point.fed[n] !== true) unsupplied.push(id);
    else if (!cutOut.has(n)) {
      loadAmps.set(id, amps[n] ?? 0);
      loadVolts.set(id, across(point, n));
    }
  });
  const sourceAmps = once(
    () => new Map(sources.map(({ id }, n) => [id, network.sourceAmps(n, volts)] as const)),
  );
  const branchAmps = once(() => {
    const current = ampsOf({ circuit, trees, loads, point, amps, cutOut, rounds });
    return new Map(branches.map(({ id }, n) => [id, current[n] ?? 0] as const));
  });
  const named = once(
    () =>
      new Map(
        names.flatMap((name, node) =>
          network.islands[node] === -1 ? [] : [[name, volts[network.rows[node] ?? 0] ?? 0] as const],
        ),
      ),
  );
  return {
    kind: 'solved',
    get volts() {
      return named();
    },
    get branchAmps() {
      return branchAmps();
    },
    get sourceAmps() {
      return sourceAmps();
    },
    loadAmps,
    loadVolts,
    unsupplied,
    cutOut: [...cutOut].flatMap((n) => loads[n]?.id ?? []),
    rounds,
  };
}

/** Amperes through each branch, by its number. */
function ampsOf({ circuit, trees, loads, point, amps, cutOut }: Rest): Float64Array {
  const { branches, sources, ends, poles, joint, names } = circuit;
  const { network, volts } = point;
  const current = new Float64Array(branches.length);
  const entering = new Float64Array(names.length);
  const pass = (from: number, to: number, flowing: number): void => {
    entering[from] = (entering[from] ?? 0) - flowing;
    entering[to] = (entering[to] ?? 0) + flowing;
  };
  branches.forEach((_, n) => {
    if (joint[n] === true) return;
    const flowing = network.branchAmps(n, volts);
    current[n] = flowing;
    pass(ends[2 * n] ?? 0, ends[2 * n + 1] ?? 0, flowing);
  });
  sources.forEach((_, n) => {
    pass(poles[2 * n + 1] ?? 0, poles[2 * n] ?? 0, network.sourceAmps(n, volts));
  });
  loads.forEach((_, n) => {
    if (point.fed[n] === true && !cutOut.has(n))
      pass(point.nodes[2 * n] ?? 0, point.nodes[2 * n + 1] ?? 0, amps[n] ?? 0);
  });
  putJointAmps(circuit, trees(), entering, current);
  return current;
}
