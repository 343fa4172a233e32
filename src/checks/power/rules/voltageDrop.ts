import { sizeText } from '../../../vessel/conductors/sizes.js';
import { metres, number } from '../../../vessel/words.js';
import { rule } from '../../rule.js';
import { lostVolts, type Drop } from '../sizing/drops.js';
import { legLimit, type DropLimit } from '../sizing/limits.js';
import { wireRepairs } from './ampacity.js';
import { ampsText } from './text.js';

/**
 * `power/voltage-drop`: more is lost on the way from the source than the practice allows: 3 % for what is critical, 10 % for the
 * rest (ABYC E-11 11.14.2.6, ISO 13297), or the model's `maxdrop`.
 */
export const voltageDrop = rule(
  {
    code: 'power/voltage-drop',
    severities: ['warning'],
    summary: 'More voltage is lost on the way to a device than the practice allows.',
  },
  ({ supply, sizing, vessel }, report) => {
    const { practice } = vessel;
    for (const edge of supply.edges) {
      if (edge.conductor.cranking) continue;
      const at = { origin: edge.origin };
      if (practice === undefined) {
        report.unknown(at, `${vessel.name} does not say its practice`);
        continue;
      }
      const sized = sizing.of(edge);
      const { none } = sized.wire;
      if (none?.by === 'drop') {
        report.find({
          message: `No conductor suffices for ${edge.text}: over ${lengthsText(edge.legs.map((leg) => leg.lengthMetres))} and at ${ampsText(sized.maxAmps)}, ${none.largest === undefined ? 'every one' : `even ${sizeText(none.largest)}`} loses more than is allowed, what is lost before it counted. Use a larger wire before it, a shorter way, or a higher voltage.`,
          at,
        });
        continue;
      }
      for (const leg of edge.legs) {
        const limit = legLimit(supply, edge, leg.index, practice);
        if (limit === undefined) continue;
        const drop = sizing.dropOf(edge, leg.index);
        const lost = lostVolts(drop);
        if (lost === undefined || drop.nominalVolts === undefined) {
          report.unknown(at, drop.missing ?? `what is lost on ${edge.text} is not known`);
          continue;
        }
        if (lost <= limit.share * drop.nominalVolts * (1 + 1e-9)) continue;
        const better = sizing.advised(edge);
        const larger =
          better !== undefined &&
          sized.wire.size !== undefined &&
          sizeText(better) !== sizeText(sized.wire.size);
        report.find({
          message: `${leg.text} loses ${voltsText(lost)}, ${percentText(lost, drop)} of ${number(drop.nominalVolts, 0)} V, and ${limitText(limit, drop)}: ${partsText(edge.text, drop)}${drop.mode === undefined ? '' : `, in mode ${drop.mode.name}`}. It may restart or fail when the battery is low. ${larger ? `Use at least ${sizeText(better)}` : 'Use a larger wire before it'}, or a shorter way.`,
          at: edge.conductor.wire === undefined ? at : { origin: edge.origin, part: 'size' },
          repairs: larger ? wireRepairs(sized, better) : [],
        });
      }
    }
  },
);

const voltsText = (volts: number): string => `${number(volts, 2)} V`;

function percentText(volts: number, { nominalVolts }: Drop): string {
  return `${number((100 * volts) / (nominalVolts ?? volts), 1)} %`;
}

function limitText({ share, by }: DropLimit, drop: Drop): string {
  const most = `${number(share * 100, 1)} %, ${voltsText(share * (drop.nominalVolts ?? 0))}`;
  return by === 'model' ? `its model stands ${most}` : `the practice allows ${most}`;
}

function partsText(text: string, { ownVolts, upstreamVolts, amps }: Drop): string {
  return `${voltsText(ownVolts ?? 0)} on ${text} at ${ampsText(amps)}, ${voltsText(upstreamVolts ?? 0)} before it`;
}

function lengthsText(lengths: readonly (number | undefined)[]): string {
  return metres(Math.max(0, ...lengths.map((length) => length ?? 0)));
}
