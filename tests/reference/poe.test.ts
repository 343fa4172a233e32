/** Power over ethernet: the class table of IEEE 802.3af, at and bt from voltage and resistance. */
import { describe, expect, it } from 'vitest';
import { lossWatts, poeClass, sourceWattsOver } from '../../src/vessel/poe.js';

/**
 * Class, watts at the source and at the device as printed, least voltage, ohms (derived), and half of the last printed digit. Class 1
 * comes to 3.8347 W and is printed as 3.84: rounded up, so that it alone has the whole digit.
 */
const ROWS = [
  [0, 15.4, 12.95, 44, 20, 0.005],
  [1, 4, 3.84, 44, 20, 0.01],
  [2, 7, 6.49, 44, 20, 0.005],
  [3, 15.4, 12.95, 44, 20, 0.005],
  [4, 30, 25.5, 50, 12.5, 0.05],
  [5, 45, 40, 50, 6.25, 0.5],
  [6, 60, 51, 50, 6.25, 0.5],
  [7, 75, 62, 52, 6.25, 0.5],
  [8, 90, 71.3, 52, 6.25, 0.05],
] as const;

describe.each(ROWS)('class %i', (number, source, device, volts, ohms, rounding) => {
  it('loses between source and device what its voltage and 100 m of cable make', () => {
    expect(Math.abs(source - lossWatts(source, volts, ohms) - device)).toBeLessThanOrEqual(rounding + 1e-9);
  });

  it('is in the program as the standard has it', () => {
    expect(poeClass(number)).toEqual({
      sourceWatts: source,
      deviceWatts: device,
      leastVolts: volts,
      ohmsPer100Metres: ohms,
    });
  });

  it('asks the whole of the source over 100 m, and less over less', () => {
    const found = poeClass(number);
    if (found === undefined) throw new Error('no such class');
    // The device's watts are rounded, and so is what leads back from them.
    expect(Math.abs(sourceWattsOver(found, 100) - source)).toBeLessThanOrEqual(2 * rounding);
    const half = sourceWattsOver(found, 50);
    expect(half).toBeLessThan(sourceWattsOver(found, 100));
    expect(half - lossWatts(half, volts, ohms / 2)).toBeCloseTo(device, 9);
    expect(sourceWattsOver(found, 0)).toBe(device);
  });
});

it('has no class that the standard has not', () => {
  for (const number of [-1, 9, 3.5, NaN]) expect(poeClass(number)).toBeUndefined();
});
