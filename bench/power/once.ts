/** A process that solves one network and ends: `once.mjs own 500`, `once.mjs ngspice 500`. What is measured is the process. */
import { solve } from '../../src/checks/power/solve/solve.js';
import { networkOf } from './networks.js';
import { startSpice } from './spice.js';

const [who, nodes] = process.argv.slice(2);
const circuit = networkOf(Number(nodes));
if (who === 'own') {
  if (solve(circuit).kind !== 'solved') throw new Error('The network was not solved.');
} else await (await startSpice())(circuit, 1);
// ngspice waits for another deck for ever.
process.exit(0);
