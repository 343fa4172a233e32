/** How much more each device's supply would carry, with the banks at their lowest: worked out when asked for, and remembered. */
import type { Mode } from '../../../vessel/model.js';
import type { Context } from '../../context.js';
import { consumerAt } from '../loads/consumers.js';
import type { Circuit } from '../solve/circuit.js';
import { marginsOf, type Margins } from '../solve/margin.js';
import type { ModeSolution } from './circuits.js';
import { islandsOf } from './islands.js';
import { wayMissing } from './unsure.js';

export interface DeviceMargin {
  /** The mode in which it has the least voltage; undefined where none is declared and everything is on. */
  readonly mode: Mode | undefined;
  readonly volts: number;
  readonly lowestVolts: number;
  /** Times that all loads on the same wires and banks could be what they are until it has its lowest voltage, and until the supply collapses. */
  readonly toLowest: number;
  readonly toCollapse: number;
  /** The fact without which all of this is no more than a bound from above. */
  readonly missing: string | undefined;
}

/** The margin of the device at a terminal. Undefined where it states no lowest voltage, or nothing supplies it in any mode. */
export function createMargins(context: Context): (terminal: string) => DeviceMargin | undefined {
  const { loads, circuits, supply } = context;
  const byCircuit = new Map<Circuit, (load: string) => Margins | undefined>();
  const known = new Map<string, DeviceMargin | undefined>();
  const marginsAt = (load: string, { circuit }: ModeSolution): Margins | undefined => {
    const known = byCircuit.get(circuit) ?? marginsByIsland(circuit);
    byCircuit.set(circuit, known);
    return known(load);
  };
  const workOut = (terminal: string): DeviceMargin | undefined => {
    const lowestVolts = consumerAt(supply, terminal)?.port.dc?.inVolts?.low;
    if (lowestVolts === undefined) return undefined;
    let worst: { readonly at: ModeSolution; readonly volts: number } | undefined;
    let missing: string | undefined;
    for (const mode of loads.modes) {
      const load = loads.loadsIn(mode).all.find((one) => one.terminal === terminal);
      if (load === undefined || load.state === 'off') continue;
      const at = circuits.solvedAt(mode, { kind: 'lowest' }, terminal);
      missing ??= load.missing ?? wayMissing(context, terminal, at);
      const volts = at.solution.kind === 'solved' ? at.solution.loadVolts.get(terminal) : undefined;
      if (volts !== undefined && volts < (worst?.volts ?? Infinity)) worst = { at, volts };
    }
    const margins = worst && marginsAt(terminal, worst.at);
    if (worst === undefined || margins === undefined) return undefined;
    return {
      mode: worst.at.mode,
      volts: worst.volts,
      lowestVolts,
      toLowest: margins.toLowest(terminal, lowestVolts),
      toCollapse: margins.collapse(),
      missing,
    };
  };
  return (terminal) => {
    if (!known.has(terminal)) known.set(terminal, workOut(terminal));
    return known.get(terminal);
  };
}

/** The margins of the part of a circuit that hangs together with a load: another system that collapses is no limit of its own. */
function marginsByIsland(circuit: Circuit): (load: string) => Margins | undefined {
  const islands = new Map<string, Circuit>();
  for (const island of islandsOf(circuit)) for (const { id } of island.loads) islands.set(id, island);
  const known = new Map<Circuit, Margins | undefined>();
  return (load) => {
    const island = islands.get(load);
    if (island === undefined) return undefined;
    if (!known.has(island)) known.set(island, marginsOf(island));
    return known.get(island);
  };
}
