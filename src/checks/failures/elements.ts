/** What can fail aboard: each thing that breaks by itself is one event, whatever hangs on it. */
import type { Context } from '../context.js';
import { endText } from '../wiring/wiring.js';
import type { SupplyEdge } from '../power/supply/graph.js';
import type { Spot } from '../../vessel/origin.js';

/** A piece of a conductor that goes: all of it, or one of its legs. */
export interface Cut {
  readonly edge: string;
  readonly leg: number | undefined;
}

export interface Element {
  readonly kind: 'device' | 'cable' | 'feed' | 'fuse' | 'bus';
  readonly name: string;
  /** Class of the device's model, `fuse` or `breaker`, the medium of a cable. */
  readonly what: string;
  readonly at: Spot;
  readonly device: string | undefined;
  /** Origin of the link. */
  readonly link: string | undefined;
  readonly backbone: string | undefined;
  readonly cuts: readonly Cut[];
}

const NOTHING = { device: undefined, link: undefined, backbone: undefined, cuts: [] } as const;

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
      })),
    ...wiring.links.map(({ link, medium }): Element => ({
      ...NOTHING,
      kind: 'cable',
      name: link.label ?? `${endText(link.a)} -- ${endText(link.b)}`,
      what: medium ?? 'cable',
      at: { origin: link.origin },
      link: link.origin,
    })),
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
