/**
 * ngspice as a judge of direct-current networks. It shares nothing with the solver but the shape of a circuit's data.
 * ngspice 45 as WebAssembly, from the package eecircuit-engine.
 */
import { Simulation } from 'eecircuit-engine';
import type { Circuit } from '../../src/checks/power/solve/circuit.js';

/** Below this a constant-power load is a resistor for the judge, so that it always finds an operating point. */
export const HEALTHY_VOLTS = 1;

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
    const { text, names } = netlist(circuit, reference, ++this.runs);
    this.simulation.setNetList(text);
    const result = await this.simulation.runSim();
    const values = new Map(
      result.data.map(({ name, values: [first] }) => [name, typeof first === 'number' ? first : NaN]),
    );
    // After a run that failed, the engine holds the result of the one before.
    if (values.get('v(run)') !== this.runs) return undefined;
    return new Map(
      [...names].map(([node, number]) => [node, number === 0 ? 0 : (values.get(`v(n${number})`) ?? NaN)]),
    );
  }
}

/** The circuit as a SPICE deck, with the reference as ground. */
function netlist(
  circuit: Circuit,
  reference: string,
  run: number,
): { text: string; names: ReadonlyMap<string, number> } {
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
    if (load.kind === 'current') lines.push(`i${i} ${plus} ${minus} ${load.amount}`);
    else {
      const across = `(v(${plus})-v(${minus}))`;
      const asResistor = `${load.amount}*${across}/${HEALTHY_VOLTS ** 2}`;
      // The test keeps the divisor away from nothing in the branch that is not taken.
      lines.push(
        `b${i} ${plus} ${minus} i = ${across} > ${HEALTHY_VOLTS} ? ${load.amount}/max(${across},${HEALTHY_VOLTS}) : ${asResistor}`,
      );
    }
  });
  const positive = new Set([...circuit.sources.map((s) => s.plus), ...circuit.loads.map((l) => l.plus)]);
  for (const [name, number] of names)
    if (number > 0)
      lines.push(`.nodeset v(n${number})=${positive.has(name) || name.startsWith('+') ? highest : 0}`);
  lines.push('.options reltol=1e-7 vntol=1e-9 abstol=1e-12 itl1=2000 gmin=1e-15', '.op', '.end');
  return { text: lines.join('\n'), names };
}
