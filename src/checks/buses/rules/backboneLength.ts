import { listOf } from '../../../vessel/words.js';
import { rule } from '../../rule.js';
import { reachOf } from '../reach.js';
import { busText, metresText } from './text.js';

/** `bus/backbone-length`: a backbone is longer than its cable is good for. */
export const backboneLength = rule(
  {
    code: 'bus/backbone-length',
    severities: ['error'],
    summary: 'A backbone is longer than its cable is good for.',
  },
  ({ buses }, report) => {
    for (const { bus } of buses) {
      const at = { origin: bus.backbone.origin };
      const reach = reachOf(bus);
      if ('missing' in reach) {
        report.unknown(at, reach.missing);
        continue;
      }
      if (reach.share <= 1 + 1e-9) continue;
      const limits = new Map(
        bus.spans.flatMap(({ piece }) =>
          piece.cable === undefined ? [] : [[piece.cable.name, piece.cable.longestMetres ?? 0] as const],
        ),
      );
      const limit =
        limits.size === 1
          ? `${[...limits.keys()].join('')} is good for ${metresText([...limits.values()][0] ?? 0)}`
          : `its cables are good for ${listOf([...limits].map(([name, longest]) => `${metresText(longest)} (${name})`))}, so that it takes up ${Math.round(reach.share * 100)} % of what they allow`;
      const drop =
        reach.beyond === undefined
          ? ''
          : `, the drop of ${reach.beyond} included, which reaches further than the backbone goes on behind its tee`;
      report.find({
        message: `${busText(bus)} is ${metresText(reach.metres)} long${drop}, and ${limit}: beyond that devices at its ends no longer agree in time on who may send, and messages are lost. Use a heavier cable, or part it in two with a gateway.`,
        at,
      });
    }
  },
);
