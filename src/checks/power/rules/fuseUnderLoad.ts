import { chooseRating } from '../../../vessel/conductors/protection.js';
import { number } from '../../../vessel/words.js';
import type { Context } from '../../context.js';
import type { Repair } from '../../finding.js';
import { rule } from '../../rule.js';
import { consumerAt } from '../loads/consumers.js';
import { ratingsOf } from '../protection/ratings.js';
import type { PlacedDevice, SupplyEdge } from '../supply/graph.js';
import { ampsText, fittedSpot, fittedText, protectionText } from './text.js';

/** Continuous load over the rating that a fuse carries without ageing: common practice, no source. */
const CONTINUOUS_SHARE = 0.8;

/**
 * `power/fuse-under-load`: a continuous load over 80 % of the rating, or a maximum over the whole of it. Common practice, no
 * source. Silent at the fuse that the device's maker states.
 */
export const fuseUnderLoad = rule(
  {
    code: 'power/fuse-under-load',
    severities: ['warning'],
    summary: 'A fuse or breaker is too small for its load.',
  },
  (context, report) => {
    const { supply, sizing } = context;
    for (const edge of supply.edges) {
      if (edge.conductor.cranking || edge.devices.length === 0) continue;
      const sized = sizing.of(edge);
      for (const device of edge.devices) {
        const { amps, end } = device;
        if (amps === undefined) continue;
        const at = fittedSpot({ edge, device });
        const legs = typeof end === 'number' ? edge.legs.filter((leg) => leg.index === end) : edge.legs;
        const missing = legs
          .map((leg) => sizing.flowOf(edge, leg.index).missing)
          .find((one) => one !== undefined);
        if (missing !== undefined) {
          report.unknown(at, missing);
          continue;
        }
        const whole = typeof end !== 'number' || edge.legs.length === 1;
        const { typicalAmps, maxAmps } = whole ? sized : sizing.flowOf(edge, end);
        const makers = legs.map((leg) => consumerAt(supply, leg.to)?.port.dc?.fuseAmps);
        if (makers.length === 1 && makers[0] === amps) continue;
        const short = maxAmps > amps * (1 + 1e-9);
        const aged = typicalAmps > CONTINUOUS_SHARE * amps * (1 + 1e-9);
        if (!short && !aged) continue;
        const asked = Math.max(maxAmps, typicalAmps / CONTINUOUS_SHARE);
        report.find({
          message: `${fittedText(device)} on ${edge.text} is too small: ${short ? `up to ${ampsText(maxAmps)} flow through it, and it opens in use` : `${ampsText(typicalAmps)} flow through it for long, over 80 % of its rating, and it ages until it opens for no reason`}. It asks for at least ${number(asked, 1)} A; use the next rating that wire and device allow.`,
          at,
          repairs: repairsOf(context, edge, device, { continuousAmps: typicalAmps, maxAmps }, makers),
        });
      }
    }
  },
);

function repairsOf(
  { vessel, sizing }: Context,
  edge: SupplyEdge,
  device: PlacedDevice,
  load: { readonly continuousAmps: number; readonly maxAmps: number },
  makers: readonly (number | undefined)[],
): readonly Repair[] {
  const limit = sizing.protection.wireLimitOf(edge)?.amps;
  const stated = makers.flatMap((amps) => amps ?? []);
  const amps = chooseRating(ratingsOf(vessel, device), {
    ...load,
    wireLimitAmps: Math.min(limit ?? Infinity, ...(makers.length > 1 ? stated : [])),
    deviceLimitAmps: makers.length === 1 ? stated[0] : undefined,
  });
  if (amps === undefined) return [];
  return [
    {
      title: `Use ${device.protection.device} ${ampsText(amps)}`,
      preferred: true,
      change: {
        kind: 'replace',
        at: fittedSpot({ edge, device }),
        text: protectionText({ ...device.protection, amps }),
      },
    },
  ];
}
