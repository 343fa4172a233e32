import type { Context } from '../../context.js';
import type { Repair } from '../../finding.js';
import { rule } from '../../rule.js';
import type { Bus, BusNode } from '../bus.js';
import { busText, metresText } from './text.js';

/** NMEA 2000, IEC 61162-3. */
const LONGEST_DROP_METRES = 6;

/** `bus/drop-length`: a device is over 6 m from the backbone, by its drop and its branch. */
export const dropLength = rule(
  { code: 'bus/drop-length', severities: ['error'], summary: 'A device is over 6 m from the backbone.' },
  (context, report) => {
    for (const { bus } of context.buses)
      for (const node of bus.nodes) {
        if (node.dropMetres === undefined) {
          report.unknown(node.spot, node.dropMissing ?? `the drop of ${node.device} has no length`);
          continue;
        }
        if (node.dropMetres <= LONGEST_DROP_METRES + 1e-9) continue;
        const by = node.byTail
          ? ' with its moulded tail, which is longer than the drop that is written,'
          : '';
        const through = node.via === 'branch' ? ' through its box' : '';
        const near = nearer(context, bus, node);
        report.find({
          message: `${node.device} is ${metresText(node.dropMetres)} from ${busText(bus)}${through}${by} and may be 6 m: what comes back from the end of a longer drop disturbs the messages of all. ${near === undefined ? 'Lead the backbone nearer to it, or set its tee where it is near' : `Set its tee ${near.where}, ${metresText(near.metres)} from it`}.`,
          at: node.spot,
          repairs: near?.repairs ?? [],
        });
      }
  },
);

interface Nearer {
  readonly where: string;
  readonly metres: number;
  readonly repairs: readonly Repair[];
}

/** A place along the backbone whose zone is known from a span, and from which a drop would be short enough. */
function nearer({ lookup, routes, vessel }: Context, bus: Bus, node: BusNode): Nearer | undefined {
  const zone = lookup.plugZone(node.device);
  const tee = bus.tees.find((one) => one.origin === node.spot.origin);
  if (zone === undefined || tee === undefined || node.via !== 'tee' || node.byTail) return undefined;
  const tail = node.port?.captive?.lengthMetres ?? 0;
  let best:
    | { readonly metres: number; readonly after: string; readonly zone: string; readonly before: boolean }
    | undefined;
  for (const item of bus.backbone.items) {
    if (item.kind !== 'span' || item.between === undefined) continue;
    item.between.forEach((end, index) => {
      const route = lookup.zone(end) === undefined ? undefined : routes.between(end, zone);
      if (route?.kind !== 'route') return;
      const metres = Math.max(tail, route.metres + 2 * (vessel.slackMetres ?? 0));
      if (metres <= LONGEST_DROP_METRES && (best === undefined || metres < best.metres))
        best = { metres, after: item.origin, zone: end, before: index === 0 };
    });
  }
  if (best === undefined) return undefined;
  const item = bus.backbone.items.find((one) => one.origin === best?.after);
  if (item === undefined) return undefined;
  const index = bus.backbone.items.indexOf(item);
  const before = bus.backbone.items[index - 1];
  const after = best.before ? before : item;
  const repairs: Repair[] =
    after === undefined || after.origin === tee.origin
      ? []
      : [
          {
            title: `Set the tee of ${node.device} at ${best.zone}, ${metresText(best.metres)} from it`,
            preferred: true,
            change: {
              kind: 'move',
              at: { origin: tee.origin },
              after: { origin: after.origin },
              with: { part: 'drop', text: metresText(Math.ceil(best.metres * 10) / 10) },
            },
          },
        ];
  return { where: `at ${best.zone}`, metres: best.metres, repairs };
}
