/** Words and small figures that the power rules share. */
import type { Protection } from '../../../vessel/model.js';
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
export function fittedText({ protection, amps: rating }: PlacedDevice): string {
  const amps = rating === undefined ? '' : ` ${ampsText(rating)}`;
  return `${protection.device}${amps}${protection.type === undefined ? '' : ` ${protection.type}`}`;
}

/** Where a device stands in the text: on its conductor where it is left to the tool. */
export function fittedSpot({ edge, device }: Fitted): Spot {
  if (device.index < 0) return { origin: edge.origin };
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

/** Every device with its conductor. */
export function fittedOn(edges: readonly SupplyEdge[]): readonly Fitted[] {
  return edges.flatMap((edge) => edge.devices.map((device) => ({ edge, device })));
}
