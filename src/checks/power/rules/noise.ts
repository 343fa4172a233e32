import { runText } from '../../../vessel/routes.js';
import type { Medium } from '../../../vessel/model.js';
import { mediumText } from '../../../vessel/mediumText.js';
import { count, listOf } from '../../../vessel/words.js';
import { rule } from '../../rule.js';
import type { SupplyEdge, SupplyGraph } from '../supply/graph.js';
import { consumerAt } from '../loads/consumers.js';

/** Cables that pick disturbance up. */
const DELICATE: ReadonlySet<Medium> = new Set<Medium>(['transducer', 'video', 'coax']);
/** Kinds of load that disturb. A small pump's motor does not run long enough to be told. */
const NOISY: ReadonlySet<string> = new Set(['motor', 'thruster', 'pilotdrive', 'trolling']);

/** `cable/noise`: a transducer, video or antenna cable shares a conduit or loom with a disturbing feed. Common practice, no source. */
export const noise = rule(
  {
    code: 'cable/noise',
    severities: ['warning'],
    summary: 'A transducer, video or antenna cable shares a conduit or loom with the feed of a motor.',
  },
  ({ supply, cables }, report) => {
    for (const { wired, runs, link, id } of cables) {
      if (wired.state === 'refused' || wired.medium === undefined || !DELICATE.has(wired.medium)) continue;
      const near = new Map<SupplyEdge, string>();
      const shared: string[] = [];
      for (const run of runs) {
        if (!run.conduit && !run.loom) continue;
        for (const edge of supply.sharing(run)) {
          const loads = disturbers(supply, edge, (leg) => edge.legs[leg]?.bundles.includes(run) === true);
          if (loads.length === 0) continue;
          near.set(edge, listOf(loads));
          const text = `${run.conduit ? 'conduit' : 'loom'} ${runText(run)}`;
          if (!shared.includes(text)) shared.push(text);
        }
      }
      if (near.size === 0) continue;
      report.find({
        message: `the ${mediumText(wired.medium)} cable ${id.replace('--', ' -- ')} lies in ${listOf(shared)} with the ${near.size === 1 ? 'feed' : count(near.size, 'feed')} of ${listOf([...new Set(near.values())], 'and', 4)}: motors and inverters disturb the picture or the reception. Keep 0.3 m between them: lead one of them another way with "by".`,
        at: { origin: link.origin },
        related: [...near]
          .slice(0, 6)
          .map(([edge]) => ({ at: { origin: edge.origin }, message: `${edge.text} lies beside it` })),
      });
    }
  },
);

/** What a conductor feeds that disturbs its neighbours. */
function disturbers(
  supply: SupplyGraph,
  edge: SupplyEdge,
  lies: (leg: number) => boolean,
): readonly string[] {
  return edge.legs.flatMap((leg) => {
    const load = consumerAt(supply, leg.to);
    if (load === undefined || !lies(leg.index)) return [];
    const { model, device } = load;
    const noisy = model.class === 'inverter' || model.class === 'pilot' || NOISY.has(model.kind ?? '');
    return noisy ? [device] : [];
  });
}
