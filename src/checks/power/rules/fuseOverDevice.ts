import { number } from '../../../vessel/words.js';
import type { Context } from '../../context.js';
import type { Repair } from '../../finding.js';
import { rule } from '../../rule.js';
import { sitsAt } from '../protection/net.js';
import type { Fitted } from '../protection/protection.js';
import type { Leg, SupplyEdge } from '../supply/graph.js';
import { consumerLegs } from '../loads/consumers.js';
import { ratingsOf } from '../protection/ratings.js';
import { ampsText, fittedSpot, fittedText, protectionText } from './text.js';

/** `power/fuse-over-device`: what protects a device is rated over what its maker allows. */
export const fuseOverDevice = rule(
  {
    code: 'power/fuse-over-device',
    severities: ['error'],
    summary: "A fuse or breaker is larger than the device's maker allows.",
  },
  (context, report) => {
    for (const { edge, leg, consumer } of consumerLegs(context.supply)) {
      const most = consumer.port.dc?.fuseAmps;
      if (most === undefined) continue;
      const least = smallest(guarding(context, edge, leg));
      const amps = least?.device.amps;
      if (least === undefined || amps === undefined || amps <= most) continue;
      const own = least.edge === edge;
      const shared = edge.legs.length > 1;
      report.find({
        message: `${fittedText(least.device)}${own ? '' : ` of ${least.edge.text}`} protects ${consumer.device}, whose maker allows ${ampsText(most)}: a fault inside it burns before the ${least.device.protection.device} opens. ${shared || !own ? `Give it one of its own, "fuse ${ampsText(most)} at ${consumer.device}".` : `Use ${ampsText(most)}.`}`,
        at: own ? fittedSpot(least) : { origin: edge.origin },
        related: [
          {
            at: { origin: consumer.model.origin, part: `port ${consumer.port.name}` },
            message: `${consumer.model.name} is to have a fuse of ${ampsText(most)}`,
          },
        ],
        repairs: repairsOf(context, least, edge, consumer.device, most),
      });
    }
  },
);

/** The devices that stand nearest before a leg's end, on its own conductor or upstream of it. */
function guarding({ protection }: Context, edge: SupplyEdge, leg: Leg): readonly Fitted[] {
  const on = (end: 'from' | number): readonly Fitted[] =>
    edge.devices.filter((device) => sitsAt(device, end)).map((device) => ({ edge, device }));
  const own = [...on(leg.index), ...on('from')];
  if (own.length > 0) return own;
  // A conductor that says nothing gets its fuse from the tool.
  if (!edge.conductor.protectedUpstream) return [];
  return protection.reach(edge, protection.fedAt(edge) ?? 'from', () => true).stoppedAt;
}

function smallest(all: readonly Fitted[]): Fitted | undefined {
  return all.reduce<Fitted | undefined>(
    (least, one) =>
      least === undefined || (one.device.amps ?? Infinity) < (least.device.amps ?? Infinity) ? one : least,
    undefined,
  );
}

function repairsOf(
  { vessel }: Context,
  least: Fitted,
  edge: SupplyEdge,
  device: string,
  most: number,
): readonly Repair[] {
  if (least.edge === edge && edge.legs.length === 1) {
    if (!ratingsOf(vessel, least.device).includes(most)) return [];
    return [
      {
        title: `Use ${least.device.protection.device} ${ampsText(most)}`,
        preferred: true,
        change: {
          kind: 'replace',
          at: fittedSpot(least),
          text: protectionText({ ...least.device.protection, amps: most }),
        },
      },
    ];
  }
  if (edge.kind === 'tap') return [];
  const { protection } = least.device;
  const more = `${number(most, 2)} A at ${device}`;
  return [
    {
      title: `Give ${device} a fuse of its own`,
      preferred: true,
      change:
        least.edge === edge && protection.device === 'fuse'
          ? { kind: 'replace', at: fittedSpot(least), text: `${protectionText(protection)}, ${more}` }
          : { kind: 'append', at: { origin: edge.origin }, text: `fuse ${more}` },
    },
  ];
}
