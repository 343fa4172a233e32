/**
 * ngspice as a judge of direct-current networks. It shares nothing with the solver but the shape of a circuit's data.
 * ngspice 45 as WebAssembly, from the package eecircuit-engine.
 */
import { Simulation } from 'eecircuit-engine';
import type { Circuit } from '../../src/checks/power/solve/circuit.js';

export class Spice {
  private readonly simulation = new Simulation();
  /** Numbers the runs: each deck carries its number as a voltage. */
  private runs = 0;

  async start(): Promise<void> {
    await this.simulation.start();
    // A first run that succeeds: one that fails before any did would never return.
    this.simulation.setNetList('first\nvrun run 0 0\nr1 run 0 1\n.op\n.end');
    await this.simulation.runSim();
  }

  /** Volts of every node over the reference; undefined where the simulator finds no operating point. */
  async operatingPoint(
    circuit: Circuit,
    reference: string,
  ): Promise<ReadonlyMap<string, number> | undefined> {
    const points = await this.run(netlist(circuit, reference, ++this.runs));
    return points?.[0];
  }

  /**
   * Raises all loads together from nothing to what they are, in steps, each point sought from the one before: the last share
   * of them at which every load has a healthy voltage.
   */
  async lastHealthyShare(circuit: Circuit, reference: string, step: number): Promise<number | undefined> {
    const points = await this.run(netlist(circuit, reference, ++this.runs, step));
    const fallen = points?.findIndex((volts) => !isHealthy(circuit, volts)) ?? 0;
    return points && (fallen < 0 ? 1 : (fallen - 1) * step);
  }

  /** Runs a deck: the volts of its nodes at each of its points; undefined where it fails. */
  async run({ text, names, run }: Deck): Promise<readonly ReadonlyMap<string, number>[] | undefined> {
    this.simulation.setNetList(text);
    const result = await this.simulation.runSim();
    const columns = new Map(result.data.map(({ name, values }) => [name, values]));
    const at = (column: string, point: number): number => {
      const value = columns.get(column)?.[point];
      return typeof value === 'number' ? value : NaN;
    };
    // After a run that failed, the engine holds the result of the one before.
    if (at('v(run)', 0) !== run) return undefined;
    return Array.from(
      { length: result.numPoints },
      (_, point) =>
        new Map([...names].map(([node, number]) => [node, number === 0 ? 0 : at(`v(n${number})`, point)])),
    );
  }
}

/** Whether every load that draws anything has a voltage at which it is still what it is said to be. */
export function isHealthy(circuit: Circuit, volts: ReadonlyMap<string, number>): boolean {
  return circuit.loads.every(
    ({ amount, plus, minus }) =>
      amount === 0 || (volts.get(plus) ?? NaN) - (volts.get(minus) ?? NaN) > HEALTHY_VOLTS,
  );
}

/** Below this a constant-power load is a resistor for the judge, so that it always finds an operating point. */
const HEALTHY_VOLTS = 1;

interface Deck {
  readonly text: string;
  readonly names: ReadonlyMap<string, number>;
  readonly run: number;
}

/** The circuit as a SPICE deck, with the reference as ground; with a step, all loads are raised to what they are. */
export function netlist(circuit: Circuit, reference: string, run: number, step?: number): Deck {
  const names = new Map([[reference, 0]]);
  const node = (name: string): string => {
    const number = names.get(name) ?? names.size;
    names.set(name, number);
    return number === 0 ? '0' : `n${number}`;
  };
  const lines = ['wireloft judge', `vrun run 0 ${run}`];
  const highest = Math.max(...circuit.sources.map((source) => source.volts));
  circuit.branches.forEach((branch, i) =>
    lines.push(`r${i} ${node(branch.a)} ${node(branch.b)} ${branch.ohms}`),
  );
  circuit.sources.forEach((source, i) => {
    lines.push(
      `v${i} e${i} ${node(source.minus)} ${source.volts}`,
      `rs${i} e${i} ${node(source.plus)} ${source.ohms}`,
    );
  });
  circuit.loads.forEach((load, i) => {
    const plus = node(load.plus);
    const minus = node(load.minus);
    const share = step === undefined ? '' : 'v(share)*';
    if (load.kind === 'current')
      lines.push(
        share === ''
          ? `i${i} ${plus} ${minus} ${load.amount}`
          : `b${i} ${plus} ${minus} i = ${share}${load.amount}`,
      );
    else {
      const across = `(v(${plus})-v(${minus}))`;
      const asResistor = `${load.amount}*${across}/${HEALTHY_VOLTS ** 2}`;
      // The test keeps the divisor away from nothing in the branch that is not taken.
      lines.push(
        `b${i} ${plus} ${minus} i = ${share}(${across} > ${HEALTHY_VOLTS} ? ${load.amount}/max(${across},${HEALTHY_VOLTS}) : ${asResistor})`,
      );
    }
  });
  const positive = new Set([...circuit.sources.map((s) => s.plus), ...circuit.loads.map((l) => l.plus)]);
  for (const [name, number] of names)
    if (number > 0)
      lines.push(`.nodeset v(n${number})=${positive.has(name) || name.startsWith('+') ? highest : 0}`);
  lines.push('.options reltol=1e-7 vntol=1e-9 abstol=1e-12 itl1=2000 gmin=1e-15');
  if (step === undefined) lines.push('.op', '.end');
  else lines.push('vshare share 0 0', `.dc vshare 0 1 ${step}`, '.end');
  return { text: lines.join('\n'), names, run };
}
