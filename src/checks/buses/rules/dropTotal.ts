import { rule } from '../../rule.js';
import { busText, metresText } from './text.js';

/** NMEA 2000, IEC 61162-3. */
const ALL_DROPS_METRES = 78;

/** `bus/drop-total`: all drops of a backbone together are over 78 m. */
export const dropTotal = rule(
  {
    code: 'bus/drop-total',
    severities: ['error'],
    summary: 'All drops of a backbone are over 78 m together.',
  },
  ({ buses }, report) => {
    for (const { bus } of buses) {
      const at = { origin: bus.backbone.origin };
      if (bus.dropKnownMetres > ALL_DROPS_METRES + 1e-9)
        report.find({
          message: `The drops of ${busText(bus)} come to ${metresText(bus.dropKnownMetres)} and may be 78 m together: each loads the data wires, and messages are lost. Lead the backbone nearer to the devices, so that their drops are short.`,
          at,
        });
      else if (bus.dropTotalMetres === undefined) {
        const lacking = bus.tees
          .flatMap((tee) => [tee.drop, ...tee.branches.map((branch) => branch.piece)])
          .find((piece) => piece?.missing !== undefined);
        report.unknown(at, lacking?.missing ?? 'the length of a drop is not known');
      }
    }
  },
);
