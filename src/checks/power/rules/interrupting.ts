import { breakerInterrupts } from '../../../vessel/conductors/protection.js';
import { compareText, listOf, number } from '../../../vessel/words.js';
import type { Context } from '../../context.js';
import { rule, type Report } from '../../rule.js';
import { endsOf, sitsAt, terminalAt } from '../protection/net.js';
import type { Fitted } from '../protection/protection.js';
import { systemOn, voltsOn } from '../supply/circuitVolts.js';
import { prospectiveAt, type Prospective } from '../protection/prospective.js';
import { interruptsAt, typesOf } from '../protection/ratings.js';
import { fittedSpot, fittedText, protectionText } from './text.js';

/**
 * `power/interrupting`: the prospective current at a device exceeds what it can interrupt. Breakers under abyc: the older table
 * of ABYC E-11 by the bank's cold cranking amperes. Wires and fuses left to the tool count as worked out where that is enough.
 * What is not known for many ways of one panel is said once.
 */
export const interrupting = rule(
  {
    code: 'power/interrupting',
    severities: ['warning'],
    summary: 'More current can flow at a fuse or breaker than it can interrupt.',
  },
  (context, report) => {
    const told = new Set<string>();
    const edges = [...context.supply.edges].sort((x, y) => compareText(x.origin, y.origin));
    for (const edge of edges)
      for (const { device } of context.sizing.of(edge).protection)
        judge(context, report, { edge, device }, told);
  },
);

function judge(context: Context, report: Report, fitted: Fitted, told: Set<string>): void {
  const { edge, device } = fitted;
  const at = fittedSpot(fitted);
  const end = endsOf(edge).find((one) => sitsAt(device, one)) ?? 'from';
  // With the wires that are worked out it may be enough; what is too much has to rest on wires that are said to be fitted.
  const found = {
    ...prospectiveAt(context, edge, end, context.sizing.sizeOf),
    bound: prospectiveAt(context, edge, end).bound,
  };
  if (found.banks.length === 0) return;
  const terminal = terminalAt(edge, end);
  const place = terminal === undefined ? undefined : context.supply.terminals.get(terminal);
  const key = place?.kind === 'port' ? place.device : edge.origin;
  const unknown = (missing: string): void => {
    if (told.has(`${key}\n${missing}`)) return;
    told.add(`${key}\n${missing}`);
    report.unknown(at, missing);
  };
  if (device.protection.device === 'breaker') breaker(context, report, fitted, found, unknown);
  else fuse(context, report, fitted, found, unknown);
}

type Tell = (missing: string) => void;

function fuse(context: Context, report: Report, fitted: Fitted, found: Prospective, unknown: Tell): void {
  const { edge, device } = fitted;
  // Types state what they interrupt for systems of a class: 14 V stands for 12 V, and a bank at rest is no higher.
  const volts = systemOn(context.supply, edge)?.nominalVolts ?? voltsOn(context.supply, edge);
  const stated = device.protection.interruptsAmps;
  if (found.amps === undefined || (stated === undefined && volts === undefined)) {
    unknown(found.missing ?? `the voltage of ${edge.text} is not known`);
    return;
  }
  const types = typesOf(context.vessel, device);
  const capacities = types.map((type) => interruptsAt(type, volts ?? 0));
  const least =
    stated ??
    (capacities.includes(undefined) ? undefined : Math.min(...capacities.flatMap((one) => one ?? [])));
  if (least !== undefined && Number.isFinite(least) && found.amps <= least * (1 + 1e-9)) return;
  if (stated === undefined && device.type === undefined) {
    unknown(
      `${fittedText(device)} on ${edge.text} does not say its type, and up to ${number(found.amps / 1000, 1)} kA can flow there`,
    );
    return;
  }
  if (least === undefined || !Number.isFinite(least)) {
    unknown(
      `${device.type?.name ?? 'the fuse'} does not say what it interrupts at the voltage of ${edge.text}`,
    );
    return;
  }
  if (found.bound !== undefined) {
    unknown(`how much current a short circuit draws there is not known: ${found.bound}`);
    return;
  }
  const better = Object.values(context.vessel.fuseTypes).filter(
    (type) =>
      (interruptsAt(type, volts ?? 0) ?? 0) >= (found.amps ?? 0) &&
      device.amps !== undefined &&
      type.ratingsAmps.includes(device.amps),
  );
  const [best] = better;
  report.find({
    message: `${fittedText(device)} interrupts ${kiloText(least)}, and a short circuit there draws ${kiloText(found.amps)} from ${listOf(found.banks.map((bank) => bank.device))}: it may burst and not open. ${
      best === undefined
        ? `Use a type that interrupts it, or put one nearer to the battery`
        : `Use ${listOf(
            better.map((type) => type.name),
            'or',
          )}`
    }.`,
    at: fittedSpot(fitted),
    repairs:
      best === undefined || device.inWay || device.index < 0 || stated !== undefined
        ? []
        : [
            {
              title: `Use ${best.name}`,
              preferred: true,
              change: {
                kind: 'replace',
                at: fittedSpot(fitted),
                text: protectionText({ ...device.protection, type: best.name }),
              },
            },
          ],
  });
}

function breaker(context: Context, report: Report, fitted: Fitted, found: Prospective, unknown: Tell): void {
  const { edge, device } = fitted;
  const stated = device.protection.interruptsAmps;
  const { practice } = context.vessel;
  const cca = found.banks.reduce<number | undefined>(
    (total, bank) => (total === undefined || bank.ccaAmps === undefined ? undefined : total + bank.ccaAmps),
    0,
  );
  const end = device.end ?? 'from';
  const main = context.sizing.protection.reach(edge, end, () => true).stoppedAt.length === 0;
  const byTable = practice === 'abyc' && cca !== undefined;
  const asked = byTable ? breakerInterrupts(cca, main) : found.amps;
  if (asked === undefined) {
    unknown(found.missing ?? `how much current a short circuit draws on ${edge.text} is not known`);
    return;
  }
  if (stated === undefined) {
    unknown(`${fittedText(device)} on ${edge.text} does not say what it interrupts`);
    return;
  }
  if (stated >= asked) return;
  if (!byTable && found.bound !== undefined) {
    unknown(`how much current a short circuit draws there is not known: ${found.bound}`);
    return;
  }
  report.find({
    message: `${fittedText(device)} interrupts ${kiloText(stated)}, and ${byTable ? `ABYC E-11 asks ${kiloText(asked)} of a ${main ? 'main' : 'branch'} breaker on ${number(cca, 0)} CCA` : `a short circuit there draws ${kiloText(asked)}`}: its contacts may weld. Use one that interrupts as much.`,
    at: fittedSpot(fitted),
  });
}

const kiloText = (amps: number): string =>
  amps < 1000 ? `${number(amps, 0)} A` : `${number(amps / 1000, 1)} kA`;
