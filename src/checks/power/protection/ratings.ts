/** Ratings that fuses and breakers are sold in, and what types interrupt. */
import type { FuseType, Vessel } from '../../../vessel/model.js';
import type { PlacedDevice } from '../supply/graph.js';

/** Ratings that breakers are commonly sold in: common practice, no source. */
export const BREAKERS: readonly number[] = [
  1, 2, 3, 4, 5, 6, 7.5, 8, 10, 12, 15, 16, 20, 25, 30, 32, 35, 40, 45, 50, 60, 63, 70, 75, 80, 90, 100, 110,
  120, 125, 135, 150, 160, 175, 200, 225, 250, 275, 300, 350, 400,
];

/** The types that a fuse may be: its own where it is known, else every type that there is. */
export function typesOf(vessel: Vessel, device: PlacedDevice): readonly FuseType[] {
  return device.type === undefined ? Object.values(vessel.fuseTypes) : [device.type];
}

/** Ratings that a device is sold in, ascending. */
export function ratingsOf(vessel: Vessel, device: PlacedDevice): readonly number[] {
  if (device.protection.device === 'breaker') return BREAKERS;
  const all = typesOf(vessel, device).flatMap((type) => type.ratingsAmps);
  return [...new Set(all)].sort((a, b) => a - b);
}

/** What a type interrupts at a voltage: the figure of the lowest voltage that is no less. Undefined where it has none. */
export function interruptsAt(type: FuseType, volts: number): number | undefined {
  const fitting = type.interrupts.filter((one) => one.volts === undefined || one.volts >= volts);
  const [nearest] = [...fitting].sort((a, b) => (a.volts ?? Infinity) - (b.volts ?? Infinity));
  return nearest?.amps;
}
