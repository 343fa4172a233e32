/** Words and small figures that the power rules share. */
import type { FuseType, Protection, Vessel } from '../../../vessel/model.js';
import { number } from '../../../vessel/words.js';
import type { Spot } from '../../finding.js';
import type { Fitted } from '../protection/protection.js';
import type { PlacedDevice, SupplyEdge } from '../supply/graph.js';

/** `7.5 A` */
export const ampsText = (amps: number): string => `${number(amps, 1)} A`;
/** `14.4 V` */
export const voltsText = (volts: number): string => `${number(volts, 1)} V`;
/** `11 to 14.4 V`, `13.2 V` */
export const rangeText = (range: { readonly low: number; readonly high: number }): string =>
  range.low === range.high ? voltsText(range.low) : `${number(range.low, 1)} to ${voltsText(range.high)}`;

/** `fuse 80 A mrbf`, `breaker 50 A` */
export function fittedText({ protection }: PlacedDevice): string {
  const amps = protection.amps === undefined ? '' : ` ${ampsText(protection.amps)}`;
  return `${protection.device}${amps}${protection.type === undefined ? '' : ` ${protection.type}`}`;
}

/** Where a device stands in the text. */
export function fittedSpot({ edge, device }: Fitted): Spot {
  return { origin: edge.origin, part: `protections ${device.index}` };
}

/** A device as it is written after `fuse` or `breaker`. */
export function protectionText(protection: Protection): string {
  const { amps, type, ratedVolts, interruptsAmps, at, afterMetres } = protection;
  return [
    amps === undefined ? undefined : `${number(amps, 3)} A`,
    type,
    ratedVolts === undefined ? undefined : `rated ${number(ratedVolts, 3)} V`,
    interruptsAmps === undefined ? undefined : `interrupts ${number(interruptsAmps, 1)} A`,
    at === undefined ? undefined : `at ${at}`,
    afterMetres === undefined ? undefined : `after ${number(afterMetres * 1000, 0)} mm`,
  ]
    .filter((word) => word !== undefined)
    .join(' ');
}

/** Ratings that breakers are commonly sold in: common practice, no source. */
const BREAKERS: readonly number[] = [
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

/** Every device with its conductor. */
export function fittedOn(edges: readonly SupplyEdge[]): readonly Fitted[] {
  return edges.flatMap((edge) => edge.devices.map((device) => ({ edge, device })));
}
