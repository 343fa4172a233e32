import { number } from '../../../vessel/words.js';
import { rule } from '../../rule.js';
import type { ModeSolution } from '../circuit/circuits.js';
import { mostOf } from '../solve/margin.js';
import { insideOhms } from '../supply/banks.js';
import type { Bank } from '../supply/graph.js';

/**
 * `power/collapse`: there is no voltage at which every load gets what it draws. What draws a constant power takes the more current
 * the lower its voltage, until the wires can carry no more.
 */
export const collapse = rule(
  {
    code: 'power/collapse',
    severities: ['error'],
    summary: 'The supply collapses: no voltage gives every load what it draws.',
  },
  ({ loads, circuits, supply, lookup, vessel }, report) => {
    const told = new Set<string>();
    for (const mode of loads.modes) {
      for (const kind of ['nominal', 'lowest'] as const) {
        if (kind === 'nominal' && holdsAtNominal(supply.banks, circuits.solved(mode, { kind: 'lowest' })))
          continue;
        const { solution, circuit } = circuits.solved(mode, { kind });
        if (solution.kind === 'refused') {
          if (!told.has(solution.reason)) report.unknown({ origin: vessel.origin }, solution.reason);
          told.add(solution.reason);
        }
        const [worst] = solution.kind === 'collapsed' ? solution.loads : [];
        if (worst === undefined || told.has(worst)) continue;
        told.add(worst);
        const terminal = supply.terminals.get(worst);
        const name = terminal?.kind === 'port' ? terminal.device : worst;
        const load = circuit.loads.find(({ id }) => id === worst);
        const unit = load?.kind === 'power' ? 'W' : 'A';
        const most = mostOf(circuit, worst);
        report.find({
          message: `${name} draws ${number(load?.amount ?? 0, 1)} ${unit}${mode === undefined ? '' : ` in mode ${mode.name}`}, and with the battery ${kind === 'nominal' ? 'at its nominal voltage' : 'at its lowest'} no voltage at its end gives it that: its supply collapses. ${most > 0 ? `The way to it carries at most ${number(most, 1)} ${unit}, the other loads as they are` : 'The other loads alone are too much for what they share with it'}. Use larger wires, a shorter way, or a higher voltage.`,
          at: { origin: lookup.device(name)?.origin ?? vessel.origin },
        });
      }
    }
    const draws = loads.modes.some((mode) => loads.loadsIn(mode).all.some(({ state }) => state !== 'off'));
    for (const bank of draws ? supply.banks : []) {
      const missing = unjudged(bank);
      if (missing !== undefined)
        report.unknown({ origin: lookup.device(bank.device)?.origin ?? vessel.origin }, missing);
    }
  },
);

/** Why nothing can be said of a bank's loads: neither its voltage at the worst, nor how far it falls from the nominal one. */
function unjudged(bank: Bank): string | undefined {
  if (bank.lowestVolts !== undefined) return undefined;
  if (bank.nominalVolts === undefined) return `${bank.model.name} says neither its voltage nor its lowest`;
  return insideOhms(bank) === undefined
    ? `${bank.model.name} says neither its lowest voltage, nor its resistance, nor its short-circuit current`
    : undefined;
}

/**
 * Whether a solution with the banks at their lowest proves that there is one at their nominal voltage: what each gives there
 * leaves its posts no lower behind its own resistance, and no voltage of the network falls when a source rises.
 */
function holdsAtNominal(banks: readonly Bank[], { solution }: ModeSolution): boolean {
  return (
    solution.kind === 'solved' &&
    solution.cutOut.length === 0 &&
    banks.every((bank) => {
      const { device, nominalVolts, lowestVolts } = bank;
      const amps = solution.sourceAmps.get(device) ?? 0;
      return (
        nominalVolts !== undefined &&
        lowestVolts !== undefined &&
        amps >= 0 &&
        // One that does not say its resistance is taken at its word that it falls no lower than its lowest.
        nominalVolts - amps * (insideOhms(bank) ?? 0) >= lowestVolts
      );
    })
  );
}
