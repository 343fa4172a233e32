import { listOf } from '../../../vessel/words.js';
import type { Repair } from '../../finding.js';
import { rule } from '../../rule.js';
import { busText } from './text.js';

/** `bus/power`: a stretch of a backbone has no tap, or two with no isolation between. */
export const power = rule(
  {
    code: 'bus/power',
    severities: ['error'],
    summary: 'A backbone has no tap, or two with no isolation between.',
  },
  ({ buses, vessel }, report) => {
    const suppliesLeftOut = vessel.feeds.length === 0 && buses.every(({ bus }) => bus.taps.length === 0);
    for (const { bus } of buses) {
      for (const stretch of bus.stretches) {
        const [first, second] = stretch.taps;
        const part =
          bus.stretches.length > 1 ? `stretch ${stretch.number + 1} of ${busText(bus)}` : busText(bus);
        if (first === undefined) {
          if (stretch.nodes.length === 0) continue;
          // As with devices: a spec without any supply leaves it out, and is told so.
          if (suppliesLeftOut) {
            report.unknown(
              { origin: bus.backbone.origin },
              `no feed is declared, and nothing says what feeds ${part}`,
            );
            continue;
          }
          const names = listOf(
            stretch.nodes.map((node) => node.device),
            'and',
            4,
          );
          const isolation = bus.isolations[stretch.number - 1] ?? bus.isolations[stretch.number];
          report.find({
            message: `Nothing feeds ${part}: ${names} ${stretch.nodes.length === 1 ? 'stays' : 'stay'} dark, those with a supply of their own included, since the bus side of every device lives on the bus. Add "tap from ..." with its fuse${isolation === undefined ? '' : ', or take out the isolation'}.`,
            at: { origin: isolation?.origin ?? bus.backbone.origin },
          });
        } else if (second !== undefined) {
          const apart = second.point > first.point;
          const span = stretch.spans.find((one) => one.point === second.point - 1);
          const repairs: Repair[] = [
            ...(apart && span !== undefined
              ? [
                  {
                    title: 'Isolate the two supplies from each other',
                    preferred: true,
                    change: { kind: 'precede', before: { origin: second.origin }, text: 'isolate' } as const,
                  },
                ]
              : []),
            {
              title: `Remove the tap from ${second.fromText}`,
              preferred: !apart,
              change: { kind: 'remove', at: { origin: second.origin } },
            },
          ];
          report.find({
            message: `${part} is fed from ${listOf(stretch.taps.map((tap) => tap.fromText))} with no isolation between: a current flows from one supply into the other through the bus cable, and a fault is fed from both. Put "isolate" between them, so that each feeds its own part, or keep one.`,
            at: { origin: second.origin },
            related: [{ at: { origin: first.origin }, message: `${first.fromText} feeds it too` }],
            repairs,
          });
        }
      }
    }
  },
);
