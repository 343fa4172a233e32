import type { Interval } from '../../../vessel/model.js';
import { listOf, number } from '../../../vessel/words.js';
import { rule } from '../../rule.js';
import { commonBand, findSoundings, type Sounding } from '../sounding.js';

/** Partners named for one transducer; a longer list says no more. */
const NAMED = 4;

/**
 * `sonar/same-band`: two transducers of different hosts overlap in band, are on in one mode and not synchronised, so that
 * each draws the other's pings. One host times its own transducers. Common practice, no source.
 */
export const sameBand = rule(
  {
    code: 'sonar/same-band',
    severities: ['warning'],
    summary: 'Two transducers of different hosts work in one band and are not synchronised.',
  },
  (context, report) => {
    const { list, synced, together } = findSoundings(context);
    const hosts = new Set(list.map((one) => one.host));
    if (hosts.size < 2) return;
    const sorted = list.filter((one) => one.bands.length > 0);
    for (const one of list) {
      if (one.bands.length === 0)
        report.unknown({ origin: one.origin }, `the model of ${one.device} has no band`);
    }
    sorted.forEach((one, index) => {
      const partners: { readonly other: Sounding; readonly band: Interval }[] = [];
      for (let at = index + 1; at < sorted.length && partners.length < NAMED; at += 1) {
        const other = sorted[at];
        if (other === undefined || other.host === one.host || !together(one, other)) continue;
        const band = commonBand(one.bands, other.bands);
        if (band !== undefined && !synced(one, other)) partners.push({ other, band });
      }
      const [first] = partners;
      if (first === undefined) return;
      const names = listOf(partners.map(({ other }) => `${other.device} (on ${other.host})`));
      report.find({
        message: `${one.device} (on ${one.host}) and ${names} both work at ${bandText(first.band)} and are on together, so each draws the other's pings as clutter. Write "synced with ${first.other.device}" in the block of ${one.device} if they are synchronised, set one to another band, or use them in turn.`,
        at: { origin: one.origin },
        related: partners.map(({ other, band }) => ({
          at: { origin: other.origin },
          message: `${other.device} works at ${bandText(band)} too`,
        })),
      });
    });
  },
);

/** A band in kilohertz. */
function bandText({ low, high }: Interval): string {
  return low === high ? `${number(low / 1000)} kHz` : `${number(low / 1000)}..${number(high / 1000)} kHz`;
}
