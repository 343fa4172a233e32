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
  const always = vessel.modes.length === 0 || vessel.modes.some(hasOthers);
  const modes = modesByDevice(vessel.modes);
  // A boat has many pairs of transducers, so what each is on in is looked up once.
  const on = new Map(
    list.map((one) => [one, new Set([...(modes.get(one.device) ?? []), ...(modes.get(one.host) ?? [])])]),
  );
  return {
    list,
    synced: (first, second) =>
      [first.device, first.host].some((one) =>
        [second.device, second.host].some((other) => groups.find(one) === groups.find(other)),
      ),
    together: (first, second) => {
      if (always) return true;
      for (const mode of on.get(first) ?? []) if (on.get(second)?.has(mode)) return true;
      return false;
    },
  };
}

/** `on others` is everything that a mode does not name, and so everything is on in it. */
const hasOthers = (mode: Mode): boolean => mode.duties.some((duty) => duty.kind === 'others');

/** The modes that name a device as on. */
function modesByDevice(modes: readonly Mode[]): ReadonlyMap<string, ReadonlySet<Mode>> {
  const table = new Map<string, Set<Mode>>();
  for (const mode of modes)
    for (const duty of mode.duties) {
      if (duty.kind !== 'on') continue;
      const named = table.get(duty.device);
      if (named === undefined) table.set(duty.device, new Set([mode]));
      else named.add(mode);
    }
  return table;
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
