/** What can fail aboard: each thing that breaks by itself is one event, whatever hangs on it. */
import type { Context } from '../context.js';
import { endText } from '../wiring/wiring.js';
import type { SupplyEdge } from '../power/supply/graph.js';
import type { Backbone } from '../../vessel/model.js';
import { devicesOfEnds, devicesOfItem } from '../../vessel/options/names.js';
import type { Spot } from '../../vessel/origin.js';

/** A piece of a conductor that goes: all of it, or one of its legs. */
export interface Cut {
  readonly edge: string;
  readonly leg: number | undefined;
}

/** Part of a backbone's branches: what hangs on it no longer hears, and has no power from the bus. */
export interface LostDrop {
  readonly backbone: string;
  readonly devices: readonly string[];
}

export interface Element {
  readonly kind: 'device' | 'cable' | 'feed' | 'fuse' | 'bus';
  readonly name: string;
  /** Class of the device's model, `fuse` or `breaker`, the medium of a cable, `drop`. */
  readonly what: string;
  readonly at: Spot;
  readonly device: string | undefined;
  /** Origin of the link. */
  readonly link: string | undefined;
  readonly backbone: string | undefined;
  readonly drop: LostDrop | undefined;
  readonly cuts: readonly Cut[];
}

const NOTHING = {
  device: undefined,
  link: undefined,
  backbone: undefined,
  drop: undefined,
  cuts: [],
} as const;

/** Every element that can fail, in the order of the spec: devices, cables, buses, feeds, and their fuses. */
export function elementsOf({ vessel, lookup, wiring, supply }: Context): readonly Element[] {
  return [
    ...vessel.devices
      .filter((device) => !device.leaving && lookup.device(device.name) === device)
      .map((device): Element => ({
        ...NOTHING,
        kind: 'device',
        name: device.name,
        what: lookup.modelOf(device.name)?.class ?? 'device',
        at: { origin: device.origin },
        device: device.name,
        drop: behindBox(vessel.backbones, device.name),
      })),
    ...wiring.links.map(({ link, medium }): Element => ({
      ...NOTHING,
      kind: 'cable',
      name: link.label ?? `${endText(link.a)} -- ${endText(link.b)}`,
      what: medium ?? 'cable',
      at: { origin: link.origin },
      link: link.origin,
    })),
    ...vessel.backbones.flatMap(dropElements),
    ...vessel.backbones.map((backbone): Element => ({
      ...NOTHING,
      kind: 'bus',
      name: backbone.name,
      what: 'nmea2000',
      at: { origin: backbone.origin },
      backbone: backbone.name,
    })),
    ...supply.edges.flatMap(conductorElements),
  ];
}

/** What hangs on a box of tees goes with the box. */
function behindBox(backbones: readonly Backbone[], box: string): LostDrop | undefined {
  for (const { name, items } of backbones)
    for (const item of items) {
      if (item.kind !== 'tee' || item.end?.device !== box || item.branches.length === 0) continue;
      return { backbone: name, devices: [...devicesOfEnds(item.branches.map(({ end }) => end))] };
    }
  return undefined;
}

/** A device that is plugged straight onto its tee has no drop that could break. */
function dropElements({ name, items }: Backbone): readonly Element[] {
  const places = new Map<string, number>();
  for (const item of items)
    for (const device of devicesOfItem(item)) places.set(device, (places.get(device) ?? 0) + 1);
  const element = (spot: Spot, on: readonly string[]): readonly Element[] => {
    // What is on the backbone a second time stays on it.
    const devices = on.filter((device) => places.get(device) === 1);
    const [first] = devices;
    if (first === undefined) return [];
    const drop = { backbone: name, devices };
    return [{ ...NOTHING, kind: 'cable', name: `drop ${name} -- ${first}`, what: 'drop', at: spot, drop }];
  };
  return items.flatMap((item): readonly Element[] => {
    if (item.kind !== 'tee') return [];
    const { origin, branches, dropMetres } = item;
    return [
      ...(dropMetres === 0
        ? []
        : element({ origin, part: 'end' }, [
            ...devicesOfEnds([item.end, ...branches.map(({ end }) => end)]),
          ])),
      ...branches.flatMap(({ end, lengthMetres }, index) =>
        lengthMetres === 0 ? [] : element({ origin, part: `branches ${index}` }, [...devicesOfEnds([end])]),
      ),
    ];
  });
}

function conductorElements(edge: SupplyEdge): readonly Element[] {
  const label = edge.feed?.wayLabel;
  const feed: Element = {
    ...NOTHING,
    kind: 'feed',
    name: label === undefined ? edge.text : `${edge.text} (${label})`,
    what: edge.kind,
    at: { origin: edge.origin },
    cuts: [{ edge: edge.origin, leg: undefined }],
  };
  const fuses = edge.devices.map(({ protection, index, end }): Element => {
    const amps = protection.amps === undefined ? '' : ` ${Math.round(protection.amps * 1000) / 1000} A`;
    const where = protection.at === undefined ? '' : ` at ${protection.at}`;
    // One at the far end of a leg opens that leg; any other opens all of the conductor.
    const leg = typeof end === 'number' && edge.legs.length > 1 ? end : undefined;
    return {
      ...NOTHING,
      kind: 'fuse',
      name: `${protection.device}${amps}${where} on ${edge.text}`,
      what: protection.device,
      at: { origin: edge.origin, part: `protections ${index}` },
      cuts: [{ edge: edge.origin, leg }],
    };
  });
  return [feed, ...fuses];
}
