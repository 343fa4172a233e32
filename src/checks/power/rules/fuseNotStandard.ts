import { listOf, number } from '../../../vessel/words.js';
import { own } from '../../../vessel/lookup.js';
import { rule } from '../../rule.js';
import { ratingsOf } from '../protection/ratings.js';
import { ampsText, fittedOn, fittedSpot, fittedText, protectionText } from './text.js';

/** `power/fuse-not-standard`: a rating that is not sold, or a type that the way's holder does not take. */
export const fuseNotStandard = rule(
  {
    code: 'power/fuse-not-standard',
    severities: ['warning'],
    summary:
      'A rating of a fuse or breaker is not one that is sold, or its type does not go into the holder.',
  },
  ({ supply, vessel }, report) => {
    for (const fitted of fittedOn(supply.edges)) {
      const { edge, device } = fitted;
      const { amps, protection } = device;
      const at = fittedSpot(fitted);
      const way = edge.from === undefined ? undefined : supply.terminals.get(edge.from);
      const holds = way?.kind === 'port' && device.inWay ? (way.port.dc?.holds ?? []) : [];
      if (protection.type !== undefined && holds.length > 0 && !holds.includes(protection.type)) {
        report.find({
          message: `${fittedText(device)} does not go into ${way?.id ?? 'the way'}, whose holder takes ${listOf(holds, 'or')}. Use that type, or say where else it sits with "at".`,
          at,
          repairs: holds
            .filter((name) => amps !== undefined && own(vessel.fuseTypes, name)?.ratingsAmps.includes(amps))
            .map((name, index) => ({
              title: `Use ${name}`,
              preferred: index === 0,
              change: { kind: 'replace' as const, at, text: protectionText({ ...protection, type: name }) },
            })),
        });
        continue;
      }
      if (amps === undefined) continue;
      const ratings = ratingsOf(vessel, device);
      if (ratings.length === 0 || ratings.includes(amps)) continue;
      const below = ratings.filter((rating) => rating < amps).at(-1);
      const above = ratings.find((rating) => rating > amps);
      const nearest =
        below === undefined || (above !== undefined && above - amps < amps - below) ? above : below;
      const around = [below, above].flatMap((rating) =>
        rating === undefined ? [] : [`${number(rating, 1)} A`],
      );
      const what =
        device.type !== undefined
          ? `no ${device.type.name} fuse is`
          : `no ${protection.device}${protection.device === 'fuse' ? ' of any type' : ''} is commonly`;
      report.find({
        message: `${fittedText(device)} on ${edge.text} has a rating in which ${what} sold: nobody can buy a spare. Use ${listOf(around, 'or')}.`,
        at,
        repairs: [below, above].flatMap((rating) =>
          rating === undefined
            ? []
            : [
                {
                  title: `Use ${ampsText(rating)}`,
                  preferred: rating === nearest,
                  change: {
                    kind: 'replace' as const,
                    at,
                    text: protectionText({ ...protection, amps: rating }),
                  },
                },
              ],
        ),
      });
    }
  },
);
