/** Battery formulas against worked examples. */
import { describe, expect, it } from 'vitest';
import {
  cellKind,
  chargeReturn,
  peukertFactor,
  peukertHours,
  peukertHoursAtOneAmp,
  peukertRange,
  plannedDepth,
  usableAmpHours,
} from '../../src/vessel/battery.js';
import { createContext } from '../../src/checks/context.js';
import { boat, dc, model } from '../support/vessel.js';

describe('Peukert', () => {
  it('gives 14.5 h for 100 Ah, k 1.2, 5 A in the one-ampere form (published example of the law)', () => {
    expect(peukertHoursAtOneAmp(100, 5, 1.2).toFixed(1)).toBe('14.5');
  });

  it('gives 8.71 h for 100 Ah at 20 h, k 1.2, 10 A (by arithmetic: 20 h x (100 / 200)^1.2)', () => {
    expect(peukertHours(100, 20, 10, 1.2).toFixed(2)).toBe('8.71');
  });

  it('gives the rated hours at the rated current, whatever the exponent (definition of the rating)', () => {
    for (const k of [1, 1.05, 1.25, 1.6]) expect(peukertHours(105, 20, 5.25, k)).toBeCloseTo(20, 12);
  });

  it('is plain arithmetic where k is 1, and endless at no current', () => {
    expect(peukertHours(100, 20, 10, 1)).toBeCloseTo(10, 12);
    for (const none of [0, -3, NaN]) expect(peukertHours(100, 20, none, 1.2)).toBe(Infinity);
  });

  // By arithmetic: 8.71 h x 10 A x 50 % = 43.5 Ah, against 50 Ah at the rated current.
  it('leaves 43.5 Ah to half depth at twice the rated current, and never more than half of what is rated', () => {
    expect(usableAmpHours(100, 20, 10, 1.2, 0.5).toFixed(1)).toBe('43.5');
    expect(usableAmpHours(100, 20, 5, 1.2, 0.5)).toBe(50);
    expect(usableAmpHours(100, 20, 0.5, 1.2, 0.5)).toBe(50);
    expect(usableAmpHours(100, 20, 0, 1.2, 0.5)).toBe(50);
    expect(peukertFactor(100, 20, 10, 1.2).toFixed(4)).toBe((2 ** 0.2).toFixed(4));
    expect(peukertFactor(0, 20, 10, 1.2)).toBe(1);
  });

  // Ranges that makers publish: flooded 1.2-1.6, AGM 1.05-1.15, gel 1.1-1.25.
  it('takes the range of the chemistry where a model does not say, and none where that is not known', () => {
    expect(peukertRange('flooded', undefined)).toEqual({ low: 1.2, high: 1.6 });
    expect(peukertRange('agm', undefined)).toEqual({ low: 1.05, high: 1.15 });
    expect(peukertRange('gel', undefined)).toEqual({ low: 1.1, high: 1.25 });
    expect(peukertRange('agm', 1.12)).toEqual({ low: 1.12, high: 1.12 });
    for (const strange of [undefined, 'toString', 'salt'])
      expect(peukertRange(strange, undefined)).toBe(undefined);
  });
});

describe('usable energy', () => {
  // 50 % of lead and 80 % of lithium: common practice, no source.
  it.each([
    ['flooded', 0.5],
    ['agm', 0.5],
    ['gel', 0.5],
    ['lfp', 0.8],
    ['nmc', 0.8],
  ])('is planned to %s at %f where the model does not say', (chemistry, depth) => {
    expect(plannedDepth(chemistry, undefined)).toEqual({ depth, stated: false });
    expect(plannedDepth(chemistry, 0.3)).toEqual({ depth: 0.3, stated: true });
  });

  it('is not guessed without a chemistry', () => {
    for (const strange of [undefined, 'constructor', 'salt']) {
      expect(cellKind(strange)).toBe(undefined);
      expect(plannedDepth(strange, undefined)).toBe(undefined);
      expect(chargeReturn(strange)).toBe(undefined);
    }
  });
});

describe('a bank of several batteries', () => {
  // Two strings of two: volts and resistance add along a string, ampere-hours and short-circuit current beside it
  // (33 CFR 183 and ABYC E-11 on short-circuit currents; Kirchhoff for the rest).
  it('adds volts in series, ampere-hours in parallel', () => {
    const cell = model('Cell', 'battery', {
      volts: 12,
      capacity: { ampHours: 100, atHours: 20 },
      resistanceOhms: 0.004,
      shortCircuitAmps: 2000,
      ports: [dc('post')],
    });
    const plain = boat({ models: [cell], devices: { bank: 'Cell' } });
    const devices = plain.devices.map((device) => ({ ...device, series: 2, parallel: 3 }));
    const [bank] = createContext({ ...plain, devices }).supply.banks;
    expect(bank).toMatchObject({ nominalVolts: 24, ampHours: 300, ratedHours: 20, shortCircuitAmps: 6000 });
    expect(bank?.ohms).toBeCloseTo((0.004 * 2) / 3, 12);
  });
});
