/** The networks on which the solver and ngspice are measured: trees with a few meshes and two sources, as a boat's is. */
import type { Circuit } from '../../src/checks/power/solve/circuit.js';
import { network, randomFrom } from '../../tests/support/networks.js';

/** Nodes of the networks, both conductors counted. */
export const NODES = [50, 500, 5000] as const;

/** A network of so many nodes, the same for the same number. Its loads together are those of a boat, however many there are. */
export function networkOf(nodes: number): Circuit {
  const stations = nodes / 2;
  return network(randomFrom(nodes), {
    stations,
    meshes: Math.round(stations / 25),
    sources: 2,
    heavy: 15 / stations,
  });
}
