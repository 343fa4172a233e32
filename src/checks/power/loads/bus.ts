/** What the devices on a stretch of a backbone draw from it. */
import type { Backbone, Port, Vessel } from '../../../vessel/model.js';
import type { Lookup } from '../../../vessel/lookup.js';
import { LOAD_UNIT_AMPS, loadUnitsOf } from '../../buses/units.js';
import { busId } from '../supply/edges.js';

/** A device that takes current from a stretch. */
export interface BusTaker {
  readonly device: string;
  /** Amperes; undefined where it does not say. */
  readonly amps: number | undefined;
  readonly missing: string | undefined;
}

/**
 * The devices that draw from each stretch, by its terminal: what says its load units, and what has no supply of its own. A device
 * with a dc port that says no load units draws nothing from the bus.
 */
export function busTakers(vessel: Vessel, lookup: Lookup): ReadonlyMap<string, readonly BusTaker[]> {
  const all = new Map<string, readonly BusTaker[]>();
  for (const backbone of vessel.backbones) {
    const seen = new Set<string>();
    let stretch = 0;
    let takers: BusTaker[] = [];
    const put = (): void => {
      all.set(busId(backbone.name, stretch), takers);
    };
    put();
    for (const item of backbone.items) {
      if (item.kind === 'isolate') {
        stretch += 1;
        takers = [];
        put();
      }
      for (const device of devicesAt(item)) {
        if (seen.has(device)) continue;
        seen.add(device);
        const taker = takerOf(lookup, device);
        if (taker !== undefined) takers.push(taker);
      }
    }
  }
  return all;
}

function devicesAt(item: Backbone['items'][number]): readonly string[] {
  if (item.kind === 'terminator') return item.in === undefined ? [] : [item.in];
  if (item.kind !== 'tee') return [];
  return [item.end, ...item.branches.map(({ end }) => end)].flatMap((end) => end?.device ?? []);
}

function takerOf(lookup: Lookup, device: string): BusTaker | undefined {
  const model = lookup.modelOf(device);
  if (model === undefined || lookup.device(device)?.leaving === true) return undefined;
  const port = model.ports.find((one) => one.medium === 'nmea2000');
  if (port === undefined) return undefined;
  const amps = unitsOf(port);
  if (amps !== undefined) return { device, amps, missing: undefined };
  const ownSupply = model.ports.some(
    (one) => one.medium === 'dc' || one.powered || one.poe?.role === 'wants',
  );
  return ownSupply
    ? undefined
    : { device, amps: undefined, missing: `${model.name} does not say its load units (len)` };
}

function unitsOf(port: Port): number | undefined {
  const units = loadUnitsOf(port);
  return units === undefined ? undefined : units * LOAD_UNIT_AMPS;
}
