import { count } from '../../../vessel/words.js';
import type { Repair } from '../../finding.js';
import { rule } from '../../rule.js';
import type { Bus, Mark } from '../bus.js';
import { busText, metresText } from './text.js';

/** So far from a tap the drain still counts as earthed at the supply: common practice, no source. */
const NEAR_METRES = 1;

/** `bus/ground`: the drain is earthed at other than exactly one place, that of the supply. NMEA 2000. */
export const ground = rule(
  {
    code: 'bus/ground',
    severities: ['warning'],
    summary: 'The drain of a backbone is earthed elsewhere than at the one place of its supply.',
  },
  ({ buses }, report) => {
    for (const { bus } of buses) {
      const [first, second] = bus.grounds;
      if (first === undefined) {
        if (bus.nodes.length > 0)
          report.unknown(
            { origin: bus.backbone.origin },
            `${busText(bus)} does not say where its drain is earthed ("ground")`,
          );
        continue;
      }
      if (second !== undefined) {
        report.find({
          message: `The drain of ${busText(bus)} is earthed at ${count(bus.grounds.length, 'place')}: what the hull and the batteries carry between them flows through the screen and disturbs the data. Earth it at one place, the supply's.`,
          at: { origin: second.origin },
          related: [{ at: { origin: first.origin }, message: 'it is earthed here too' }],
          repairs: [
            {
              title: 'Remove this earth',
              preferred: true,
              change: { kind: 'remove', at: { origin: second.origin } },
            },
          ],
        });
        continue;
      }
      const away = fromTap(bus, first);
      if (away === undefined || away <= NEAR_METRES + 1e-9) continue;
      report.find({
        message: `The drain of ${busText(bus)} is earthed ${metresText(away)} from its supply: a current flows in the screen between the two, and disturbs the data. Earth it where the tap is.`,
        at: { origin: first.origin },
        repairs: beside(bus, first),
      });
    }
  },
);

/** Metres to the nearest tap; undefined where there is none or a length is not known. */
function fromTap(bus: Bus, mark: Mark): number | undefined {
  const ways = bus.taps.map((tap) =>
    tap.point === mark.point
      ? 0
      : tap.atMetres === undefined || mark.atMetres === undefined
        ? undefined
        : Math.abs(tap.atMetres - mark.atMetres),
  );
  if (ways.length === 0) return undefined;
  const known = ways.filter((way) => way !== undefined);
  const nearest = Math.min(...known);
  return known.length < ways.length && !(nearest <= NEAR_METRES) ? undefined : nearest;
}

function beside(bus: Bus, mark: Mark): readonly Repair[] {
  const [tap] = bus.taps;
  return tap === undefined
    ? []
    : [
        {
          title: 'Earth it at the tap',
          preferred: true,
          change: { kind: 'move', at: { origin: mark.origin }, after: { origin: tap.origin } },
        },
      ];
}
