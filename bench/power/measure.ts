/** Solving a network beside ngspice: in a process that is warm, and with the start of one. Milliseconds, medians. */
import { spawnSync } from 'node:child_process';
import { resolve } from 'node:path';
import { prepare, solve } from '../../src/checks/power/solve/solve.js';
import { median, percentileOf, settle, startWatch, type Span } from '../measure/figures.js';
import { networkOf, NODES } from './networks.js';
import { startSpice } from './spice.js';

export interface PowerRow {
  readonly nodes: number;
  readonly loads: number;
  /** From the network as data to every voltage and current. */
  readonly own: Span;
  /** Solved again with the matrix at hand, as for another mode: the quickest, since ngspice tells the clock alone. */
  readonly again: number;
  readonly spice: Span;
  /** The quickest. */
  readonly spiceAnalysis: number;
  /** As a process, its start included. */
  readonly ownProcess: number;
  readonly spiceProcess: number;
  /** The greatest difference between the two in any node, volts. */
  readonly apart: number;
}

/** Rounds until the engine has compiled what is measured. */
const WARM = 5;

const once = resolve('out/bench/once.mjs');

export async function measurePower(): Promise<readonly PowerRow[]> {
  const spice = await startSpice();
  const rows: PowerRow[] = [];
  let run = 1;
  for (const nodes of NODES) {
    const circuit = networkOf(nodes);
    const rounds = nodes > 1000 ? 5 : 9;
    const batch = Math.ceil(5000 / nodes);
    const own: Span[] = [];
    const again: Span[] = [];
    const whole: Span[] = [];
    const analysis: number[] = [];
    let apart = NaN;
    for (let round = 0; round < rounds + WARM; round++) {
      const solution = solve(circuit);
      const prepared = prepare(circuit);
      if (solution.kind !== 'solved' || prepared.kind === 'refused')
        throw new Error(`The network of ${nodes} nodes was not solved.`);
      const span = each(batch, () => solve(circuit));
      const secondSpan = each(batch, () => prepared.solve((load) => load.amount));
      settle();
      // The first rounds warm up.
      if (round < WARM) continue;
      own.push(span);
      again.push(secondSpan);
      const judged = await spice(circuit, run++);
      whole.push(judged.whole);
      analysis.push(judged.analysis);
      apart = Math.max(
        ...[...judged.volts].map(([node, volts]) => Math.abs(volts - (solution.volts.get(node) ?? NaN))),
      );
    }
    rows.push({
      nodes,
      loads: circuit.loads.length,
      own: percentileOf(own, 0.5),
      again: Math.min(...again.map(({ clock }) => clock)),
      spice: percentileOf(whole, 0.5),
      spiceAnalysis: Math.min(...analysis),
      ownProcess: processTime('own', nodes),
      spiceProcess: processTime('ngspice', nodes),
      apart,
    });
  }
  return rows;
}

/** What one of a batch takes: the system counts time on a core in steps that are longer than a small network. */
function each(times: number, work: () => unknown): Span {
  const watch = startWatch();
  for (let n = 0; n < times; n++) work();
  const { clock, core } = watch();
  return { clock: clock / times, core: core === undefined ? undefined : core / times };
}

function processTime(who: 'own' | 'ngspice', nodes: number): number {
  const times = [1, 2, 3].map(() => {
    const start = performance.now();
    const { status } = spawnSync(process.execPath, [once, who, String(nodes)], { stdio: 'ignore' });
    if (status !== 0) throw new Error(`${who} could not solve ${nodes} nodes in a process of its own.`);
    return performance.now() - start;
  });
  return median(times);
}
