/** Power over ethernet: which port wants it, and which one it meets at the far end, couplers passed. */
import type { PoePort, Vessel } from '../../vessel/model.js';
import type { Lookup } from '../../vessel/lookup.js';
import type { PortOfDevice } from '../analysis.js';
import type { ResolvedLink, Wiring } from '../wiring/wiring.js';

export interface PoeMeeting {
  readonly near: PortOfDevice;
  readonly poe: PoePort;
  /** The link at the near port. */
  readonly link: ResolvedLink;
  readonly far: PortOfDevice;
}

/** Every port that wants or gives power and is linked, with what it meets. Devices that leave in the refit are not part of it. */
export function poeMeetings(vessel: Vessel, lookup: Lookup, wiring: Wiring): readonly PoeMeeting[] {
  const isGone = (device: string): boolean => lookup.device(device)?.leaving ?? true;
  return vessel.devices.flatMap(({ name, leaving }) =>
    leaving
      ? []
      : wiring.linksAt(name).flatMap((link): readonly PoeMeeting[] => {
          const near = [link.a, link.b].find((end) => end?.device === name);
          const poe = near?.port.poe;
          if (near === undefined || poe === undefined || link.state !== 'made') return [];
          const far = farEnd(lookup, wiring, link, near);
          return far === undefined || isGone(far.device) ? [] : [{ near, poe, link, far }];
        }),
  );
}

/** The other end of a link, or of the links behind couplers, which pass all conductors. */
function farEnd(
  lookup: Lookup,
  wiring: Wiring,
  first: ResolvedLink,
  near: PortOfDevice,
): PortOfDevice | undefined {
  const seen = new Set<ResolvedLink>();
  let link = first;
  let from: PortOfDevice = near;
  while (!seen.has(link)) {
    seen.add(link);
    const far = link.a?.device === from.device && link.a.port === from.port ? link.b : link.a;
    if (far === undefined || lookup.modelOf(far.device)?.class !== 'joint') return far;
    const next = wiring
      .linksAt(far.device)
      .find((one) => one.state === 'made' && one.medium === 'ethernet' && !seen.has(one));
    const at = [next?.a, next?.b].find((end) => end?.device === far.device);
    if (next === undefined || at === undefined) return undefined;
    link = next;
    from = at;
  }
  return undefined;
}
