/** What is worked out of direct current, told in a hover: on feeds, banks, modes and days. */
import type { Analysis } from '../../../checks/analysis.js';
import type { BankDay } from '../../../checks/power/energy/days.js';
import type { BankFlow } from '../../../checks/power/energy/flow.js';
import { rangeText } from '../../../checks/power/energy/lasting.js';
import type { FeedResult } from '../../../checks/power/sizing/feeds.js';
import { listOf, number } from '../../../vessel/words.js';
import { GOVERNED } from '../governed.js';
import { escape, metres, rows } from './card.js';
import { marginLines, postLines } from './supply.js';

const amps = (value: number): string => `${number(value, 2)} A`;

/** The legs of a feed: wire and what decided it, fuse, current, drop and voltage at the far end, length and way. */
export function feedLines(origin: string, analysis: Analysis): string[] {
  const legs = analysis.power.feeds().filter((leg) => leg.origin === origin);
  return legs.flatMap((leg) => {
    const lines = [
      ...(legs.length > 1 ? [`**To ${escape(leg.to)}**`] : []),
      wireLine(leg),
      protectionLine(leg),
      currentLine(leg),
      voltageLine(leg),
      leg.lengthMetres === undefined
        ? ''
        : `${metres(leg.lengthMetres)} one way${leg.zones.length > 1 ? `, ${escape(leg.zones.join(' → '))}` : ''}.`,
      ...marginLines(leg.to, analysis),
    ];
    if (leg.missing !== undefined) lines.push(`Not known: ${escape(leg.missing)}.`);
    return lines.filter((line) => line !== '');
  });
}

function wireLine({ wire }: FeedResult): string {
  if (wire.size === undefined) return '';
  const by =
    wire.governedBy === undefined || !wire.computed
      ? ''
      : `, worked out: decided by ${GOVERNED[wire.governedBy]}`;
  return `Wire ${wire.size}${wire.other === undefined ? '' : ` (or ${wire.other})`}${by}.`;
}

function protectionLine({ protection }: FeedResult): string {
  const worked = protection.filter(({ computed, amps: rating }) => computed && rating !== undefined);
  if (worked.length === 0) return '';
  return `Worked out: ${worked
    .map(({ device, amps: rating, type, at }) =>
      [
        device,
        rating === undefined ? '' : amps(rating),
        escape(type ?? ''),
        at === undefined ? '' : `at ${escape(at)}`,
      ]
        .filter((word) => word !== '')
        .join(' '),
    )
    .join(', ')}.`;
}

function currentLine({ typicalAmps, maxAmps, ampacityAmps, crankingAmps }: FeedResult): string {
  if (crankingAmps !== undefined) return `${amps(crankingAmps)} while it cranks.`;
  if (typicalAmps === undefined || maxAmps === undefined) return '';
  const carries = ampacityAmps === undefined ? '' : `; the wire may carry ${amps(ampacityAmps)}`;
  return `${amps(typicalAmps)}, at most ${amps(maxAmps)}${carries}.`;
}

function voltageLine({ dropVolts, dropPercent, allowedPercent, loadVolts }: FeedResult): string {
  if (dropVolts === undefined || dropPercent === undefined || loadVolts === undefined) return '';
  const allowed = allowedPercent === undefined ? '' : ` of ${number(allowedPercent, 1)} % allowed`;
  return `Loses ${number(dropVolts, 2)} V on the whole way (${number(dropPercent, 1)} %${allowed}): ${number(loadVolts, 2)} V arrive.`;
}

/** A battery: what it holds, how long that lasts in each mode, and how it fares over each day. */
export function bankLines(device: string, analysis: Analysis): string[] {
  const flows = analysis.energy.modes.flatMap((mode) => analysis.energy.flowOf(device, mode?.name) ?? []);
  const [first] = flows;
  if (first === undefined) return [];
  const { store, bank } = first;
  const lines: string[] = [];
  if (store !== undefined) {
    const usable = store.ampHours * store.depth;
    const energy =
      bank.nominalVolts === undefined ? '' : ` (${number((usable * bank.nominalVolts) / 1000, 2)} kWh)`;
    lines.push(
      `Holds ${number(store.ampHours, 1)} Ah, of which ${number(usable, 1)} Ah${energy} may be used: ${number(store.depth * 100, 0)} %${store.depthStated ? '' : ', common practice'}.`,
    );
  }
  lines.push(
    ...postLines(flows, analysis),
    '**Lasts, from full**',
    ...rows(flows.map((flow) => `${escape(flow.mode?.name ?? 'with everything on')}: ${flowText(flow)}`)),
  );
  const days = analysis.energy.days().filter((one) => one.bank.device === device);
  return [...lines, ...rows(days.map((one) => `${escape(one.day.name)}: ${dayText(one)}`))];
}

/** A mode: what each bank gives in it, and for how long. */
export function modeLines(mode: string, analysis: Analysis): string[] {
  const known = analysis.vessel.modes.find(({ name }) => name === mode);
  const flows = known === undefined ? [] : analysis.energy.flowsIn(known);
  return rows(flows.map((flow) => `${escape(flow.bank.device)}: ${flowText(flow)}`));
}

/** A day: how each bank fares. */
export function dayLines(day: string, analysis: Analysis): string[] {
  const days = analysis.energy.days().filter((one) => one.day.name === day);
  return rows(days.map((one) => `${escape(one.bank.device)}: ${dayText(one)}`));
}

/** "6.2 h at 4.1 A, most of it live 1.4 A, plotter 1.4 A" */
function flowText({ hours, missing, atMost, atLeast, netAmps, carries, beside, sources }: BankFlow): string {
  if (hours === undefined) return `not known: ${escape(missing ?? 'what it holds')}`;
  const charged =
    sources.length === 0 ? '' : `, charged by ${escape(listOf(sources.map(({ device }) => device)))}`;
  const shared = beside.length === 0 ? '' : `, shared with ${escape(listOf(beside))}`;
  const open =
    atMost !== undefined
      ? `; at most, for ${escape(atMost)}`
      : atLeast !== undefined
        ? `; at least, for ${escape(atLeast)}`
        : '';
  if (netAmps <= 0) return `${netAmps < 0 ? 'charged' : 'nothing is taken'}${charged}${shared}${open}`;
  const most = carries.filter(({ amps: one }) => one > 0).slice(0, 3);
  const by = most.map(({ load, amps: one }) => `${escape(load.device)} ${amps(one)}`).join(', ');
  return `${rangeText(hours)} at ${amps(netAmps)} on average (${by})${charged}${shared}${open}`;
}

/** "12 Ah out, 12 Ah in, down to 82 %, and comes back" */
function dayText({ outAmpHours, inAmpHours, lowest, comesBack, daysToDepth, missing }: BankDay): string {
  const figures = `${number(outAmpHours, 1)} Ah out, ${number(inAmpHours, 1)} Ah in, down to ${number(lowest * 100, 0)} %`;
  const end = comesBack ? 'it comes back' : 'it does not come back';
  const deep = daysToDepth === undefined ? '' : `, and is too deep on day ${daysToDepth}`;
  const open = missing === undefined ? '' : ` (no more than a bound: ${escape(missing)})`;
  return `${figures}; ${end}${deep}${open}`;
}
