/** Diodes, sources with a limit, and loads that switch themselves off, by hand. */
import { describe, expect, it } from 'vitest';
import type { Circuit, Load, Solved, Source } from '../../../src/checks/power/solve/circuit.js';
import { mostOf } from '../../../src/checks/power/solve/margin.js';
import { solve } from '../../../src/checks/power/solve/solve.js';

function solved(circuit: Circuit): Solved {
  const answer = solve(circuit);
  if (answer.kind !== 'solved') throw new Error(JSON.stringify(answer));
  return answer;
}

describe('a splitter of diodes', () => {
  /** Two banks behind 10 mohm each, and through a diode of 10 mohm each one busbar with a load. */
  const banks = (high: number, low: number, load: Omit<Load, 'id' | 'plus' | 'minus'>): Circuit => ({
    sources: [
      { id: 'high', plus: 'h', minus: '-', volts: high, ohms: 0.01 },
      { id: 'low', plus: 'l', minus: '-', volts: low, ohms: 0.01 },
    ],
    branches: [
      { id: 'fromHigh', a: 'h', b: 'bus', ohms: 0.01, oneWay: true },
      { id: 'fromLow', a: 'l', b: 'bus', ohms: 0.01, oneWay: true },
    ],
    loads: [{ id: 'lamp', plus: 'bus', minus: '-', ...load }],
  });

  it('takes from the higher bank alone', () => {
    const answer = solved(banks(13, 12, { kind: 'current', amount: 2 }));
    expect(answer.sourceAmps.get('low')).toBeCloseTo(0, 6);
    expect(answer.sourceAmps.get('high')).toBeCloseTo(2, 6);
    expect(answer.loadVolts.get('lamp')).toBeCloseTo(13 - 2 * 0.02, 6);
  });

  it('takes from the lower one too once the load has drawn the higher one down', () => {
    // (13 - V) / 0.02 + (12 - V) / 0.02 = 100, so V = 11.5: 75 A and 25 A.
    const answer = solved(banks(13, 12, { kind: 'current', amount: 100 }));
    expect(answer.loadVolts.get('lamp')).toBeCloseTo(11.5, 6);
    expect(answer.sourceAmps.get('high')).toBeCloseTo(75, 4);
    expect(answer.sourceAmps.get('low')).toBeCloseTo(25, 4);
  });

  it('carries with both what neither carries alone', () => {
    // Alone, 12 V behind 20 mohm carries 12^2 / (4 x 0.02) = 1,800 W; two alike are one behind 10 mohm, 3,600 W.
    const amount = 3000;
    expect(solve(banks(12, 1, { kind: 'power', amount })).kind).toBe('collapsed');
    const volts = (12 * (1 + Math.sqrt(1 - amount / 3600))) / 2;
    expect(solved(banks(12, 12, { kind: 'power', amount })).loadVolts.get('lamp')).toBeCloseTo(volts, 5);
    // The lower of two steps in: the load is past what the higher one carries, 2,113 W.
    expect(solve(banks(13, 12, { kind: 'power', amount })).kind).toBe('solved');
  });

  it('lets nothing through against it', () => {
    const circuit = banks(13, 12, { kind: 'current', amount: 2 });
    const turned = circuit.branches.map((branch) => ({ ...branch, a: branch.b, b: branch.a }));
    const answer = solved({ ...circuit, branches: turned });
    expect(answer.unsupplied).toEqual(['lamp']);
    expect(answer.sourceAmps.get('high')).toBe(0);
  });
});

describe('a source with a limit', () => {
  const charger: Source = { id: 'charger', plus: '+', minus: '-', volts: 14, ohms: 0, limitAmps: 10 };
  const bank: Source = { id: 'bank', plus: '+', minus: '-', volts: 12, ohms: 0.05 };
  const on = (sources: readonly Source[], kind: Load['kind'], amount: number): Circuit => ({
    sources,
    branches: [],
    loads: [{ id: 'lamp', plus: '+', minus: '-', kind, amount }],
  });

  it('holds its voltage up to the limit', () => {
    expect(solved(on([charger], 'current', 10)).loadVolts.get('lamp')).toBeCloseTo(14, 4);
  });

  it('leaves the rest of a larger load to the bank', () => {
    // 10 A from the charger and 15 A from the bank: 12 - 15 x 0.05 = 11.25 V.
    const answer = solved(on([charger, bank], 'current', 25));
    expect(answer.sourceAmps.get('charger')).toBeCloseTo(10, 4);
    expect(answer.sourceAmps.get('bank')).toBeCloseTo(15, 4);
    expect(answer.loadVolts.get('lamp')).toBeCloseTo(11.25, 4);
  });

  it('charges the bank with what is left over', () => {
    // All 10 A: 4 A to the load, 6 A into the bank at 12 + 6 x 0.05 = 12.3 V.
    const answer = solved(on([charger, bank], 'current', 4));
    expect(answer.sourceAmps.get('bank')).toBeCloseTo(-6, 4);
    expect(answer.loadVolts.get('lamp')).toBeCloseTo(12.3, 4);
  });

  it('takes nothing back from a higher bank', () => {
    const answer = solved(on([{ ...charger, volts: 11 }, bank], 'current', 4));
    expect(answer.sourceAmps.get('charger')).toBeCloseTo(0, 5);
    expect(answer.loadVolts.get('lamp')).toBeCloseTo(11.8, 4);
  });

  it.each(['current', 'power'] as const)('carries no more by itself: constant %s', (kind) => {
    const most = kind === 'current' ? 10 : 140;
    const circuit = on([charger], kind, most * 1.01);
    expect(solve(circuit)).toMatchObject({ kind: 'collapsed', loads: ['lamp'] });
    expect(mostOf(circuit, 'lamp') / most).toBeCloseTo(1, 2);
  });
});

describe('a load with an under-voltage cut-out', () => {
  /** Two loads at the end of 0.5 ohm from 12 V: the limit of the line is 72 W. */
  const two = (first: Partial<Load>, second: Partial<Load>): Circuit => ({
    sources: [{ id: 'bank', plus: '+', minus: '-', volts: 12, ohms: 0 }],
    branches: [{ id: 'wire', a: '+', b: 'far', ohms: 0.5 }],
    loads: [
      { id: 'first', plus: 'far', minus: '-', kind: 'power', amount: 40, ...first },
      { id: 'second', plus: 'far', minus: '-', kind: 'power', amount: 40, ...second },
    ],
  });

  it('goes off before the line collapses, and leaves the other on', () => {
    expect(solve(two({}, {})).kind).toBe('collapsed');
    const answer = solved(two({}, { cutOutVolts: 9 }));
    expect(answer.cutOut).toEqual(['second']);
    expect(answer.loadAmps.has('second')).toBe(false);
    expect(answer.loadVolts.get('first')).toBeCloseTo((12 * (1 + Math.sqrt(1 - 40 / 72))) / 2, 4);
  });

  it('stays off, though its voltage would be enough without it', () => {
    const answer = solved(two({ amount: 30 }, { amount: 30, cutOutVolts: 10 }));
    expect(answer.cutOut).toEqual(['second']);
    expect(answer.loadVolts.get('first')).toBeGreaterThan(10);
  });

  it('stays on while it has its voltage', () => {
    expect(solved(two({ amount: 10 }, { amount: 10, cutOutVolts: 10 })).cutOut).toEqual([]);
  });

  it('goes off alone where the other would go at a lower voltage', () => {
    const answer = solved(two({ amount: 30, cutOutVolts: 9 }, { amount: 30, cutOutVolts: 10 }));
    expect(answer.cutOut).toEqual(['second']);
  });
});
