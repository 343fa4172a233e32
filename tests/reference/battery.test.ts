/** Battery formulas against worked examples. */
import { describe, expect, it } from 'vitest';
import { peukertHours, peukertHoursAtOneAmp, usableAmpHours } from '../../src/vessel/battery.js';

describe('Peukert', () => {
  it('gives 14.5 h for 100 Ah, k 1.2, 5 A in the one-ampere form (published example)', () => {
    expect(peukertHoursAtOneAmp(100, 5, 1.2).toFixed(1)).toBe('14.5');
  });

  it('gives 8.71 h for 100 Ah at 20 h, k 1.2, 10 A (by arithmetic)', () => {
    expect(peukertHours(100, 20, 10, 1.2).toFixed(2)).toBe('8.71');
  });

  it('is plain arithmetic where k is 1, and endless at no current', () => {
    expect(peukertHours(100, 20, 10, 1)).toBeCloseTo(10, 12);
    expect(peukertHours(100, 20, 0, 1.2)).toBe(Infinity);
    expect(usableAmpHours(100, 20, 10, 1.2, 0.5)).toBeCloseTo(43.5, 1);
  });
});
