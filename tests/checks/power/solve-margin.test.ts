/** Load factors against the closed form of one line. */
import { describe, expect, it } from 'vitest';
import type { Circuit, Load } from '../../../src/checks/power/solve/circuit.js';
import { marginOf, mostOf } from '../../../src/checks/power/solve/margin.js';
import { solve } from '../../../src/checks/power/solve/solve.js';

/** 12 V and loads of constant power behind 0.5 ohm: together they can have 12^2 / (4 x 0.5) = 72 W. */
const behind = (...watts: readonly number[]): Circuit => ({
  sources: [{ id: 'bank', plus: '+', minus: '-', volts: 12, ohms: 0 }],
  branches: [{ id: 'wire', a: '+', b: 'far', ohms: 0.5 }],
  loads: watts.map((amount, n): Load => ({
    id: `load ${n + 1}`,
    plus: 'far',
    minus: '-',
    kind: 'power',
    amount,
  })),
});

describe('the margin', () => {
  it.each([7.2, 36, 60, 72 * 1.05])('to collapse is the limit over the load: %d W', (watts) => {
    expect(marginOf(behind(watts), new Map())?.collapse).toBeCloseTo(72 / watts, 1);
    expect((marginOf(behind(watts), new Map())?.collapse ?? NaN) * (watts / 72)).toBeCloseTo(1, 2);
  });

  it('to the lowest voltage is the load that leaves it', () => {
    // 10 V are left at 2 V / 0.5 ohm = 4 A, so at 40 W.
    const lowest = new Map([['load 1', 10]]);
    expect(marginOf(behind(20), lowest)?.toLowest.get('load 1')).toBeCloseTo(2, 2);
    expect(marginOf(behind(50), lowest)?.toLowest.get('load 1')).toBeCloseTo(0.8, 2);
    expect(marginOf(behind(10, 10), lowest)?.toLowest.get('load 1')).toBeCloseTo(2, 2);
  });

  it('is none where the voltage is too low without a load', () => {
    expect(marginOf(behind(20), new Map([['load 1', 12.5]]))?.toLowest.get('load 1')).toBe(0);
  });

  it('has no end where nothing draws', () => {
    expect(marginOf(behind(0), new Map([['load 1', 10]]))).toEqual({
      collapse: Infinity,
      toLowest: new Map([['load 1', Infinity]]),
    });
  });

  it('is unknown of what can not be solved', () => {
    expect(marginOf(behind(NaN), new Map())).toBeUndefined();
  });
});

describe('the most of one load', () => {
  it('is what the others leave it', () => {
    expect(mostOf(behind(30, 60), 'load 2')).toBeCloseTo(42, 0);
    expect(mostOf(behind(72 * 1.05), 'load 1') / 72).toBeCloseTo(1, 2);
  });

  it('is carried, and a hundredth more is not', () => {
    const most = mostOf(behind(30, 60), 'load 2');
    expect(solve(behind(30, most)).kind).toBe('solved');
    expect(solve(behind(30, most * 1.01)).kind).toBe('collapsed');
  });

  it('is nothing where the others collapse by themselves', () => {
    expect(mostOf(behind(80, 5), 'load 2')).toBe(0);
  });

  it('is where a load would switch itself off', () => {
    const circuit = behind(20);
    const loads = circuit.loads.map((load) => ({ ...load, cutOutVolts: 10 }));
    expect(mostOf({ ...circuit, loads }, 'load 1') / 40).toBeCloseTo(1, 2);
  });
});
