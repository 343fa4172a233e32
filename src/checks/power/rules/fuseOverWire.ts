import { largestRating } from '../../../vessel/conductors/protection.js';
import { ampacity } from '../../../vessel/conductors/ampacity.js';
import { choicesOf, sizesOf, sizeText } from '../../../vessel/conductors/sizes.js';
import { number } from '../../../vessel/words.js';
import type { Context } from '../../context.js';
import type { Repair } from '../../finding.js';
import { rule } from '../../rule.js';
import type { Fitted } from '../protection/protection.js';
import { ratingsOf } from '../protection/ratings.js';
import { ampsText, fittedSpot, fittedText, protectionText } from './text.js';

/** `power/fuse-over-wire`: rating over 150 % of ampacity (33 CFR 183.455, ABYC E-11) or 100 % (ISO 13297, from memory). */
export const fuseOverWire = rule(
  {
    code: 'power/fuse-over-wire',
    severities: ['error'],
    summary: 'A fuse or breaker is larger than its wire allows.',
    waivable: false,
  },
  (context, report) => {
    const { supply, protection, vessel } = context;
    for (const edge of supply.edges) {
      const { size, conductor, devices } = edge;
      if (size === undefined || conductor.cranking || devices.length === 0) continue;
      const limit = protection.wireLimitOf(edge);
      if (limit?.amps === undefined || limit.ampacityAmps === undefined || vessel.practice === undefined) {
        report.unknown(
          { origin: edge.origin },
          limit?.missing ?? `the ampacity of ${edge.text} is not known`,
        );
        continue;
      }
      for (const device of devices) {
        if (device.amps === undefined || device.amps <= limit.amps * (1 + 1e-9)) continue;
        const { laying } = protection.layingOf(edge);
        const where = [
          laying === undefined ? '' : ` at ${number(laying.ratedCelsius, 0)} C`,
          laying?.engineSpace === true ? ', in an engine space' : '',
          laying !== undefined && laying.loadedConductors > 2
            ? `, among ${laying.loadedConductors} loaded conductors in one bundle,`
            : '',
        ].join('');
        report.find({
          message: `${fittedText(device)} is over what the wire of ${edge.text} allows: ${sizeText(size)}${where} carries ${ampsText(limit.ampacityAmps)}, and a device may have ${vessel.practice === 'abyc' ? '150 %' : '100 %'} of that, ${ampsText(limit.amps)}. The wire burns before the device opens. Use a thicker wire or a smaller rating.`,
          at: fittedSpot({ edge, device }),
          repairs: repairsOf(context, { edge, device }, limit.amps),
        });
      }
    }
  },
);

function repairsOf(
  { vessel, protection }: Context,
  { edge, device }: Fitted,
  limit: number,
): readonly Repair[] {
  const repairs: Repair[] = [];
  const { laying } = protection.layingOf(edge);
  const { practice } = vessel;
  const { amps } = device;
  const wire = edge.conductor.wire;
  if (wire !== undefined && laying !== undefined && practice !== undefined && amps !== undefined) {
    const sizes =
      wire.standard === choicesOf(practice)[0]?.standard ? choicesOf(practice) : sizesOf(wire.standard);
    const larger = sizes.find(
      (size) => largestRating(ampacity(size, laying, practice) ?? 0, practice) >= amps,
    );
    if (larger !== undefined)
      repairs.push({
        title: `Use ${sizeText(larger)}`,
        preferred: true,
        change: { kind: 'replace', at: { origin: edge.origin, part: 'size' }, text: sizeText(larger) },
      });
  }
  const smaller = ratingsOf(vessel, device)
    .filter((rating) => rating <= limit)
    .at(-1);
  if (smaller !== undefined)
    repairs.push({
      title: `Use ${device.protection.device} ${ampsText(smaller)}`,
      preferred: repairs.length === 0,
      change: {
        kind: 'replace',
        at: fittedSpot({ edge, device }),
        text: protectionText({ ...device.protection, amps: smaller }),
      },
    });
  return repairs;
}
