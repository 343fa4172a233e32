/** Antenna cable: the ARRL Antenna Book's table, its worked example, and the radio horizon. */
import { describe, expect, it } from 'vitest';
import { horizonMiles, lossLaw, lossPerMetre, powerLeft, type LossPoint } from '../../src/vessel/coax.js';

const FEET_100 = 30.48;

/** dB per 100 ft at a frequency in MHz. */
const at = (decibels: number, megahertz: number): LossPoint => ({
  decibelsPerMetre: decibels / FEET_100,
  hertz: megahertz * 1e6,
});

describe('loss of antenna cable', () => {
  // ARRL Antenna Book, chapter 6: dB per 100 ft at 30 and 150 MHz; a and b of a * sqrt(f) + b * f in MHz (derived).
  it.each([
    ['RG-58', 2.47, 5.63, 0.4439, 0.00129],
    ['RG-8X', 1.96, 4.53, 0.3481, 0.00178],
    ['RG-213', 1.08, 2.53, 0.1896, 0.00139],
  ])('of %s follows from its two points, and gives them back', (_, low, high, a, b) => {
    const points = [at(low, 30), at(high, 150)];
    for (const { hertz, decibelsPerMetre } of points)
      expect(law(points, hertz) * FEET_100).toBeCloseTo(decibelsPerMetre * FEET_100, 9);
    const found = lossLaw(points);
    // The printed coefficients have been rounded, and reach the printed losses within their last digit.
    expect((found?.a ?? NaN) * FEET_100 * 1e3).toBeCloseTo(a, 3);
    expect((found?.b ?? NaN) * FEET_100 * 1e6).toBeCloseTo(b, 4);
    expect(Math.abs(a * Math.sqrt(30) + b * 30 - low)).toBeLessThan(0.005);
    expect(Math.abs(a * Math.sqrt(150) + b * 150 - high)).toBeLessThan(0.005);
  });

  it('of the 9913 type is solved from its two points: 0.68 and 1.58 dB', () => {
    const points = [at(0.68, 30), at(1.58, 150)];
    const found = lossLaw(points);
    expect((found?.a ?? 0) > 0 && (found?.b ?? 0) > 0).toBe(true);
    expect(law(points, 30e6) * FEET_100).toBeCloseTo(0.68, 9);
    expect(law(points, 150e6) * FEET_100).toBeCloseTo(1.58, 9);
    expect(law(points, 156.8e6) * FEET_100).toBeGreaterThan(1.58);
  });

  it('of 75 ft RG-213 at 2.3 dB per 100 ft is 1.725 dB, and 67.2 W of 100 W are left (printed example)', () => {
    const decibels = (2.3 / FEET_100) * 75 * 0.3048;
    expect(decibels).toBeCloseTo(1.725, 9);
    expect((100 * powerLeft(decibels)).toFixed(1)).toBe('67.2');
  });

  it('of 3 dB is half the power', () => {
    expect(powerLeft(3)).toBeCloseTo(0.5, 2);
  });

  it('is not made up: one far point says nothing, and neither do points on no such law', () => {
    expect(lossPerMetre([at(2.47, 30)], 156.8e6)).toBeUndefined();
    expect(lossPerMetre([], 156.8e6)).toBeUndefined();
    expect(lossLaw([at(2, 100), at(2, 100)])).toBeUndefined();
    expect(lossLaw([at(2, 30), at(1, 150)])).toBeUndefined();
    expect(lossPerMetre([at(4.6, 156.8)], 162e6)).toBeCloseTo((4.6 / FEET_100) * Math.sqrt(162 / 156.8), 12);
  });

  it('of three points follows them all where one was derived from the others and rounded', () => {
    const points = [at(1.96, 30), at(4.53, 150), at(4.64, 156.8)];
    for (const { hertz, decibelsPerMetre } of points)
      expect(law(points, hertz) / decibelsPerMetre).toBeCloseTo(1, 2);
  });
});

describe('the radio horizon', () => {
  it('is 9.48 nautical miles from 18 ft to 12 ft (printed example)', () => {
    expect(horizonMiles(18 * 0.3048, 12 * 0.3048).toFixed(2)).toBe('9.48');
  });

  it('adds the two, and a height below the water counts as none', () => {
    expect(horizonMiles(4, 9)).toBeCloseTo(horizonMiles(4) + horizonMiles(9), 12);
    expect(horizonMiles(-3)).toBe(0);
  });
});

function law(points: readonly LossPoint[], hertz: number): number {
  const found = lossLaw(points);
  return found === undefined ? NaN : found.a * Math.sqrt(hertz) + found.b * hertz;
}
