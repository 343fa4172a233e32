/** What a hover tells of panels and their ways, of a battery's posts, and of the margin of a device. */
import type { Analysis } from '../../../checks/analysis.js';
import type { PanelWay } from '../../../checks/power/panels/panels.js';
import { startsIn } from '../../../checks/power/energy/cranks.js';
import type { BankFlow } from '../../../checks/power/energy/flow.js';
import { fittedText } from '../../../checks/power/rules/text.js';
import { listOf, number } from '../../../vessel/words.js';
import { code, escape, rows } from './card.js';

const amps = (value: number): string => `${number(value, 2)} A`;
const MOST_WAYS = 32;

/** What hangs on a panel in all, and each of its ways. */
export function panelLines(device: string, analysis: Analysis): string[] {
  const panel = analysis.power.panel(device);
  if (panel === undefined) return [];
  const { demand, carriesAmps, ways } = panel;
  const free = ways.filter(({ to }) => to.length === 0).length;
  const mode = demand.mode === undefined ? '' : ` in mode ${escape(demand.mode.name)}`;
  const of = carriesAmps === undefined ? '' : ` of ${amps(carriesAmps)}`;
  const open =
    demand.silent === undefined
      ? ''
      : ` At least: ${escape(demand.silent.device)} hangs on it, and ${escape(demand.silent.missing)}.`;
  return [
    `Carries ${amps(demand.amps)}${of} at most${mode}; ${free} of ${ways.length} ways free.${open}`,
    '**Ways**',
    ...rows(
      ways.map((way) => `${code(way.port.name)} ${wayText(way)}`),
      MOST_WAYS,
    ),
  ];
}

/** One way of a panel: its protection, what hangs on it, and what that draws. */
export function wayLines(device: string, port: string, analysis: Analysis): string[] {
  const way = analysis.power.panel(device)?.ways.find((one) => one.port.name === port);
  if (way === undefined || way.to.length === 0) return [];
  const lines = [`${wayText(way)}.`];
  if (way.missing !== undefined) lines.push(`Not known: ${escape(way.missing)}.`);
  return lines;
}

/** "\"Live\" fuse 7.5 A blade → live: 1.8 A, at most 2.6 A" */
function wayText({ label, to, protection, typicalAmps, maxAmps }: PanelWay): string {
  if (to.length === 0) return 'free';
  const fitted = protection.map(
    ({ device, computed }) =>
      `${escape(fittedText({ ...device, protection: { ...device.protection, type: device.type?.name ?? device.protection.type } }))}${computed ? ' (worked out)' : ''}`,
  );
  const drawn =
    typicalAmps === undefined || maxAmps === undefined
      ? 'not known what it draws'
      : `${amps(typicalAmps)}, at most ${amps(maxAmps)}`;
  return [
    label === undefined ? '' : `"${escape(label)}"`,
    listOf(fitted),
    `→ ${escape(listOf(to))}: ${drawn}`,
  ]
    .filter((word) => word !== '')
    .join(' ');
}

/** A battery: what a short circuit draws, what hangs on it in any mode, and how often it starts an engine. */
export function postLines(flows: readonly BankFlow[], analysis: Analysis): string[] {
  const [first] = flows;
  if (first === undefined) return [];
  const { bank, store } = first;
  const [post] = bank.terminals;
  const lines: string[] = [];
  if (post !== undefined) {
    const { amps: fault, banks, bound, missing } = analysis.power.shortCircuitAt(post);
    const others = banks.filter((one) => one !== bank).map(({ device }) => device);
    const withOthers = others.length === 0 ? '' : `, ${escape(listOf(others))} counted`;
    lines.push(
      fault === undefined
        ? `A short circuit at its posts: not known, ${escape(missing ?? 'its resistance is not')}.`
        : `A short circuit at its posts draws up to ${number(fault / 1000, 2)} kA${withOthers}${bound === undefined ? '' : `: no more than a bound, ${escape(bound)}`}.`,
    );
  }
  const system = post === undefined ? undefined : analysis.supply.systemOf(post);
  const hung =
    system === undefined
      ? []
      : analysis.loads
          .loadsIn(first.mode)
          .all.filter(({ terminal }) => analysis.supply.systemOf(terminal) === system);
  const names = [...new Set(hung.map(({ device }) => device))];
  if (names.length > 0)
    lines.push(
      `On its system hang ${escape(names.length > 12 ? `${names.slice(0, 12).join(', ')} and ${names.length - 12} more` : listOf(names))}.`,
    );
  for (const starter of analysis.loads.starters) {
    if (store === undefined || system === undefined || analysis.supply.systemOf(starter.terminal) !== system)
      continue;
    const starts = startsIn(store, starter);
    const count =
      starts === undefined
        ? undefined
        : starts.low === starts.high
          ? number(starts.low, 0)
          : `${number(starts.low, 0)} to ${number(starts.high, 0)}`;
    if (count !== undefined)
      lines.push(
        `Full, it starts ${escape(starter.device)} ${count} times: ${number(starter.amps, 0)} A for ${number(starter.seconds ?? 0, 1)} s each.`,
      );
  }
  return lines;
}

/** How much more the supply of a device would carry. */
export function marginLines(terminal: string, analysis: Analysis): string[] {
  const margin = analysis.power.marginAt(terminal);
  if (margin === undefined) return [];
  const { mode, volts, lowestVolts, toLowest, toCollapse, missing } = margin;
  const where = mode === undefined ? '' : ` in mode ${escape(mode.name)}`;
  const bound = missing === undefined ? '' : ` No more than a bound: ${escape(missing)}.`;
  return [
    `${number(volts, 2)} V with the batteries at their lowest${where}; it works from ${number(lowestVolts, 1)} V, which it has up to ${timesText(toLowest)} the loads. The supply collapses at ${timesText(toCollapse)}.${bound}`,
  ];
}

const timesText = (factor: number): string =>
  Number.isFinite(factor) ? `${number(factor, 2)} times` : 'over 1000 times';
