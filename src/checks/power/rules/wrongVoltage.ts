import type { Context } from '../../context.js';
import { rule, type Report } from '../../rule.js';
import { compareText, listOf } from '../../../vessel/words.js';
import { classOf } from '../supply/banks.js';
import type { Output, System } from '../supply/graph.js';
import { consumerLegs, type Consumer } from '../loads/consumers.js';
import { rangeText, voltsText } from './text.js';

/** `power/wrong-voltage`: a supply's range, lowest to charging, leaves the device's; or banks and chargers of two voltages meet. */
export const wrongVoltage = rule(
  {
    code: 'power/wrong-voltage',
    severities: ['error'],
    summary: 'The range of a supply leaves that of what it supplies.',
  },
  (context, report) => {
    const mixed = mixedBanks(context, report);
    consumers(context, report, mixed);
    chargers(context, report, mixed);
  },
);

/** Banks of different voltage that something joins, in whatever position. What is behind them is not judged. */
function mixedBanks({ supply, lookup }: Context, report: Report): ReadonlySet<System> {
  const mixed = new Set<System>();
  for (const system of supply.systems) {
    const stated = system.banks.filter((bank) => bank.nominalVolts !== undefined);
    if (new Set(stated.map((bank) => bank.nominalVolts)).size < 2) continue;
    mixed.add(system);
    const [first, ...others] = [...stated].sort((a, b) => (a.device < b.device ? -1 : 1));
    if (first === undefined) continue;
    const texts = [first, ...others].map((bank) => `${bank.device} (${voltsText(bank.nominalVolts ?? 0)})`);
    report.find({
      message: `${listOf(texts)} are joined with no converter between: the higher one drives current into the lower one without limit. Take out the feed that joins them, or put a converter there.`,
      at: { origin: lookup.device(first.device)?.origin ?? first.device },
      related: others.map((bank) => ({
        at: { origin: lookup.device(bank.device)?.origin ?? bank.device },
        message: `${bank.device} is a bank of ${voltsText(bank.nominalVolts ?? 0)}`,
      })),
    });
  }
  return mixed;
}

function consumers({ supply, lookup }: Context, report: Report, mixed: ReadonlySet<System>): void {
  for (const { edge, leg, consumer } of consumerLegs(supply)) {
    const { inVolts, cranks } = consumer.port.dc ?? {};
    const system = supply.systemOf(consumer.id);
    if (system === undefined || mixed.has(system)) continue;
    const at = { origin: edge.origin, part: `to ${leg.index}` };
    if (inVolts === undefined) {
      if (cranks === undefined)
        report.unknown(
          at,
          `${consumer.model.name} does not say which voltages its port ${consumer.port.name} takes`,
        );
      continue;
    }
    if (system.volts === undefined) {
      if (supplied(system))
        report.unknown(at, system.missing ?? `the voltage at ${consumer.id} is not known`);
      continue;
    }
    // A single figure names a class: "12 V" is not to be taken as a range of no width.
    const fits =
      inVolts.low === inVolts.high
        ? classOf(inVolts.low) === system.nominalVolts
        : system.volts.low >= inVolts.low && system.volts.high <= inVolts.high;
    if (fits) continue;
    report.find({
      message: `${consumer.device} takes ${rangeText(inVolts)}, and ${sourceText(system)} ${rangeText(system.volts)}: ${harm(consumer, system)}. ${remedy(consumer, supply.systems)}`,
      at,
      related: [
        {
          at: { origin: lookup.device(consumer.device)?.origin ?? consumer.device },
          message: `${consumer.model.name} takes ${rangeText(inVolts)} at port ${consumer.port.name}`,
        },
      ],
    });
  }
}

const supplied = (system: System): boolean =>
  system.banks.length > 0 || system.outputs.length > 0 || system.fedThroughDiodes.length > 0;

function sourceText(system: System): string {
  const [first] = system.banks;
  if (first !== undefined)
    return `${listOf(system.banks.map((bank) => bank.device).sort(compareText))} ${system.banks.length === 1 ? 'has' : 'have'}`;
  return `${system.outputs[0]?.device ?? system.id} gives`;
}

function harm(consumer: Consumer, system: System): string {
  const { inVolts } = consumer.port.dc ?? {};
  if (inVolts === undefined || system.volts === undefined) return 'it is not made for that';
  return system.volts.high > inVolts.high
    ? `at ${voltsText(system.volts.high)} it takes harm`
    : `at ${voltsText(system.volts.low)} it switches off`;
}

function remedy(consumer: Consumer, systems: readonly System[]): string {
  const { inVolts } = consumer.port.dc ?? {};
  const fitting = systems.filter(
    ({ volts, terminals }) =>
      volts !== undefined &&
      inVolts !== undefined &&
      terminals.length > 1 &&
      volts.low >= inVolts.low &&
      volts.high <= inVolts.high,
  );
  const names = fitting.map((system) => system.banks[0]?.device ?? system.outputs[0]?.device ?? system.id);
  return names.length > 0
    ? `Feed it from ${listOf([...new Set(names)].sort(compareText), 'or', 3)}, or use a model that takes this range.`
    : 'Feed it through a converter, or use a model that takes this range.';
}

function chargers({ supply, lookup }: Context, report: Report, mixed: ReadonlySet<System>): void {
  const byId = new Map(supply.systems.map((system) => [system.id, system]));
  const check = (output: Output, system: System): void => {
    const { volts } = output;
    const [bank] = [...system.banks].sort((x, y) => compareText(x.device, y.device));
    if (bank === undefined || mixed.has(system)) return;
    const edge = supply.edgesAt(output.terminal)[0];
    if (edge === undefined) return;
    const at = { origin: edge.origin };
    if (volts === undefined) {
      report.unknown(at, `${output.model.name} does not say which voltage ${output.terminal} gives`);
      return;
    }
    if (system.nominalVolts === undefined || classOf(volts) === system.nominalVolts) return;
    const higher = volts > system.nominalVolts;
    report.find({
      message: `${output.terminal} gives ${voltsText(volts)}, and ${bank.device} is a bank of ${voltsText(system.nominalVolts)}: ${higher ? 'it boils the battery' : 'nothing flows into the battery'}. Use one that gives the charging voltage of ${bank.device}${bank.chargesVolts === undefined ? '' : `, ${voltsText(bank.chargesVolts)}`}.`,
      at,
      related: [
        {
          at: { origin: lookup.device(bank.device)?.origin ?? bank.device },
          message: `${bank.device} is a bank of ${voltsText(system.nominalVolts)}`,
        },
      ],
    });
  };
  for (const system of supply.systems) {
    for (const output of system.outputs) check(output, system);
    for (const id of system.fedThroughDiodes)
      for (const output of byId.get(id)?.outputs ?? []) check(output, system);
  }
}
