import { listOf } from '../../../vessel/words.js';
import { rule } from '../../rule.js';
import { typesOf } from '../protection/ratings.js';
import { fittedOn, fittedSpot, fittedText, protectionText, voltsText } from './text.js';
import { voltsOn } from '../supply/circuitVolts.js';

/** `power/fuse-voltage`: the voltage rating of a device is under the circuit's (33 CFR 183.455 (d)). */
export const fuseVoltage = rule(
  {
    code: 'power/fuse-voltage',
    severities: ['error'],
    summary: "The voltage rating of a fuse or breaker is under the circuit's.",
  },
  ({ supply, vessel }, report) => {
    for (const fitted of fittedOn(supply.edges)) {
      const { edge, device } = fitted;
      const at = fittedSpot(fitted);
      const volts = voltsOn(supply, edge);
      if (volts === undefined) {
        report.unknown(at, `the voltage of ${edge.text} is not known`);
        continue;
      }
      const rated = device.protection.ratedVolts ?? device.type?.ratedVolts;
      if (rated === undefined) {
        const ratings = typesOf(vessel, device).map((type) => type.ratedVolts);
        const least =
          ratings.length === 0 || ratings.includes(undefined)
            ? undefined
            : Math.min(...ratings.flatMap((one) => one ?? []));
        // Whichever type of fuse it is, it will do.
        if (
          device.protection.device === 'fuse' &&
          device.type === undefined &&
          least !== undefined &&
          volts <= least
        )
          continue;
        report.unknown(at, `${fittedText(device)} on ${edge.text} does not say its voltage rating`);
        continue;
      }
      if (rated >= volts) continue;
      const { amps } = device;
      const fitting = Object.values(vessel.fuseTypes)
        .filter(
          (type) => (type.ratedVolts ?? 0) >= volts && amps !== undefined && type.ratingsAmps.includes(amps),
        )
        .map((type) => type.name);
      const [better] = fitting;
      report.find({
        message: `${fittedText(device)} is rated ${voltsText(rated)}, and ${edge.text} comes to ${voltsText(volts)}: when it opens, the arc may burn on. Use one rated for the circuit${fitting.length === 0 ? '' : `, such as ${listOf(fitting, 'or')}`}.`,
        at,
        repairs:
          better === undefined || device.inWay || device.protection.ratedVolts !== undefined
            ? []
            : [
                {
                  title: `Use ${better}`,
                  preferred: true,
                  change: {
                    kind: 'replace',
                    at,
                    text: protectionText({ ...device.protection, type: better }),
                  },
                },
              ],
      });
    }
  },
);
