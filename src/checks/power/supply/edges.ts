/** Feeds and taps as conductors with their ends, lengths, ways and devices. */
import type { BackboneItem, Conductor, End, Vessel } from '../../../vessel/model.js';
import { own, type Lookup } from '../../../vessel/lookup.js';
import type { Route, Routes } from '../../../vessel/routes.js';
import type { PortOfDevice } from '../../analysis.js';
import { endText, portText, type Wiring } from '../../wiring/wiring.js';
import type { Leg, PlacedDevice, SupplyEdge } from './graph.js';

interface Ground {
  readonly vessel: Vessel;
  readonly lookup: Lookup;
  readonly routes: Routes;
}

/** The name of a backbone's stretch between isolations. */
export function busId(backbone: string, stretch: number): string {
  return stretch === 0 ? `backbone ${backbone}` : `backbone ${backbone} (${stretch + 1})`;
}

/** Every conductor of a vessel: its feeds, then the taps of its backbones. */
export function edgesOf(ground: Ground, wiring: Wiring): readonly SupplyEdge[] {
  const { lookup } = ground;
  const feeds = wiring.feeds.map(({ feed, from, to }): SupplyEdge => {
    const legs = feed.to.map((end, index) =>
      layLeg(ground, feed, {
        index,
        to: to[index],
        text: textOf(end, to[index]),
        fromZone: zoneOf(lookup, feed.from),
        toZone: zoneOf(lookup, end),
      }),
    );
    const ends = feed.to.map((end) => end.device);
    return {
      ...conductorOf(ground, feed, from, feed.from.device, ends),
      origin: feed.origin,
      kind: 'feed',
      text: `${endText(feed.from)} -> ${feed.to.map(endText).join(', ')}`,
      feed,
      from: from === undefined ? undefined : portText(from),
      fromText: textOf(feed.from, from),
      legs,
    };
  });
  const taps = wiring.backbones.flatMap(({ backbone, taps: tapped }) => {
    let stretch = 0;
    let number = 0;
    return backbone.items.flatMap((item): SupplyEdge[] => {
      if (item.kind === 'isolate') stretch += 1;
      if (item.kind !== 'tap') return [];
      const edge = tapEdge(ground, item, tapped[number], {
        id: busId(backbone.name, stretch),
        name: backbone.name,
      });
      number += 1;
      return [edge];
    });
  });
  return [...feeds, ...taps];
}

function tapEdge(
  ground: Ground,
  item: BackboneItem & { readonly kind: 'tap' },
  from: PortOfDevice | undefined,
  bus: { readonly id: string; readonly name: string },
): SupplyEdge {
  const { lookup } = ground;
  const text = `backbone ${bus.name}`;
  const leg = layLeg(ground, item.conductor, {
    index: 0,
    to: undefined,
    text,
    fromZone: zoneOf(lookup, item.from),
    toZone:
      item.zone === undefined || lookup.zone(item.zone) === undefined
        ? { missing: `the tap of ${text} does not say its zone` }
        : { zone: item.zone },
  });
  return {
    ...conductorOf(ground, item.conductor, from, item.from.device, []),
    origin: item.origin,
    kind: 'tap',
    text: `${endText(item.from)} -> ${text}`,
    feed: undefined,
    from: from === undefined ? undefined : portText(from),
    fromText: textOf(item.from, from),
    legs: [{ ...leg, to: bus.id }],
  };
}

function textOf(end: End, at: PortOfDevice | undefined): string {
  return at === undefined || end.port !== undefined ? endText(end) : at.device;
}

type ZoneOf = { readonly zone: string } | { readonly missing: string };

function zoneOf(lookup: Lookup, end: End): ZoneOf {
  if (end.device === undefined) return { missing: 'one of its ends is not declared' };
  const zone = lookup.plugZone(end.device);
  return zone === undefined || lookup.zone(zone) === undefined
    ? { missing: `the zone of ${end.device} is not known` }
    : { zone };
}

interface LegEnds {
  readonly index: number;
  readonly to: PortOfDevice | undefined;
  readonly text: string;
  readonly fromZone: ZoneOf;
  readonly toZone: ZoneOf;
}

/** The way of a leg and its length: as stated, else along the runs with slack at both ends. */
function layLeg(ground: Ground, conductor: Conductor, ends: LegEnds): Leg {
  const { vessel, lookup, routes } = ground;
  const { fromZone, toZone } = ends;
  let route: Route | undefined;
  let missing: string | undefined;
  if ('missing' in fromZone) missing = fromZone.missing;
  else if ('missing' in toZone) missing = toZone.missing;
  else {
    const via = conductor.joins.flatMap((joint) => joint.zone ?? []);
    route = routes.between(fromZone.zone, toZone.zone, conductor.by, via);
    if (route.kind === 'unknown') missing = route.missing;
    if (route.kind === 'none') missing = `no run joins ${fromZone.zone} to ${toZone.zone}`;
  }
  const known = route?.kind === 'route' ? route : undefined;
  const routed = known === undefined ? undefined : known.metres + 2 * (vessel.slackMetres ?? 0);
  const lengthMetres = conductor.lengthMetres ?? routed;
  const exposures = known?.zones.map((zone) => lookup.zone(zone)?.exposure);
  return {
    index: ends.index,
    to: ends.to === undefined ? undefined : portText(ends.to),
    text: ends.text,
    lengthMetres,
    missing: lengthMetres === undefined ? missing : undefined,
    route,
    zones: known?.zones ?? [],
    engineSpace: exposures === undefined ? undefined : hotIn(exposures),
    bundles: known?.runs.filter((run) => run.conduit || run.loom) ?? [],
  };
}

function hotIn(exposures: readonly ({ readonly hot: boolean } | undefined)[]): boolean | undefined {
  if (exposures.some((exposure) => exposure?.hot === true)) return true;
  return exposures.includes(undefined) ? undefined : false;
}

type Made = Pick<SupplyEdge, 'conductor' | 'devices' | 'size' | 'ratedCelsius' | 'sheathed'>;

function conductorOf(
  { vessel, lookup }: Ground,
  conductor: Conductor,
  from: PortOfDevice | undefined,
  fromDevice: string | undefined,
  toDevices: readonly (string | undefined)[],
): Made {
  const cable = lookup.cable(conductor.cable);
  const size = conductor.wire ?? cable?.size;
  const ofCable = conductor.wire === undefined ? cable?.ratedCelsius : undefined;
  const isWay =
    from !== undefined && lookup.modelOf(from.device)?.class === 'panel' && from.port.dc?.direction === 'out';
  const holds = isWay ? from.port.dc.holds : [];
  const devices = conductor.protections.map((protection, index): PlacedDevice => {
    const { at } = protection;
    const leg = at === undefined || at === fromDevice ? -1 : toDevices.indexOf(at);
    const end =
      at === undefined
        ? isWay
          ? 'from'
          : undefined
        : at === fromDevice
          ? 'from'
          : leg < 0
            ? undefined
            : leg;
    const inWay = isWay && end === 'from';
    const [held] = holds;
    const name =
      protection.type ?? (inWay && protection.device === 'fuse' && holds.length === 1 ? held : undefined);
    const type = name === undefined ? undefined : own(vessel.fuseTypes, name);
    const onPost =
      name === 'mrbf' && at !== undefined && lookup.modelOf(at)?.class === 'battery' && end !== undefined;
    return {
      protection,
      index,
      end,
      elsewhere: at !== undefined && end === undefined,
      amps: protection.amps,
      type,
      inWay,
      afterMetres: protection.afterMetres ?? (inWay || onPost ? 0 : undefined),
    };
  });
  return {
    conductor,
    devices,
    size,
    ratedCelsius: conductor.wireRatedCelsius ?? ofCable ?? vessel.wiringCelsius,
    sheathed: conductor.sheathed || cable?.sheathed === true,
  };
}
