import { poeClass } from '../../../vessel/poe.js';
import { listOf, number } from '../../../vessel/words.js';
import { portText } from '../../wiring/wiring.js';
import type { Context } from '../../context.js';
import { rule, type Report } from '../../rule.js';
import { poeMeetings, type PoeMeeting } from '../powered.js';

/** `net/poe-budget`: a powered device wants more than its port gives, or all of them more than the device that feeds them. */
export const poeBudget = rule(
  {
    code: 'net/poe-budget',
    severities: ['error'],
    summary: 'A device wants more power over ethernet than its port, or the whole switch, supplies.',
  },
  (context, report) => {
    const { vessel, lookup, wiring } = context;
    const wanting = poeMeetings(vessel, lookup, wiring).filter((one) => one.poe.role === 'wants');
    for (const one of wanting) judgePort(context, one, report);
    for (const [device, served] of bySupply(wanting)) judgeTotal(context, device, served, report);
  },
);

/** Watts that a port of the standard sets aside for a class, or that a passive one is to give. */
function sourceWatts({ poe }: PoeMeeting): number | undefined {
  return poe.poeClass === undefined ? poe.watts : poeClass(poe.poeClass)?.sourceWatts;
}

function judgePort(context: Context, one: PoeMeeting, report: Report): void {
  const { near, poe, far, link } = one;
  const at = { origin: link.link.origin };
  const [here, there] = [portText(near), portText(far)];
  const gives = far.port.poe;
  if (gives?.role !== 'gives') {
    // What has a supply of its own runs without power from the cable.
    const ports = context.lookup.modelOf(near.device)?.ports ?? [];
    if (ports.some((port) => port.medium === 'dc' && port.dc?.direction !== 'out')) return;
    report.find({
      message: `${here} wants ${wantText(one)} over ethernet, and ${there} gives none: ${near.device} has no other supply and stays dark. Link it to a port that gives ${wantText(one)}, or put an injector between.`,
      at,
    });
    return;
  }
  if (poe.poeClass !== undefined && gives.poeClass !== undefined) {
    const [want, give] = [poeClass(poe.poeClass), poeClass(gives.poeClass)];
    if (want === undefined || give === undefined) {
      report.unknown(at, `what class ${want === undefined ? poe.poeClass : gives.poeClass} is worth`);
      return;
    }
    if (want.sourceWatts <= give.sourceWatts) return;
    report.find({
      message: `${here} wants class ${poe.poeClass} (${number(want.deviceWatts)} W at the device), and ${there} gives class ${gives.poeClass} (${number(give.deviceWatts)} W there): ${near.device} does not start, or fails at full load (IEEE 802.3). Link it to a port of class ${poe.poeClass}, or use an injector.`,
      at,
    });
  } else if (poe.passiveVolts !== undefined && gives.passiveVolts !== undefined) {
    if (poe.watts === undefined || gives.watts === undefined)
      report.unknown(
        at,
        poe.watts === undefined ? `how much power ${here} wants` : `how much power ${there} gives`,
      );
    else if (poe.watts > gives.watts)
      report.find({
        message: `${here} wants ${number(poe.watts)} W, and ${there} gives ${number(gives.watts)} W: ${near.device} fails at full load. Use a larger injector.`,
        at,
      });
  }
}

function wantText({ poe }: PoeMeeting): string {
  return poe.poeClass === undefined
    ? `passive ${poe.passiveVolts === undefined ? 'power' : `${number(poe.passiveVolts)} V`}`
    : `class ${poe.poeClass}`;
}

function bySupply(wanting: readonly PoeMeeting[]): ReadonlyMap<string, readonly PoeMeeting[]> {
  const table = new Map<string, PoeMeeting[]>();
  for (const one of wanting) {
    const { role, passiveVolts } = one.far.port.poe ?? {};
    // Where a passive port and one of the standard meet no power flows; net/poe-passive tells of it.
    if (role !== 'gives' || (passiveVolts === undefined) !== (one.poe.passiveVolts === undefined)) continue;
    table.set(one.far.device, [...(table.get(one.far.device) ?? []), one]);
  }
  return table;
}

function judgeTotal(context: Context, device: string, served: readonly PoeMeeting[], report: Report): void {
  const found = context.lookup.device(device);
  const model = context.lookup.modelOf(device);
  if (found === undefined || model === undefined) return;
  const at = { origin: found.origin };
  const watts = served.map(sourceWatts);
  const open = served.find((one) => sourceWatts(one) === undefined);
  const sum = watts.reduce<number>((total, each) => total + (each ?? 0), 0);
  const total = model.poeTotalWatts;
  if (total === undefined) {
    report.unknown(at, `how much power ${model.name} gives over ethernet in all`);
    return;
  }
  if (sum > total + 1e-9)
    report.find({
      message: `${device} sets aside ${open === undefined ? '' : 'at least '}${number(sum)} W for ${listOf(served.map((one) => portText(one.near)))}, and gives ${number(total)} W over ethernet in all: what is plugged in last stays dark. Use a switch that gives more, or feed one of them by another.`,
      at,
      related: served.map((one) => ({ at: { origin: one.link.link.origin }, message: 'takes its share' })),
    });
  else if (open !== undefined) report.unknown(at, `how much power ${portText(open.near)} wants`);
}
