/** How long banks last, mode by mode, and how they fare over a day. Worked out when asked for, and remembered. */
import type { Mode, Need, Vessel } from '../../../vessel/model.js';
import type { NeedResult } from '../../analysis.js';
import { once } from '../../once.js';
import type { Loads } from '../loads/loads.js';
import type { SupplyGraph } from '../supply/graph.js';
import { bankDay, type BankDay } from './days.js';
import { flowsIn, type BankFlow } from './flow.js';
import { judgeLasting } from './lasting.js';
import { poolsIn } from './pools.js';

export interface Energy {
  /** The modes of the boat; one that has no name where none is declared. */
  readonly modes: readonly (Mode | undefined)[];
  /** Every bank in a mode. */
  readonly flowsIn: (mode: Mode | undefined) => readonly BankFlow[];
  /** A bank in a mode, by their names. */
  readonly flowOf: (bank: string, mode: string | undefined) => BankFlow | undefined;
  /** Every bank over every declared day, of those of which anything is known. */
  readonly days: () => readonly BankDay[];
  readonly lasting: (need: Need & { readonly kind: 'last' }) => Pick<NeedResult, 'met' | 'reason'>;
}

export function createEnergy(vessel: Vessel, graph: SupplyGraph, loads: Loads): Energy {
  const known = new Map<Mode | undefined, readonly BankFlow[]>();
  const flows = (mode: Mode | undefined): readonly BankFlow[] => {
    let found = known.get(mode);
    if (found === undefined) {
      found = flowsIn(mode, poolsIn(graph, graph.stateIn(mode), loads.loadsIn(mode)));
      known.set(mode, found);
    }
    return found;
  };
  const flowOf = (bank: string, name: string | undefined): BankFlow | undefined => {
    const mode = vessel.modes.find((one) => one.name === name);
    return mode === undefined && name !== undefined
      ? undefined
      : flows(mode).find((flow) => flow.bank.device === bank);
  };
  const ground = { vessel, graph, starters: loads.starters, flowOf };
  return {
    modes: loads.modes,
    flowsIn: flows,
    flowOf,
    days: once(() =>
      vessel.days.flatMap((day) =>
        graph.banks.flatMap((bank) => bankDay(day, bank, (mode) => flowOf(bank.device, mode)) ?? []),
      ),
    ),
    lasting: (need) => judgeLasting(need, ground),
  };
}
