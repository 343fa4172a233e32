/** The thinnest conductors that each practice allows. */
import type { ConductorSize, Practice } from '../catalogue.js';
import { areaMm2 } from './sizes.js';

/**
 * Minimum size: 33 CFR 183.425 (d) to (g) and ABYC E-11, 16 AWG single and 18 AWG in a sheath; ISO 13297 (10133 clause 7),
 * 1 mm2 single and 0.75 mm2 in a sheath.
 */
function minimumSize(practice: Practice, sheathed: boolean): ConductorSize {
  if (practice === 'abyc') return { standard: 'AWG', size: sheathed ? '18' : '16' };
  return { standard: 'mm2', size: sheathed ? '0.75' : '1' };
}

/** Whether a size is thinner than the practice allows. */
export function isTooThin(size: ConductorSize, practice: Practice, sheathed: boolean): boolean {
  const area = areaMm2(size);
  const least = areaMm2(minimumSize(practice, sheathed));
  return area !== undefined && least !== undefined && area < least * 0.98;
}

/** What a circuit is, as far as the exemptions go. */
export interface Circuit {
  /** Communication systems and electronic navigation equipment. */
  readonly electronics: boolean;
  readonly amps: number;
  readonly lengthMetres: number;
}

/** Exempt from the minimum size: electronics, circuits under 1 A, pigtails under 7 in (33 CFR 183.425 (g)). */
export function isExempt({ electronics, amps, lengthMetres }: Circuit): boolean {
  return electronics || amps < 1 || lengthMetres < 7 * 0.0254;
}
