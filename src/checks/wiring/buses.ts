/** What is on each backbone, and at which port. */
import type { Backbone, End } from '../../vessel/model.js';
import type { Lookup } from '../../vessel/lookup.js';
import { compareText } from '../../vessel/words.js';
import type { Origin, Spot } from '../../vessel/origin.js';
import type { BusMember, PortOfDevice, WiredBackbone } from '../analysis.js';
import { grouped, offerOf } from './ends.js';
import type { Ledger } from './ledger.js';
import { endText, type Problem } from './wiring.js';

interface Place {
  readonly end: End;
  readonly via: BusMember['via'];
  readonly spot: Spot;
  readonly backbone: Backbone;
}

/** Settle the members of every backbone, ports that are written first. */
export function resolveBuses(
  lookup: Lookup,
  backbones: readonly Backbone[],
  taps: ReadonlyMap<Origin, PortOfDevice | undefined>,
  ledger: Ledger,
  problems: Problem[],
): readonly WiredBackbone[] {
  const places = [...backbones].sort((x, y) => compareText(x.origin, y.origin)).flatMap(placesOn);
  const members = new Map<Backbone, Map<string, BusMember>>(
    backbones.map((backbone) => [backbone, new Map<string, BusMember>()]),
  );
  const open = new Set<Backbone>();

  const settle = (place: Place): void => {
    const { end, spot } = place;
    const { device } = end;
    if (device === undefined) {
      open.add(place.backbone);
      return;
    }
    const onIt = members.get(place.backbone);
    if (onIt === undefined || (place.via === 'terminator' && onIt.has(device))) return;
    const unsettled: BusMember = { device, port: undefined, via: place.via, spot };
    const offer = busOffer(lookup, end, place.via);
    if (offer === undefined || (offer.model.class === 'teebox' && offer.ports.length === 0)) {
      onIt.set(device, unsettled);
      return;
    }
    const bus = `backbone ${place.backbone.name}`;
    const [first] = offer.ports;
    if (first?.medium !== 'nmea2000') {
      problems.push({
        kind: 'medium',
        why: 'no-bus',
        at: spot,
        a: endText(end),
        b: bus,
        aMedium: first?.medium,
      });
      return;
    }
    if (grouped(offer.model, offer.ports).length > 1) {
      problems.push({ kind: 'which', at: spot, device, ports: offer.ports, model: undefined, end });
      onIt.set(device, unsettled);
      return;
    }
    const holders = offer.ports.map((port) => ledger.blocker(device, port, false));
    const port = offer.ports[holders.indexOf(undefined)];
    const [holder] = holders;
    if (port !== undefined) {
      ledger.hold(device, port, false, { by: bus, spot });
      if (!onIt.has(device)) onIt.set(device, { ...unsettled, port });
    } else if (offer.named && holder !== undefined) {
      problems.push({ kind: 'taken', at: spot, device, port: first, by: holder.by, bySpot: holder.spot });
    } else {
      problems.push({
        kind: 'none-free',
        at: spot,
        device,
        ports: offer.ports,
        by: holders.flatMap((one) => one?.by ?? []),
      });
    }
  };

  for (const place of places) if (place.end.port !== undefined) settle(place);
  for (const place of places) if (place.end.port === undefined) settle(place);
  return backbones.map((backbone) => ({
    backbone,
    members: [...(members.get(backbone)?.values() ?? [])],
    taps: backbone.items.flatMap((item) => (item.kind === 'tap' ? [taps.get(item.origin)] : [])),
    open: open.has(backbone),
  }));
}

/** The ports that may be meant: where a terminator is said to be in a device, the one that has it, if it is one. */
function busOffer(lookup: Lookup, end: End, via: BusMember['via']): ReturnType<typeof offerOf> {
  const offer = offerOf(lookup, end, (port) => port.medium === 'nmea2000');
  if (offer === undefined || via !== 'terminator') return offer;
  const terminating = offer.ports.filter((port) => port.terminates);
  return terminating.length === 1 ? { ...offer, ports: terminating } : offer;
}

/** Everything that plugs into a backbone; terminators last, because a device on a tee may be named there again. */
function placesOn(backbone: Backbone): readonly Place[] {
  const places: Place[] = [];
  const ends: Place[] = [];
  for (const item of backbone.items) {
    if (item.kind === 'terminator' && item.in !== undefined) {
      ends.push({
        end: { device: item.in, port: undefined, portUnresolved: false },
        via: 'terminator',
        spot: { origin: item.origin, part: 'device' },
        backbone,
      });
    }
    if (item.kind !== 'tee') continue;
    if (item.end !== undefined)
      places.push({ end: item.end, via: 'tee', spot: { origin: item.origin, part: 'end' }, backbone });
    item.branches.forEach((branch, index) => {
      places.push({
        end: branch.end,
        via: 'branch',
        spot: { origin: item.origin, part: `branches ${index}` },
        backbone,
      });
    });
  }
  return [...places, ...ends];
}
