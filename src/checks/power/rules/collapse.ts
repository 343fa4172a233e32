import { listOf, number } from '../../../vessel/words.js';
import type { Context } from '../../context.js';
import { rule, type Report } from '../../rule.js';
import type { ModeSolution } from '../circuit/circuits.js';
import type { Load } from '../solve/circuit.js';
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
  (context, report) => {
    const { loads, circuits, supply, lookup, vessel } = context;
    const told = new Set<string>();
    for (const mode of loads.modes) {
      for (const kind of ['nominal', 'lowest'] as const) {
        if (kind === 'nominal' && holdsAtNominal(supply.banks, circuits.solved(mode, { kind: 'lowest' })))
          continue;
        for (const part of circuits.parts(mode, { kind })) {
          const { solution } = part;
          if (solution.kind === 'refused') {
            if (!told.has(solution.reason)) report.unknown({ origin: vessel.origin }, solution.reason);
            told.add(solution.reason);
          }
          const [worst] = solution.kind === 'collapsed' ? solution.loads : [];
          if (worst === undefined || told.has(worst)) continue;
          told.add(worst);
          tell(context, report, part, kind, worst);
        }
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

function tell(
  { supply, lookup, vessel }: Context,
  report: Report,
  { mode, circuit }: ModeSolution,
  kind: 'nominal' | 'lowest',
  worst: string,
): void {
  const terminal = supply.terminals.get(worst);
  const name = terminal?.kind === 'port' ? terminal.device : worst;
  const load = circuit.loads.find(({ id }) => id === worst);
  const unit = load?.kind === 'power' ? 'W' : 'A';
  const most = mostOf(circuit, worst);
  const tooSmall = load && smallerBanks(load, supply.systemOf(worst)?.banks ?? []);
  report.find({
    message: `${name} draws ${number(load?.amount ?? 0, 1)} ${unit}${mode === undefined ? '' : ` in mode ${mode.name}`}, and with the battery ${kind === 'nominal' ? 'at its nominal voltage' : 'at its lowest'} no voltage at its end gives it that: its supply collapses. ${most > 0 ? `The way to it carries at most ${number(most, 1)} ${unit}, the other loads as they are` : 'The other loads alone are too much for what they share with it'}. ${tooSmall ?? 'Use larger wires, a shorter way, or a higher voltage.'}`,
    at: { origin: lookup.device(name)?.origin ?? vessel.origin },
  });
}

/**
 * That the banks alone, behind nothing but their own resistance, give less than a load draws: V / R amperes, or V^2 / 4 R watts
 * (circuit theory). Undefined where they give as much, or do not say.
 */
function smallerBanks({ kind, amount }: Load, banks: readonly Bank[]): string | undefined {
  const known = banks.flatMap((bank) => {
    const ohms = insideOhms(bank);
    return bank.nominalVolts === undefined || ohms === undefined || !(ohms > 0)
      ? []
      : [{ volts: bank.nominalVolts, siemens: 1 / ohms }];
  });
  if (banks.length === 0 || known.length < banks.length) return undefined;
  const volts = Math.max(...known.map((one) => one.volts));
  const siemens = known.reduce((sum, one) => sum + one.siemens, 0);
  const most = kind === 'power' ? (volts * volts * siemens) / 4 : volts * siemens;
  if (most >= amount) return undefined;
  const names = listOf(banks.map(({ device }) => device));
  return `It is larger than its battery: ${names} ${banks.length === 1 ? 'gives' : 'give'} at most ${number(most, 1)} ${kind === 'power' ? 'W' : 'A'} through ${banks.length === 1 ? 'its' : 'their'} own resistance, however good the wires. Use a larger battery.`;
}

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
