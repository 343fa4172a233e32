/** Words that the rules of backbones share. */
import { number } from '../../../vessel/words.js';

export const metresText = (metres: number): string => `${number(metres, 1)} m`;
export const voltsText = (volts: number): string => `${number(volts, 2)} V`;
export const ampsText = (amps: number): string => `${number(amps, 2)} A`;
/** `backbone nav` */
export const busText = (bus: { readonly name: string }): string => `backbone ${bus.name}`;
