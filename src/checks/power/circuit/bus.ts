/**
 * How a stretch of a backbone stands in the circuit: one lump that draws what it powers, at its tap. Whatever spreads it along its
 * spans replaces this function alone.
 */
import type { Branch, Load } from '../solve/circuit.js';
import type { TerminalLoad } from '../loads/load.js';
import { loadOf, minusOf, plusOf } from './nodes.js';

export interface BusParts {
  readonly branches: readonly Branch[];
  readonly loads: readonly Load[];
}

/** The branches and loads of a stretch, between the nodes of its terminal. */
export function busParts(load: TerminalLoad): BusParts {
  const lump = loadOf(load, plusOf(load.terminal), minusOf(load.terminal));
  return { branches: [], loads: lump === undefined ? [] : [lump] };
}
