/** Overcurrent protection: how large, where, and what it must interrupt. */
import type { Practice } from '../catalogue.js';

/**
 * Most that a device may be rated at, for a conductor of `ampacityAmps`: 150 % (33 CFR 183.455 and ABYC E-11, below 50 V);
 * 100 % (ISO 13297, from memory).
 */
export function largestRating(ampacityAmps: number, practice: Practice): number {
  return ampacityAmps * (practice === 'abyc' ? 1.5 : 1);
}

/** Continuous load over the rating that a fuse carries without ageing: common practice, no source. */
const CONTINUOUS_SHARE = 0.8;

/** How a conductor runs from its source to its device. */
export interface Stretch {
  /** In a sheath or conduit all the way. */
  readonly sheathed: boolean;
  /** Connected straight to a battery's terminal. */
  readonly fromBattery: boolean;
}

const INCH = 0.0254;

/**
 * Farthest along the conductor that its device may sit, in metres. abyc: 7 in (33 CFR 183.455), 40 in in a sheath, 72 in in a
 * sheath and straight from a battery (ABYC E-11). iso: 200 mm (from memory).
 */
export function farthestMetres(practice: Practice, { sheathed, fromBattery }: Stretch): number {
  if (practice === 'iso') return 0.2;
  if (!sheathed) return 7 * INCH;
  return (fromBattery ? 72 : 40) * INCH;
}

/**
 * Interrupting capacity asked of a breaker, in amperes, by the bank's cold cranking amperes (older table of ABYC E-11, 12 and
 * 24 V). Above 2,200 CCA or 500 Ah newer editions ask the bank's short-circuit rating, or 20 kA.
 */
export function breakerInterrupts(bankCca: number, main: boolean): number {
  if (bankCca <= 650) return main ? 1500 : 750;
  if (bankCca <= 1100) return main ? 3000 : 1500;
  if (bankCca <= 2200) return main ? 5000 : 2500;
  return 20_000;
}

/** What decides a rating. */
export interface RatingLimits {
  readonly continuousAmps: number;
  readonly maxAmps: number;
  /** Most for the wire; undefined where its ampacity is not known. */
  readonly wireLimitAmps: number | undefined;
  /** The fuse that the device's maker states. */
  readonly deviceLimitAmps: number | undefined;
}

/**
 * The rating to fit: the smallest sold that carries the load (continuous within 80 %, maximum within 100 %) and is within the
 * limits of wire and device. A maker's own stated fuse is taken where the wire allows it. Undefined where none will do.
 */
export function chooseRating(ratings: readonly number[], limits: RatingLimits): number | undefined {
  const ceiling = Math.min(limits.wireLimitAmps ?? Infinity, limits.deviceLimitAmps ?? Infinity);
  const stated = limits.deviceLimitAmps;
  if (stated !== undefined && ratings.includes(stated) && stated <= ceiling) return stated;
  const floor = Math.max(limits.continuousAmps / CONTINUOUS_SHARE, limits.maxAmps);
  return [...ratings]
    .sort((a, b) => a - b)
    .find((rating) => rating >= floor * (1 - 1e-9) && rating <= ceiling * (1 + 1e-9));
}
