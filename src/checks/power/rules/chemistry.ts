import { cellKind } from '../../../vessel/battery.js';
import { compareText, listOf } from '../../../vessel/words.js';
import type { Context } from '../../context.js';
import { rule, type Report } from '../../rule.js';
import type { Output, System } from '../supply/graph.js';

/** `energy/chemistry`: banks of different chemistry paralleled, also through a selector or combiner; lithium straight on an alternator. */
export const chemistry = rule(
  {
    code: 'energy/chemistry',
    severities: ['error', 'warning'],
    summary: 'Banks of different chemistry are paralleled, or a lithium bank is straight on an alternator.',
  },
  (context, report) => {
    for (const system of context.supply.systems) {
      parallel(context, report, system);
      alternators(context, report, system);
    }
  },
);

function parallel({ supply, lookup }: Context, report: Report, system: System): void {
  if (system.banks.length < 2) return;
  const banks = [...system.banks].sort((a, b) => compareText(a.device, b.device));
  const originOf = (device: string): string => lookup.device(device)?.origin ?? device;
  const [first] = banks;
  if (first === undefined) return;
  const stated = banks.filter((bank) => bank.chemistry !== undefined);
  const kinds = new Set(stated.map((bank) => bank.chemistry));
  if (kinds.size < 2) {
    const silent = banks.find((bank) => bank.chemistry === undefined);
    if (silent !== undefined)
      report.unknown(
        { origin: originOf(silent.device) },
        `${silent.model.name} does not say its chemistry, and ${silent.device} is joined with ${listOf(banks.filter((bank) => bank !== silent).map((bank) => bank.device))}`,
      );
    return;
  }
  const inside = new Set(system.terminals);
  const joining = [
    ...new Set(
      supply.joins
        .filter((join) => (join.kind === 'switch' || join.kind === 'combiner') && inside.has(join.a))
        .map((join) => join.device),
    ),
  ].sort(compareText);
  const through = joining.length === 0 ? '' : ` (through ${listOf(joining, 'or', 3)})`;
  report.find({
    message: `${listOf(banks.map((bank) => `${bank.device} (${bank.chemistry ?? 'not stated'})`))} can be paralleled${through}: what charges one rightly harms or never fills the other. Use one chemistry, or charge one from the other through a converter.`,
    at: { origin: originOf(first.device) },
    related: banks.slice(1).map((bank) => ({
      at: { origin: originOf(bank.device) },
      message: `${bank.device} is ${bank.chemistry ?? 'of no stated chemistry'}`,
    })),
  });
}

function alternators({ supply, lookup }: Context, report: Report, system: System): void {
  const bank = [...system.banks]
    .sort((x, y) => compareText(x.device, y.device))
    .find((one) => cellKind(one.chemistry) === 'lithium');
  if (bank === undefined) return;
  const before = supply.systems.filter((one) => system.fedThroughDiodes.includes(one.id));
  const outputs: readonly Output[] = [system, ...before].flatMap((one) => one.outputs);
  for (const output of outputs) {
    const edge = supply.edgesAt(output.terminal)[0];
    if (output.kind !== 'alternator' || edge === undefined) continue;
    report.find({
      severity: 'warning',
      message: `${output.terminal} charges ${bank.device} (${bank.chemistry ?? ''}) straight: a lithium bank takes all that the alternator can give, which overheats it, and when the battery cuts itself off the alternator is left without a load. Charge it through a converter (dc to dc) that limits the current.`,
      at: { origin: edge.origin },
      related: [
        {
          at: { origin: lookup.device(bank.device)?.origin ?? bank.device },
          message: `${bank.device} is ${bank.chemistry ?? ''}`,
        },
      ],
    });
  }
}
