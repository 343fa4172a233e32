/**
 * Ampacity of a single copper conductor by its insulation rating, and the factors for engine spaces and bundles.
 *
 * abyc: 33 CFR 183.425 Table 5, which ABYC E-11 shares below 50 V; ambient 30 C.
 * iso: ISO 10133 Table A.1 (now ISO 13297); ambient 30 C. The cells at 12 to 22 A and 60 C, 25 to 45 A at 105 C, and 45 A and
 * more at 200 C were seen in print, the rest are from memory.
 */
import type { ConductorSize, Practice } from '../catalogue.js';
import { areaMm2 } from './sizes.js';

const ABYC_COLUMNS = [60, 75, 80, 90, 105, 125, 200] as const;
const ABYC_AMPS: Readonly<Record<string, readonly number[]>> = {
  '18': [10, 10, 15, 20, 20, 25, 25],
  '16': [15, 15, 20, 25, 25, 30, 35],
  '14': [20, 20, 25, 30, 35, 40, 45],
  '12': [25, 25, 35, 40, 45, 50, 55],
  '10': [40, 40, 50, 55, 60, 70, 70],
  '8': [55, 65, 70, 70, 80, 90, 100],
  '6': [80, 95, 100, 100, 120, 125, 135],
  '4': [105, 125, 130, 135, 160, 170, 180],
  '3': [120, 145, 150, 155, 180, 195, 210],
  '2': [140, 170, 175, 180, 210, 225, 240],
  '1': [165, 195, 210, 210, 245, 265, 280],
  '1/0': [195, 230, 245, 245, 285, 305, 325],
  '2/0': [225, 265, 285, 285, 330, 355, 370],
  '3/0': [260, 310, 330, 330, 385, 410, 430],
  '4/0': [300, 360, 385, 385, 445, 475, 510],
};

const ISO_COLUMNS = [60, 70, 90, 105, 125, 200] as const;
const ISO_AMPS: Readonly<Record<string, readonly number[]>> = {
  '0.75': [6, 10, 12, 16, 20, 25],
  '1': [8, 14, 18, 20, 25, 35],
  '1.5': [12, 18, 21, 25, 30, 40],
  '2.5': [17, 25, 30, 35, 40, 45],
  '4': [22, 35, 40, 45, 50, 55],
  '6': [29, 45, 50, 60, 70, 75],
  '10': [40, 65, 70, 90, 100, 120],
  '16': [54, 90, 100, 130, 150, 170],
  '25': [71, 120, 140, 170, 185, 200],
  '35': [87, 160, 185, 210, 225, 240],
  '50': [105, 210, 230, 270, 300, 325],
  '70': [135, 265, 285, 330, 360, 375],
  '95': [165, 310, 330, 390, 410, 430],
  '120': [190, 360, 400, 450, 480, 520],
  '150': [220, 380, 430, 475, 520, 560],
};

/** Factor in an engine space. abyc at 50 C: 105 C seen, the others from memory. iso at 60 C, from memory; 60 C insulation may not be used there. */
const ENGINE_SPACE: Readonly<Record<Practice, readonly number[]>> = {
  abyc: [0.58, 0.75, 0.78, 0.82, 0.85, 0.89, 1],
  iso: [0, 0.75, 0.82, 0.86, 0.89, 1],
};

/** Columns of a practice's table: insulation ratings in degrees Celsius. iso prints 85 to 90 as one column. */
const columns = (practice: Practice): readonly number[] => (practice === 'abyc' ? ABYC_COLUMNS : ISO_COLUMNS);

/** The column of an insulation rating: the highest that is not above it. ISO's column of 85 to 90 C begins at 85. */
function columnOf(practice: Practice, ratedCelsius: number): number | undefined {
  const rated = practice === 'iso' && ratedCelsius >= 85 && ratedCelsius < 90 ? 90 : ratedCelsius;
  let found: number | undefined;
  columns(practice).forEach((column, index) => {
    if (column <= rated) found = index;
  });
  return found;
}

/**
 * Factor for conductors that lie bundled and are loaded together (the conductor itself counted). abyc: ABYC E-11 (25 and more from memory); 33 CFR
 * asks it of 50 V and over only. iso: from memory.
 */
export function bundleFactor(loadedConductors: number, practice: Practice): number {
  if (practice === 'abyc') {
    if (loadedConductors >= 25) return 0.4;
    if (loadedConductors >= 7) return 0.5;
    if (loadedConductors >= 4) return 0.6;
    return loadedConductors >= 3 ? 0.7 : 1;
  }
  if (loadedConductors >= 25) return 0.5;
  if (loadedConductors >= 7) return 0.6;
  return loadedConductors >= 4 ? 0.7 : 1;
}

/** Factor of an engine space for an insulation rating; undefined where the rating is under the lowest column. */
export function engineSpaceFactor(ratedCelsius: number, practice: Practice): number | undefined {
  const column = columnOf(practice, ratedCelsius);
  return column === undefined ? undefined : ENGINE_SPACE[practice][column];
}

/** Where and how a conductor lies. */
export interface Laying {
  /** Insulation rating. */
  readonly ratedCelsius: number;
  readonly engineSpace: boolean;
  /** Conductors bundled and loaded together, itself counted. */
  readonly loadedConductors: number;
}

/** Table value in amperes before any factor; undefined for a size or rating that the table does not have. */
export function tableAmps(size: ConductorSize, ratedCelsius: number, practice: Practice): number | undefined {
  const column = columnOf(practice, ratedCelsius);
  if (column === undefined) return undefined;
  const table = practice === 'abyc' ? ABYC_AMPS : ISO_AMPS;
  if (size.standard === (practice === 'abyc' ? 'AWG' : 'mm2') && table[size.size])
    return table[size.size]?.[column];
  // A size of the other standard has the ampacity of the next thinner one in the table.
  const area = areaMm2(size);
  if (area === undefined) return undefined;
  let best: number | undefined;
  for (const [name, amps] of Object.entries(table)) {
    const other = areaMm2({ standard: practice === 'abyc' ? 'AWG' : 'mm2', size: name });
    const value = amps[column];
    if (other !== undefined && other <= area * 1.02 && value !== undefined) best = Math.max(best ?? 0, value);
  }
  return best;
}

/** Ampacity in amperes as laid; undefined where the table does not have the size or rating. */
export function ampacity(size: ConductorSize, laying: Laying, practice: Practice): number | undefined {
  const amps = tableAmps(size, laying.ratedCelsius, practice);
  if (amps === undefined) return undefined;
  const engine = laying.engineSpace ? engineSpaceFactor(laying.ratedCelsius, practice) : 1;
  return engine === undefined ? undefined : amps * engine * bundleFactor(laying.loadedConductors, practice);
}
