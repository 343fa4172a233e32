import { farthestMetres } from '../../../vessel/conductors/protection.js';
import type { Practice } from '../../../vessel/model.js';
import { millimetres } from '../../../vessel/words.js';
import type { Context } from '../../context.js';
import { rule, type Report } from '../../rule.js';
import { terminalAt } from '../protection/net.js';
import type { Fitted } from '../protection/protection.js';
import { fittedSpot, fittedText, protectionText } from './text.js';

/**
 * `power/fuse-location`: the stated distance from the source of fault current is over 7 in (33 CFR 183.455), 40 in in a sheath,
 * 72 in in a sheath and straight from a battery (ABYC E-11); 200 mm under ISO 13297 (from memory).
 */
export const fuseLocation = rule(
  {
    code: 'power/fuse-location',
    severities: ['error'],
    summary: 'A fuse or breaker sits too far from the source of fault current.',
  },
  (context, report) => {
    for (const edge of context.supply.edges)
      if (!edge.conductor.cranking)
        for (const device of edge.devices) judge(context, report, { edge, device });
  },
);

const ASKS: Readonly<Record<Practice, string>> = { abyc: '33 CFR 183.455 and ABYC E-11', iso: 'ISO 13297' };

function judge({ vessel, supply, protection }: Context, report: Report, fitted: Fitted): void {
  const { edge, device } = fitted;
  const at = fittedSpot(fitted);
  if (device.elsewhere) {
    report.find({
      message: `${fittedText(device)} is said to be at ${device.protection.at ?? ''}, which is at no end of ${edge.text}: there it protects another conductor. Say at which end it sits.`,
      at,
    });
    return;
  }
  const end = device.end ?? 'from';
  const limit = protection.wireLimitOf(edge)?.amps ?? Infinity;
  const { source } = protection.reach(edge, end, ({ amps }) => amps === undefined || amps <= limit);
  // Where nothing upstream can feed a fault, or something else breaks it first, the distance does not matter.
  if (source === undefined && device.end !== undefined) return;
  if (device.end === undefined || device.afterMetres === undefined) {
    const where =
      device.end === undefined
        ? 'at which end it sits'
        : `how far from ${source?.device ?? 'the source'} it sits`;
    report.unknown(at, `${fittedText(device)} on ${edge.text} does not say ${where}`);
    return;
  }
  if (vessel.practice === undefined) {
    report.unknown(at, `${vessel.name} does not say its practice`);
    return;
  }
  const terminal = terminalAt(edge, end);
  const bank = terminal === undefined ? undefined : supply.bankAt(terminal);
  const farthest = farthestMetres(vessel.practice, {
    sheathed: edge.sheathed,
    fromBattery: bank !== undefined,
  });
  if (device.afterMetres <= farthest + 5e-4) return;
  const roundedMetres = Math.round(farthest * 1000) / 1000;
  const abyc = vessel.practice === 'abyc';
  const inSheath = ` (in a sheath, ${bank === undefined ? '1016 mm' : '1829 mm'})`;
  const sheath = !abyc ? '' : edge.sheathed ? ' in a sheath' : inSheath;
  const place = device.protection.at ?? source?.device ?? edge.fromText;
  report.find({
    message: `${fittedText(device)} sits ${millimetres(device.afterMetres)} from ${place}: the stretch before it has no protection, and ${ASKS[vessel.practice]} ${abyc ? 'allow' : 'allows'} ${millimetres(roundedMetres)}${sheath}. Move it nearer.`,
    at,
    repairs: [
      {
        title: `Say ${millimetres(roundedMetres)}, once it is moved there`,
        preferred: false,
        change: {
          kind: 'replace',
          at,
          text: protectionText({ ...device.protection, afterMetres: roundedMetres }),
        },
      },
    ],
  });
}
