import { rule } from '../../rule.js';
import { feedingOf } from '../feeding.js';
import { busText, voltsText } from './text.js';

/** The most that a bus may have: NMEA 2000, IEC 61162-3. */
const MOST_VOLTS = 16;

/** `bus/over-voltage`: what feeds a backbone can exceed 16 V. */
export const overVoltage = rule(
  { code: 'bus/over-voltage', severities: ['error'], summary: 'What feeds a backbone can exceed 16 V.' },
  (context, report) => {
    for (const { bus } of context.buses)
      for (const tap of bus.taps) {
        const { system, source, highestVolts, nominalVolts, missing } = feedingOf(context, tap, 0);
        // A class over 12 V is over it at its lowest already.
        const volts =
          highestVolts ?? (nominalVolts !== undefined && nominalVolts > 12 ? nominalVolts : undefined);
        if (volts === undefined) {
          report.unknown({ origin: tap.origin }, missing ?? `the voltage of ${tap.fromText} is not known`);
          continue;
        }
        if (volts <= MOST_VOLTS) continue;
        const bank = system?.banks[0];
        report.find({
          message: `${busText(bus)} is fed from ${tap.fromText} at up to ${voltsText(volts)}${bank === undefined ? '' : ` (${source}${highestVolts === undefined ? '' : ' while it is charged'})`}, and its devices take 16 V at most: they are destroyed, all at once. Feed it through a converter to 12 V.`,
          at: { origin: tap.origin, part: 'from' },
        });
      }
  },
);
