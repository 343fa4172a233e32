import { listOf, number } from '../../../vessel/words.js';
import { rule } from '../../rule.js';
import { wayMissing } from '../circuit/unsure.js';
import { consumerAt } from '../loads/consumers.js';
import { ELECTRONICS } from '../loads/electronics.js';
import { starting } from '../sizing/ways.js';

/**
 * `power/cranking`: electronics on the battery that starts an engine, and below their lowest voltage while it cranks. The battery
 * is at the voltage to which it `sags`. Common practice, no source.
 */
export const cranking = rule(
  {
    code: 'power/cranking',
    severities: ['warning'],
    summary: 'Electronics drop below their lowest voltage while an engine cranks.',
  },
  (context, report) => {
    const { loads, circuits, supply, sizing, lookup, vessel } = context;
    const unknown = new Map<string, string>();
    const told = new Set<string>();
    for (const starter of loads.starters) {
      for (const mode of loads.modes) {
        const state = supply.stateIn(mode);
        const now = sizing.ways.waysFrom(starter.terminal, state);
        const ways = now.some(({ source }) => supply.bankAt(source) !== undefined)
          ? now
          : sizing.ways.waysFrom(starter.terminal, starting(supply));
        const banks = new Set(ways.flatMap(({ source }) => supply.bankAt(source) ?? []));
        if (banks.size === 0) continue;
        const names = [...banks].map(({ device }) => device).sort();
        for (const load of loads.loadsIn(mode).all) {
          const consumer = consumerAt(supply, load.terminal);
          const low = consumer?.port.dc?.inVolts?.low;
          if (consumer === undefined || low === undefined || load.state === 'off') continue;
          if (!ELECTRONICS.has(consumer.model.class) || told.has(load.terminal)) continue;
          const from = sizing.ways
            .waysFrom(load.terminal, state)
            .flatMap(({ source }) => supply.bankAt(source) ?? []);
          // With a bank besides that does not start the engine, it is held up by that.
          if (from.length === 0 || !from.every((bank) => banks.has(bank))) continue;
          const at = { origin: lookup.device(consumer.device)?.origin ?? vessel.origin };
          const solved = circuits.solvedAt(mode, { kind: 'cranking', banks: names }, load.terminal);
          const { solution, missing } = solved;
          const silent = from.find((bank) => bank.sagsVolts === undefined);
          const volts = solution.kind === 'solved' ? solution.loadVolts.get(load.terminal) : undefined;
          const dark = solution.kind === 'solved' && solution.cutOut.includes(load.terminal);
          if (silent !== undefined || (volts === undefined && !dark)) {
            told.add(load.terminal);
            report.unknown(
              at,
              silent === undefined
                ? (missing[0] ??
                    `the voltage at ${load.terminal} while ${starter.device} cranks is not known`)
                : `${silent.model.name} does not say to what it sags`,
            );
            continue;
          }
          if (!dark && volts !== undefined && volts >= low - 1e-6) {
            const open = load.missing ?? wayMissing(context, load.terminal, solved);
            if (open !== undefined) unknown.set(load.terminal, open);
            continue;
          }
          told.add(load.terminal);
          report.find({
            message: `${consumer.device} ${dark ? 'switches itself off' : `gets ${number(volts ?? 0, 2)} V`} while ${starter.device} cranks from ${listOf(names)}${mode === undefined ? '' : ` in mode ${mode.name}`}, and needs ${number(low, 1)} V: it restarts at every start. Feed it from a battery that starts no engine.`,
            at,
          });
        }
      }
    }
    for (const [terminal, missing] of unknown) {
      const device = consumerAt(supply, terminal)?.device;
      if (device !== undefined && !told.has(terminal))
        report.unknown({ origin: lookup.device(device)?.origin ?? vessel.origin }, missing);
    }
  },
);
