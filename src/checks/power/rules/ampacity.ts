import { sizeText } from '../../../vessel/conductors/sizes.js';
import { number } from '../../../vessel/words.js';
import type { Context } from '../../context.js';
import type { Repair } from '../../finding.js';
import { rule } from '../../rule.js';
import type { SizedEdge } from '../sizing/sizing.js';
import type { SupplyEdge } from '../supply/graph.js';
import { ampsText } from './text.js';

/**
 * `power/ampacity`: a conductor carries more than its ampacity at its insulation, place and bundle (33 CFR 183.425, ABYC E-11;
 * ISO 13297). A starter's seconds do not count.
 */
export const ampacity = rule(
  {
    code: 'power/ampacity',
    severities: ['error'],
    summary: 'A wire carries more than its ampacity.',
  },
  (context, report) => {
    const { supply, sizing } = context;
    for (const edge of supply.edges) {
      const sized = sizing.of(edge);
      const at = { origin: edge.origin, part: edge.conductor.wire === undefined ? 'cable' : 'size' };
      const { none } = sized.wire;
      if (none?.by === 'ampacity' || none?.by === 'fuse') {
        report.find({
          message: `No conductor suffices for ${edge.text}: ${none.by === 'fuse' ? 'none may have its fuse' : `it carries ${ampsText(sized.maxAmps)}${layingText(context, edge)}, more than ${none.largest === undefined ? 'any' : sizeText(none.largest)} does`}. Share the load out over several feeds, or use a higher voltage.`,
          at: { origin: edge.origin },
        });
        continue;
      }
      const silent = edge.legs.find((leg) => sizing.flowOf(edge, leg.index).missing !== undefined);
      const over = edge.legs.find(
        (leg) => sizing.flowOf(edge, leg.index).maxAmps > (sized.ampacityAmps ?? Infinity) * (1 + 1e-9),
      );
      if (over !== undefined && sized.wire.size !== undefined && sized.ampacityAmps !== undefined) {
        const { maxAmps, chargeAmps } = sizing.flowOf(edge, over.index);
        const better = sizing.advised(edge);
        report.find({
          message: `${sizeText(sized.wire.size)} on ${edge.text} carries ${ampsText(sized.ampacityAmps)}${layingText(context, edge)}, and ${chargeAmps >= maxAmps ? 'charging brings' : 'its load draws'} up to ${ampsText(maxAmps)}: its insulation softens and ages until it fails. ${better === undefined ? 'Share the load out' : `Use at least ${sizeText(better)}`}${sized.edge.legs.length > 1 ? ' on each leg' : ''}.`,
          at,
          repairs: wireRepairs(sized, better),
        });
        continue;
      }
      if (edge.conductor.cranking && sized.wire.size !== undefined) continue;
      const missing =
        (silent === undefined ? undefined : sizing.flowOf(edge, silent.index).missing) ?? sized.missing;
      if (missing !== undefined) report.unknown({ origin: edge.origin }, missing);
      else if (sized.ampacityAmps === undefined && sized.wire.size !== undefined)
        report.unknown(at, `no ampacity is known for ${sizeText(sized.wire.size)} as it lies`);
    }
  },
);

/** The larger wire in place of the one that is written at the feed. */
export function wireRepairs({ edge }: SizedEdge, better: SizedEdge['wire']['size']): readonly Repair[] {
  if (better === undefined || edge.conductor.wire === undefined) return [];
  return [
    {
      title: `Use ${sizeText(better)}`,
      preferred: true,
      change: { kind: 'replace', at: { origin: edge.origin, part: 'size' }, text: sizeText(better) },
    },
  ];
}

function layingText({ protection }: Context, edge: SupplyEdge): string {
  const { laying } = protection.layingOf(edge);
  if (laying === undefined) return '';
  const bundle = laying.loadedConductors > 2 ? ` among ${laying.loadedConductors} loaded conductors` : '';
  return ` at ${number(laying.ratedCelsius, 0)} C${laying.engineSpace ? ' in an engine space' : ''}${bundle}`;
}
