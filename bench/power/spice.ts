/** ngspice 45 as a contestant: the same networks as decks, and what it says itself of the time that it took. */
import { Simulation } from 'eecircuit-engine';
import type { Circuit } from '../../src/checks/power/solve/circuit.js';
import { startWatch, type Span } from '../measure/figures.js';
import { netlist } from '../../tests/support/spice.js';

export interface SpiceRun {
  /** From the deck to the voltages in hand: reading, analysis and results. */
  readonly whole: Span;
  /** The analysis alone, by ngspice's own clock: its matrix is set up and reordered already. Milliseconds. */
  readonly analysis: number;
  readonly volts: ReadonlyMap<string, number>;
}

/** ngspice, started; the function runs a network. */
export async function startSpice(): Promise<(circuit: Circuit, run: number) => Promise<SpiceRun>> {
  const simulation = new Simulation();
  await simulation.start();
  // A first run that succeeds: one that fails before any did would never return.
  simulation.setNetList('first\nvrun run 0 0\nr1 run 0 1\n.op\n.end');
  await simulation.runSim();
  const take = async (text: string): ReturnType<Simulation['runSim']> => {
    simulation.setNetList(text);
    return await simulation.runSim();
  };
  return async (circuit, run) => {
    const { text, names } = netlist(circuit, '-0', run);
    const watch = startWatch();
    const result = await take(text);
    const whole = watch();
    const columns = new Map(result.data.map(({ name, values }) => [name, values[0]]));
    if (columns.get('v(run)') !== run) throw new Error(`ngspice finds no operating point in run ${run}.`);
    const volts = new Map(
      [...names].map(([node, number]) => {
        const value = number === 0 ? 0 : columns.get(`v(n${number})`);
        return [node, typeof value === 'number' ? value : NaN] as const;
      }),
    );
    // Once more with its clock read out, so that the reading costs the first run nothing.
    await take(text.replace(/\.end$/, '.control\nrun\nrusage time\n.endc\n.end'));
    const told = /Total analysis time \(seconds\) = (\S+)/.exec(simulation.getInfo())?.[1];
    return { whole, analysis: Number(told ?? NaN) * 1000, volts };
  };
}
