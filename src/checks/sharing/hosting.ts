/** What is plugged into what: point-to-point connections, followed through couplers. */
import type { DeviceClass, Medium, Vessel } from '../../vessel/model.js';
import type { Lookup } from '../../vessel/lookup.js';
import type { PortOfDevice } from '../analysis.js';
import { isLinkable } from '../wiring/fit.js';
import type { ResolvedLink, Wiring } from '../wiring/wiring.js';

export interface Plug {
  readonly self: PortOfDevice;
  readonly other: PortOfDevice;
  readonly links: readonly ResolvedLink[];
  /** Couplers between the two. */
  readonly through: readonly string[];
}

export interface Hosting {
  /** Point-to-point connections of a device that are made. */
  readonly plugsOf: (device: string) => readonly Plug[];
  /** Sources plugged into a device, by name. */
  readonly hostedBy: (device: string) => readonly string[];
  /**
   * Whether the device could be linked in one of these media by a link that is not settled: one of its own, or one that has
   * an end which is not declared.
   */
  readonly mayBeLinked: (device: string, media: (medium: Medium) => boolean) => boolean;
}

/** Media that join two devices and no more, so that one is the other's host. */
export function isPointToPoint(medium: Medium): boolean {
  return (
    medium !== 'ethernet' &&
    medium !== 'nmea2000' &&
    medium !== 'nmea0183' &&
    medium !== 'dc' &&
    medium !== 'ac'
  );
}

/** Work out what is plugged into what. */
export function createHosting(vessel: Vessel, lookup: Lookup, wiring: Wiring): Hosting {
  const classOf = (device: string): DeviceClass | undefined => lookup.modelOf(device)?.class;
  const isGone = (device: string): boolean => lookup.device(device)?.leaving ?? true;
  const plugs = new Map<string, readonly Plug[]>();

  const follow = (self: PortOfDevice, other: PortOfDevice, link: ResolvedLink): Plug | undefined => {
    const links = [link];
    const through: string[] = [];
    let at = other;
    while (classOf(at.device) === 'joint') {
      if (through.includes(at.device)) return undefined;
      through.push(at.device);
      const beyond = wiring
        .linksAt(at.device)
        .filter((next) => next.state === 'made' && !links.includes(next) && next.medium === self.port.medium);
      const [next] = beyond;
      const far = next?.a?.device === at.device ? next.b : next?.a;
      if (next === undefined || far === undefined) return undefined;
      links.push(next);
      at = far;
    }
    return { self, other: at, links, through };
  };

  const plugsOf = (device: string): readonly Plug[] => {
    const known = plugs.get(device);
    if (known !== undefined) return known;
    const list: Plug[] = [];
    for (const wired of isGone(device) ? [] : wiring.linksAt(device)) {
      const { a, b } = wired;
      if (wired.state !== 'made' || a === undefined || b === undefined || !isPointToPoint(a.port.medium))
        continue;
      const [self, other] = a.device === device ? [a, b] : [b, a];
      const plug = follow(self, other, wired);
      if (plug !== undefined && !isGone(plug.other.device)) list.push(plug);
    }
    plugs.set(device, list);
    return list;
  };

  const dangling = danglingMedia(vessel, wiring);
  return {
    plugsOf,
    hostedBy: (device) =>
      classOf(device) === 'transducer'
        ? []
        : plugsOf(device)
            .map((plug) => plug.other.device)
            .filter((name) => (lookup.modelOf(name)?.gives.length ?? 0) > 0)
            .sort(),
    mayBeLinked: (device, media) => {
      const open = wiring
        .linksAt(device)
        .some((wired) => wired.state === 'open' && (wired.medium === undefined || media(wired.medium)));
      if (open) return true;
      if (dangling.size === 0) return false;
      const ports = lookup.modelOf(device)?.ports;
      if (ports === undefined) return true;
      return ports.some(
        (port) =>
          isLinkable(port.medium) &&
          media(port.medium) &&
          (dangling.has(port.medium) || dangling.has('any')) &&
          wiring.useOf(device, port.name).length === 0,
      );
    },
  };
}

/** Media of links that have an end which is not declared. */
function danglingMedia(vessel: Vessel, wiring: Wiring): ReadonlySet<Medium | 'any'> {
  const media = new Set<Medium | 'any'>();
  if (vessel.links.every((link) => link.a.device !== undefined && link.b.device !== undefined)) return media;
  for (const wired of wiring.links) {
    if (wired.link.a.device === undefined || wired.link.b.device === undefined)
      media.add(wired.medium ?? 'any');
  }
  return media;
}
