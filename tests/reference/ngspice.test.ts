/** The solver against ngspice 45, an independent circuit simulator, on random networks. */
import { beforeAll, describe, expect, it } from 'vitest';
import { marginOf } from '../../src/checks/power/solve/margin.js';
import { solve } from '../../src/checks/power/solve/solve.js';
import { network, randomFrom } from '../support/networks.js';
import { isHealthy, Spice } from '../support/spice.js';

/** Of the loads, by which ngspice raises them where ours collapse. */
const STEP = 0.02;
/** Of a margin as ours finds it, and of the voltage below which a load is no longer healthy to ngspice. */
const PRECISION = 2e-3;

const spice = new Spice();
beforeAll(() => spice.start(), 60_000);

describe('ngspice', () => {
  it('finds the voltages of 200 random networks within a millivolt, and no operating point where ours collapse', async () => {
    const random = randomFrom(20261125);
    const seen = { mesh: 0, secondSource: 0, constantPower: 0, solved: 0, collapse: 0 };
    let nodes = 0;
    let worst = 0;
    const disagreements: string[] = [];
    for (let n = 0; n < 200; n++) {
      const stations = 3 + Math.floor(random() * 28);
      const meshes = random() < 0.5 ? 1 + Math.floor(random() * 4) : 0;
      const sources = random() < 0.4 ? 2 : 1;
      const circuit = network(random, {
        stations,
        meshes,
        sources,
        heavy: random() < 0.25 ? 6 + random() * 12 : 0.2 + random(),
      });
      const solution = solve(circuit);
      const judged = await spice.operatingPoint(circuit, '-0');
      nodes = Math.max(nodes, judged?.size ?? 0);
      if (circuit.branches.length > 2 * (stations - 1)) seen.mesh++;
      if (sources > 1) seen.secondSource++;
      if (circuit.loads.some((load) => load.kind === 'power')) seen.constantPower++;
      if (solution.kind === 'refused') throw new Error(`network ${n} is refused: ${solution.reason}`);
      if (solution.kind === 'solved') {
        seen.solved++;
        if (!judged) disagreements.push(`network ${n}: ngspice finds no operating point`);
        for (const [node, volts] of judged ?? []) {
          const off = Math.abs(volts - (solution.volts.get(node) ?? NaN));
          worst = Math.max(worst, off);
          if (!(off <= 1e-3))
            disagreements.push(
              `network ${n}, node ${node}: ngspice ${volts} V, ours ${solution.volts.get(node)} V`,
            );
        }
      } else {
        seen.collapse++;
        if (judged && isHealthy(circuit, judged))
          disagreements.push(`network ${n}: ours collapses at ${solution.loads[0] ?? '?'}, ngspice does not`);
        // Nor is it that it failed to find one: followed from no load at all, it loses its footing where ours does.
        const share = await spice.lastHealthyShare(circuit, '-0', STEP);
        const margin = marginOf(circuit, new Map())?.collapse ?? NaN;
        if (!(share !== undefined && margin > share - PRECISION && margin < share + STEP + PRECISION))
          disagreements.push(
            `network ${n}: ours carries ${margin} of its load, ngspice last ${share ?? 'none'}`,
          );
      }
    }
    console.log(
      'ngspice:',
      JSON.stringify(seen),
      `up to ${nodes} nodes, worst ${(worst * 1e6).toFixed(1)} uV apart`,
    );
    expect(disagreements.slice(0, 10)).toEqual([]);
    expect(nodes, 'nodes of the largest').toBeGreaterThanOrEqual(50);
    for (const [what, count] of Object.entries(seen)) expect(count, what).toBeGreaterThanOrEqual(20);
  }, 240_000);
});
