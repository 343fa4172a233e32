/** Transducers with what drives them: which may disturb each other. */
import type { Interval, Mode } from '../../vessel/model.js';
import { createUnionFind } from '../../vessel/unionFind.js';
import type { Context } from '../context.js';

export interface Sounding {
  readonly device: string;
  readonly origin: string;
  readonly host: string;
  readonly bands: readonly Interval[];
}

export interface Soundings {
  readonly list: readonly Sounding[];
  /** Whether two are synchronised, directly or by way of others, themselves or their hosts. */
  readonly synced: (first: Sounding, second: Sounding) => boolean;
  /** Whether some mode has both on. Where no mode is declared, everything may be on at once. */
  readonly together: (first: Sounding, second: Sounding) => boolean;
}

/** Find the transducers that a host drives, by name. */
export function findSoundings({ vessel, lookup, sharing }: Context): Soundings {
  const groups = createUnionFind<string>();
  for (const device of vessel.devices) for (const other of device.syncedWith) groups.join(device.name, other);
  const list = vessel.devices
    .flatMap((device): Sounding[] => {
      const model = lookup.modelOf(device.name);
      if (model?.class !== 'transducer') return [];
      const [plug] = sharing.hosting.plugsOf(device.name);
      if (plug === undefined) return [];
      return [
        { device: device.name, origin: device.origin, host: plug.other.device, bands: model.bandsHertz },
      ];
    })
    .sort((x, y) => (x.device < y.device ? -1 : 1));
  const modes = vessel.modes.map(isOnIn);
  const on = (isOn: (device: string) => boolean, one: Sounding): boolean =>
    isOn(one.device) || isOn(one.host);
  return {
    list,
    synced: (first, second) =>
      [first.device, first.host].some((one) =>
        [second.device, second.host].some((other) => groups.find(one) === groups.find(other)),
      ),
    together: (first, second) =>
      modes.length === 0 || modes.some((isOn) => on(isOn, first) && on(isOn, second)),
  };
}

/** Which devices a mode has on. `on others` is everything that it does not name. */
function isOnIn(mode: Mode): (device: string) => boolean {
  const named = new Set(mode.duties.flatMap((duty) => (duty.kind === 'on' ? [duty.device] : [])));
  const others = mode.duties.some((duty) => duty.kind === 'others');
  return (device) => others || named.has(device);
}

/** The first frequency that two sets of bands have in common; undefined where they have none. */
export function commonBand(first: readonly Interval[], second: readonly Interval[]): Interval | undefined {
  for (const one of first) {
    for (const other of second) {
      const low = Math.max(one.low, other.low);
      const high = Math.min(one.high, other.high);
      if (low <= high) return { low, high };
    }
  }
  return undefined;
}
