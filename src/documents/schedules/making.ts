/** What is needed to make cables off: plugs, tees and terminals to count, and what goes into the van. Gear that is aboard already is left out. */
import type { Analysis } from '../../checks/analysis.js';
import { mediumText } from '../../vessel/mediumText.js';
import { compareText } from '../../vessel/words.js';
import { numberCables } from '../numbering.js';

/** So many of one thing. */
export interface CountRow {
  readonly item: string;
  readonly quantity: number;
  /** Where it comes from: on a bought cable, to be fitted aboard; unknown where no cable is named. */
  readonly supplied: 'moulded' | 'to fit' | 'unknown';
  /** Cables or places that ask for it, sorted. */
  readonly for: readonly string[];
}

interface Wanted {
  readonly item: string;
  readonly supplied: CountRow['supplied'];
  readonly for: string;
  readonly quantity?: number;
}

/** Plugs, tees, terminators and caps of data cables, and terminals of feeds by size of wire. */
export function connectorCount(analysis: Analysis): readonly CountRow[] {
  return counted([...plugs(analysis), ...busParts(analysis), ...terminals(analysis)]);
}

/** Links that are new: two plugs each, or the one at the end of a tail. */
function plugs(analysis: Analysis): readonly Wanted[] {
  const { of } = numberCables(analysis);
  const media = new Map(analysis.links.map(({ link, medium }) => [link.origin, medium]));
  return analysis.cables.flatMap(({ link, cable, captiveMetres }): Wanted[] => {
    const medium = media.get(link.origin);
    if (link.existing || medium === 'wireless') return [];
    const number = of(link.origin) ?? link.origin;
    const known = cable === undefined ? undefined : analysis.vessel.cables[cable];
    if (captiveMetres !== undefined && cable === undefined)
      return [{ item: `plug of a ${text(medium)} tail`, supplied: 'moulded', for: number }];
    return [
      {
        item: `${known === undefined ? text(medium) : known.name} plug`,
        supplied: known === undefined ? 'unknown' : known.stock.length > 0 ? 'moulded' : 'to fit',
        for: number,
        quantity: 2,
      },
    ];
  });
}

const text = (medium: Parameters<typeof mediumText>[0] | undefined): string =>
  medium === undefined ? 'unsettled' : mediumText(medium);

function busParts({ vessel, buses }: Analysis): readonly Wanted[] {
  return buses.flatMap(({ bus }) => {
    const place = `backbone ${bus.name}`;
    const pieces = [
      ...bus.spans.map(({ piece }) => piece),
      ...bus.tees.flatMap(({ drop, branches }) => [
        ...(drop === undefined ? [] : [drop]),
        ...branches.map(({ piece }) => piece),
      ]),
    ];
    const named = pieces.map(({ cable }) => (cable === undefined ? undefined : vessel.cables[cable.name]));
    const fitted = named.map((cable): Wanted => ({
      item: `${cable?.name ?? 'NMEA 2000'} plug`,
      supplied: cable === undefined ? 'unknown' : cable.stock.length > 0 ? 'moulded' : 'to fit',
      for: place,
      quantity: 2,
    }));
    const one = (item: string, quantity: number): Wanted[] =>
      quantity === 0 ? [] : [{ item, supplied: 'to fit', for: place, quantity }];
    return [
      ...fitted,
      ...one('NMEA 2000 tee', bus.tees.length),
      ...one('NMEA 2000 power tee', bus.taps.length),
      ...one('NMEA 2000 power isolator', bus.isolations.length),
      ...one(
        'NMEA 2000 terminator',
        bus.terminators.filter((terminator) => terminator.in === undefined).length,
      ),
      ...one('NMEA 2000 cap', bus.tees.filter(({ capped }) => capped).length),
    ];
  });
}

/** Both conductors at every end of every new feed and tap. */
function terminals(analysis: Analysis): readonly Wanted[] {
  const { of } = numberCables(analysis);
  const existing = new Set(analysis.vessel.feeds.filter((feed) => feed.existing).map(({ origin }) => origin));
  const begun = new Set<string>();
  return analysis.power.feeds().flatMap((feed): Wanted[] => {
    if (existing.has(feed.origin)) return [];
    const first = !begun.has(feed.origin);
    begun.add(feed.origin);
    return [
      {
        item: `terminal for ${feed.wire.size ?? 'a wire of unknown size'}`,
        supplied: feed.wire.size === undefined ? 'unknown' : 'to fit',
        for: of(feed.origin) ?? feed.from,
        quantity: first ? 4 : 2,
      },
    ];
  });
}

/** A line of what is taken aboard to make off and to mend. */
export interface VanRow {
  readonly group: 'terminals' | 'heat-shrink' | 'caps' | 'spare fuses';
  readonly item: string;
  readonly quantity: number;
  readonly note: string | null;
}

/** Spares of each rating that is fitted: common practice, no source. */
const SPARE_FUSES = 2;

/** Terminals, sleeves, caps and spare fuses. */
export function vanList(analysis: Analysis): readonly VanRow[] {
  const ends = counted(terminals(analysis));
  return [
    ...ends.map(({ item, quantity }): VanRow => ({
      group: 'terminals',
      item,
      quantity,
      note: 'lug, ferrule or plug as the device asks; the spec does not say which',
    })),
    ...ends.map(({ item, quantity }): VanRow => ({
      group: 'heat-shrink',
      item: item.replace('terminal', 'adhesive sleeve'),
      quantity,
      note: null,
    })),
    ...counted(caps(analysis)).map(({ item, quantity, for: places }): VanRow => ({
      group: 'caps',
      item,
      quantity,
      note: places.join(', '),
    })),
    ...spareFuses(analysis),
  ];
}

/** Tees that are capped, and ports in wet places with nothing on them. */
function caps({ vessel, buses, ports }: Analysis): readonly Wanted[] {
  const zones = new Map(vessel.zones.map((zone) => [zone.name, zone]));
  const at = new Map(vessel.devices.map((device) => [device.name, device]));
  const open = ports.flatMap(({ device, port, on }): Wanted[] => {
    const found = at.get(device);
    const zone = zones.get(found?.back ?? found?.zone ?? '');
    if (
      on.length > 0 ||
      zone?.exposure?.wet !== true ||
      port.medium === 'wireless' ||
      found?.existing === true
    )
      return [];
    return [
      {
        item: `cap for a ${mediumText(port.medium)} port`,
        supplied: 'to fit',
        for: `${device}.${port.name}`,
      },
    ];
  });
  const capped = buses.flatMap(({ bus }) =>
    bus.tees
      .filter((tee) => tee.capped)
      .map((): Wanted => ({ item: 'cap for a tee', supplied: 'to fit', for: `backbone ${bus.name}` })),
  );
  return [...capped, ...open];
}

function spareFuses(analysis: Analysis): readonly VanRow[] {
  const fitted = new Map<string, number>();
  const seen = new Set<string>();
  for (const { origin, protection } of analysis.power.feeds()) {
    // The legs of one feed share what protects it.
    if (seen.has(origin)) continue;
    seen.add(origin);
    for (const { device, amps, type } of protection) {
      if (device !== 'fuse') continue;
      const size = amps === undefined ? 'fuse of unknown rating' : `${Number(amps.toFixed(1))} A fuse`;
      const item = `${size}${type === undefined ? ', type unknown' : `, ${type}`}`;
      fitted.set(item, (fitted.get(item) ?? 0) + 1);
    }
  }
  return [...fitted]
    .sort(([a], [b]) => Number.parseFloat(a) - Number.parseFloat(b) || compareText(a, b))
    .map(([item, count]) => ({
      group: 'spare fuses',
      item,
      quantity: SPARE_FUSES,
      note: `${count} fitted`,
    }));
}

/** Alike things as one row, sorted by name. */
function counted(all: readonly Wanted[]): readonly CountRow[] {
  const rows = new Map<string, CountRow>();
  for (const { item, supplied, for: place, quantity = 1 } of all) {
    const key = `${item}\n${supplied}`;
    const known = rows.get(key);
    rows.set(key, {
      item,
      supplied,
      quantity: (known?.quantity ?? 0) + quantity,
      for: [...new Set([...(known?.for ?? []), place])].sort(compareText),
    });
  }
  return [...rows.values()].sort(
    (x, y) => compareText(x.item, y.item) || compareText(x.supplied, y.supplied),
  );
}
