/** Antenna cable and range at sea. */

/** A published loss of a cable at a frequency. */
export interface LossPoint {
  readonly decibelsPerMetre: number;
  readonly hertz: number;
}

/** VHF channel 16, where a distress call is made (ITU Radio Regulations, appendix 18). */
export const CHANNEL_16_HERTZ = 156.8e6;

/** How far from the only known point its square root still serves: the dielectric's part is under 2 % of the loss there. */
const NEAR = 0.2;

/** Coefficients of a * sqrt(f) + b * f, f in hertz, dB a metre: skin effect and dielectric. */
export interface LossLaw {
  readonly a: number;
  readonly b: number;
}

/**
 * The law through the points: exactly through two, and with the least relative error through more. Undefined where fewer than two
 * frequencies are known, or what is published does not lie on such a law.
 */
export function lossLaw(points: readonly LossPoint[]): LossLaw | undefined {
  const usable = points.filter((point) => point.hertz > 0 && point.decibelsPerMetre > 0);
  // Each row is scaled to a value of one, so that every point weighs by its share and not by its size.
  let ss = 0;
  let sf = 0;
  let ff = 0;
  let s = 0;
  let f = 0;
  for (const { hertz, decibelsPerMetre } of usable) {
    const x = Math.sqrt(hertz) / decibelsPerMetre;
    const y = hertz / decibelsPerMetre;
    ss += x * x;
    sf += x * y;
    ff += y * y;
    s += x;
    f += y;
  }
  const determinant = ss * ff - sf * sf;
  if (!(determinant > 1e-9 * ss * ff)) return undefined;
  const a = (s * ff - f * sf) / determinant;
  const b = (ss * f - sf * s) / determinant;
  return a >= 0 && b >= 0 ? { a, b } : undefined;
}

/** Loss of a metre of cable at a frequency, from what is published of it; undefined where that does not say. */
export function lossPerMetre(points: readonly LossPoint[], hertz: number): number | undefined {
  const exact = points.find((point) => Math.abs(point.hertz - hertz) <= 1e-3 * hertz);
  if (exact !== undefined) return exact.decibelsPerMetre;
  const law = lossLaw(points);
  if (law !== undefined) return law.a * Math.sqrt(hertz) + law.b * hertz;
  const near = points.find((point) => Math.abs(point.hertz - hertz) <= NEAR * hertz);
  return near === undefined ? undefined : near.decibelsPerMetre * Math.sqrt(hertz / near.hertz);
}

/** The share of the power that is left after so many decibels. */
export function powerLeft(decibels: number): number {
  return 10 ** (-decibels / 10);
}

const METRES_PER_FOOT = 0.3048;

/** Radio horizon between two antennas above the water, in nautical miles: 1.23 * (sqrt(h1) + sqrt(h2)), heights in feet. */
export function horizonMiles(firstMetres: number, secondMetres = 0): number {
  const root = (metres: number): number => Math.sqrt(Math.max(0, metres) / METRES_PER_FOOT);
  return 1.23 * (root(firstMetres) + root(secondMetres));
}
