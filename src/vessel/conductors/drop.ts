/**
 * Voltage drop, by each practice's own formula and resistivity. The two are not mixed: ABYC's constant is copper at about 29 C,
 * ISO's at about 8 C, and they differ by 8 %.
 */
import type { ConductorSize, Practice } from '../catalogue.js';
import { areaMm2, choicesOf, minimumCmil } from './sizes.js';

/** ABYC E-11: circular mils = 10.75 I L / E, with L the round trip in feet. */
const ABYC_OHM_CMIL_PER_FOOT = 10.75;
/** ISO 13297 (10133): E = 0.0164 I L / S, with L the round trip in metres and S in mm2. */
const ISO_OHM_MM2_PER_METRE = 0.0164;

const METRES_PER_FOOT = 0.3048;

/**
 * Resistance of a metre of one conductor in ohms, as the practice reckons it: minimum areas for abyc, nominal for iso.
 * Undefined for what is no size.
 */
export function ohmsPerMetre(size: ConductorSize, practice: Practice): number | undefined {
  if (practice === 'abyc') {
    const cmil = minimumCmil(size);
    return cmil === undefined ? undefined : ABYC_OHM_CMIL_PER_FOOT / cmil / METRES_PER_FOOT;
  }
  const area = areaMm2(size);
  return area === undefined ? undefined : ISO_OHM_MM2_PER_METRE / area;
}

/** Circular mils that a drop asks for (ABYC E-11). `roundTripFeet` is there and back. */
export function circularMilsFor(amps: number, roundTripFeet: number, allowedVolts: number): number {
  return (ABYC_OHM_CMIL_PER_FOOT * amps * roundTripFeet) / allowedVolts;
}

/** Drop in volts along a round trip (ISO 13297). */
export function isoDropVolts(amps: number, roundTripMetres: number, areaInMm2: number): number {
  return (ISO_OHM_MM2_PER_METRE * amps * roundTripMetres) / areaInMm2;
}

/**
 * The smallest size of the practice's tables whose drop along `roundTripMetres` stays within `allowedVolts`; undefined
 * where none does.
 */
export function sizeForDrop(
  amps: number,
  roundTripMetres: number,
  allowedVolts: number,
  practice: Practice,
): ConductorSize | undefined {
  return choicesOf(practice).find((size) => {
    const ohms = ohmsPerMetre(size, practice);
    // A hair of tolerance, so that a size which fits exactly is not lost to rounding.
    return ohms !== undefined && amps * ohms * roundTripMetres <= allowedVolts * (1 + 1e-9);
  });
}
