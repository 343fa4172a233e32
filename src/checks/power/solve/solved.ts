/** What a network at rest comes to, by the names of its circuit. */
import type { Circuit, Solved } from './circuit.js';
import { jointAmps } from './joined.js';
import { isJoint, nodesOf } from './network.js';
import { across, type Point } from './point.js';

/**
 * @param amps - What each load draws, by its number.
 * @param cutOut - Numbers of the loads that switched themselves off, the first first.
 */
export function solvedOf(
  circuit: Circuit,
  point: Point,
  amps: Float64Array,
  cutOut: ReadonlySet<number>,
  rounds: number,
): Solved {
  const { branches, sources, loads } = circuit;
  const { network, volts } = point;
  const entering = new Map<string, number>();
  const pass = (from: string, to: string, current: number): void => {
    entering.set(from, (entering.get(from) ?? 0) - current);
    entering.set(to, (entering.get(to) ?? 0) + current);
  };
  const branchAmps = new Map<string, number>();
  for (const branch of branches) {
    if (isJoint(branch)) continue;
    const current = network.branchAmps(branch, volts);
    branchAmps.set(branch.id, current);
    pass(branch.a, branch.b, current);
  }
  const sourceAmps = new Map<string, number>();
  for (const source of sources) {
    const current = network.sourceAmps(source, volts);
    sourceAmps.set(source.id, current);
    pass(source.minus, source.plus, current);
  }
  const loadAmps = new Map<string, number>();
  const loadVolts = new Map<string, number>();
  const unsupplied: string[] = [];
  loads.forEach(({ id, plus, minus }, n) => {
    if (network.fed[n] !== true) unsupplied.push(id);
    else if (!cutOut.has(n)) {
      const current = amps[n] ?? 0;
      loadAmps.set(id, current);
      loadVolts.set(id, across(point, n));
      pass(plus, minus, current);
    }
  });
  for (const [id, current] of jointAmps(branches.filter(isJoint), entering)) branchAmps.set(id, current);
  const reached = [...nodesOf(branches, circuit)].filter(network.supplied);
  return {
    kind: 'solved',
    volts: new Map(reached.map((node) => [node, volts[network.row(node)] ?? 0])),
    branchAmps,
    sourceAmps,
    loadAmps,
    loadVolts,
    unsupplied,
    cutOut: [...cutOut].flatMap((n) => loads[n]?.id ?? []),
    rounds,
  };
}
