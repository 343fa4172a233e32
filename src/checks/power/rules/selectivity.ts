import { number } from '../../../vessel/words.js';
import { rule } from '../../rule.js';
import { sitsAt } from '../protection/net.js';
import type { Fitted } from '../protection/protection.js';
import { fittedSpot, fittedText } from './text.js';

/** A main must be rated this many times its branch, for the branch to open first: common practice, no source. */
const RATIO = 1.6;

/** `power/selectivity`: a branch device does not open before its main. */
export const selectivity = rule(
  {
    code: 'power/selectivity',
    severities: ['information'],
    summary: 'A branch does not open before its main.',
  },
  ({ supply, protection }, report) => {
    for (const edge of supply.edges) {
      const fed = protection.fedAt(edge);
      if (fed === undefined) continue;
      const upstream = protection.reach(edge, fed, () => true).stoppedAt;
      for (const device of edge.devices) {
        // A device at a load's own end stands behind the one at the start.
        const before: readonly Fitted[] = sitsAt(device, fed)
          ? upstream
          : edge.devices.filter((one) => sitsAt(one, fed)).map((one) => ({ edge, device: one }));
        const main = tightest(before);
        const { amps } = device;
        const most = main?.device.amps;
        if (main === undefined || most === undefined || amps === undefined) continue;
        if (most >= RATIO * amps * (1 - 1e-9)) continue;
        report.find({
          message: `${fittedText(device)} on ${edge.text} is behind ${fittedText(main.device)} of ${main.edge.text}: the main is ${number(most / amps, 2)} times the branch, under 1.6, so a fault on the branch may open the main and darken all it feeds. Use a main of at least ${number(RATIO * amps, 1)} A where its wire allows it, or a smaller branch.`,
          at: fittedSpot({ edge, device }),
          related: [{ at: fittedSpot(main), message: `${fittedText(main.device)} is the main` }],
        });
      }
    }
  },
);

function tightest(all: readonly Fitted[]): Fitted | undefined {
  const rated = all.filter(({ device }) => device.amps !== undefined);
  return [...rated].sort((a, b) => (a.device.amps ?? 0) - (b.device.amps ?? 0))[0];
}
