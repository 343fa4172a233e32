/** The supply of a boat as a network: by hand, and by relations that need no oracle. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createContext, type Context } from '../../../src/checks/context.js';
import type { Feed, Model } from '../../../src/vessel/model.js';
import { feed } from '../../support/text.js';
import { boat, dc, model, range } from '../../support/vessel.js';

const draw = (amount: number, unit: 'A' | 'W') => ({ amount, unit });
const lamp = (name: string, amount: number, unit: 'A' | 'W'): Model =>
  model(name, 'load', { ports: [dc('power', 'in', { draws: draw(amount, unit) })] });
const MODELS = [
  model('Lead12', 'battery', {
    volts: 12,
    lowestVolts: 11,
    sagsVolts: 9.6,
    resistanceOhms: 0.018,
    ports: [dc('post')],
  }),
  model('Ways', 'panel', {
    ports: [dc('in', 'in'), ...range(4, 'dc').map((port) => ({ ...dc(port.name, 'out'), group: '1..4' }))],
  }),
  model('Joint', 'joint', { ports: [dc('a'), dc('b')] }),
  model('Worn', 'joint', { resistanceOhms: 0.05, ports: [dc('a'), dc('b')] }),
  model('Stiff12', 'battery', { volts: 12, shortCircuitAmps: 600, resistanceOhms: 0.5, ports: [dc('post')] }),
  model('Step', 'converter', {
    efficiency: 0.8,
    ports: [dc('in', 'in'), dc('out', 'out', { outVolts: 10, limitsAmps: 30 })],
  }),
];

const wired = (text: string, metres: number, mm2: string): Feed => ({
  ...feed(text),
  lengthMetres: metres,
  wire: { standard: 'mm2', size: mm2 },
});
const contextOf = (
  devices: Readonly<Record<string, string>>,
  feeds: readonly Feed[],
  models: readonly Model[],
): Context =>
  createContext(boat({ models: [...MODELS, ...models], devices, more: { practice: 'iso', feeds } }));
const voltsAt = (context: Context, terminal: string, kind: 'nominal' | 'lowest' = 'nominal'): number => {
  const { solution } = context.circuits.solved(undefined, { kind });
  if (solution.kind !== 'solved') throw new Error(`it is ${solution.kind}`);
  return solution.loadVolts.get(terminal) ?? NaN;
};

describe('a panel with two branches', () => {
  // By hand, with ISO's 0.0164 ohm mm2/m and both conductors:
  //   feeder   4 mm2, 10 m:   2 x 10 x 0.0164 / 4   = 0.0820 ohm
  //   branches 2.5 mm2, 5 m:  2 x 5 x 0.0164 / 2.5  = 0.0656 ohm
  //   the battery 0.018 ohm, so 0.1 ohm to the panel: 12 V - (10 A + 5 A) x 0.1 ohm = 10.5 V
  //   one branch: 10.5 V - 10 A x 0.0656 ohm = 9.844 V; the other: 10.5 V - 5 A x 0.0656 ohm = 10.172 V
  const context = contextOf(
    { house: 'Lead12', ways: 'Ways', big: 'Big', small: 'Small' },
    [wired('house -> ways', 10, '4'), wired('ways.1 -> big', 5, '2.5'), wired('ways.2 -> small', 5, '2.5')],
    [lamp('Big', 10, 'A'), lamp('Small', 5, 'A')],
  );

  it('has the voltages that are worked out by hand', () => {
    expect(voltsAt(context, 'big.power')).toBeCloseTo(9.844, 9);
    expect(voltsAt(context, 'small.power')).toBeCloseTo(10.172, 9);
  });

  it("has the bank's lowest voltage at its posts: 11 V less 15 A over the feeder's 0.082 ohm, less the branch", () => {
    expect(voltsAt(context, 'big.power', 'lowest')).toBeCloseTo(11 - 15 * 0.082 - 0.656, 4);
  });

  it('sags while an engine cranks from it', () => {
    const { solution } = context.circuits.solved(undefined, { kind: 'cranking', banks: ['house'] });
    expect(solution.kind === 'solved' && solution.loadVolts.get('small.power')).toBeCloseTo(
      9.6 - 15 * 0.082 - 0.328,
      // A source without resistance is taken as a microohm.
      4,
    );
  });
});

describe('resistance that a model states', () => {
  // ISO's 0.0164 ohm mm2/m, 5 A over 4 mm2, 10 m in all: 0.0820 ohm, and 0.018 ohm in the battery.
  const volts = (joint: string): number =>
    voltsAt(
      contextOf(
        { house: 'Lead12', half: joint, one: 'One' },
        [wired('house -> half.a', 4, '4'), wired('half.b -> one', 6, '4')],
        [lamp('One', 5, 'A')],
      ),
      'one.power',
    );

  it('is that of a contact, in one conductor: 5 A over 0.05 ohm lose 0.25 V', () => {
    expect(volts('Joint')).toBeCloseTo(12 - 5 * 0.1, 7);
    expect(volts('Worn')).toBeCloseTo(12 - 5 * 0.1 - 0.25, 7);
  });

  it('is that of a battery by its short-circuit current, where a test gave that: 12 V / 600 A', () => {
    const context = contextOf(
      { house: 'Stiff12', one: 'One' },
      [wired('house -> one', 10, '4')],
      [lamp('One', 5, 'A')],
    );
    expect(voltsAt(context, 'one.power')).toBeCloseTo(12 - 5 * (0.082 + 0.02), 7);
  });
});

describe('a converter', () => {
  it('holds its output, and draws its power over the efficiency', () => {
    // 10 V less 5 A x 0.0656 ohm at the lamp; 50 W / 0.8 = 62.5 W at the input, behind 0.1 ohm: V = 6 + sqrt(36 - 6.25).
    const context = contextOf(
      { house: 'Lead12', step: 'Step', small: 'Small' },
      [wired('house -> step.in', 10, '4'), wired('step.out -> small', 5, '2.5')],
      [lamp('Small', 5, 'A')],
    );
    expect(voltsAt(context, 'small.power')).toBeCloseTo(10 - 0.328, 4);
    expect(voltsAt(context, 'step.in')).toBeCloseTo(6 + Math.sqrt(36 - 6.25), 4);
  });
});

describe('any feed', () => {
  const SIZES = ['1', '1.5', '2.5', '4', '6', '10'];
  const given = fc.record({
    size: fc.integer({ min: 0, max: SIZES.length - 2 }),
    metres: fc.double({ min: 0.5, max: 12, noNaN: true }),
    // What the thinnest and longest still carries: beyond, there is no voltage to compare.
    amount: fc.double({ min: 0.5, max: 20, noNaN: true }),
    unit: fc.constantFrom('A' as const, 'W' as const),
  });
  const far = (size: number, metres: number, amount: number, unit: 'A' | 'W', joint = 0): number => {
    const mm2 = SIZES[size] ?? '1';
    const feeds =
      joint === 0
        ? [wired('house -> one', metres, mm2)]
        : [wired('house -> half.a', metres * joint, mm2), wired('half.b -> one', metres * (1 - joint), mm2)];
    const devices = { house: 'Lead12', one: 'One', ...(joint === 0 ? {} : { half: 'Joint' }) };
    return voltsAt(contextOf(devices, feeds, [lamp('One', amount, unit)]), 'one.power');
  };

  it('loses no more by a larger wire, a shorter way or a smaller load, and the same when its cable is split', () => {
    let apart = 0;
    fc.assert(
      fc.property(given, fc.double({ min: 0.1, max: 0.9, noNaN: true }), (one, share) => {
        const { size, metres, amount, unit } = one;
        const volts = far(size, metres, amount, unit);
        const larger = far(size + 1, metres, amount, unit);
        expect(larger).toBeGreaterThanOrEqual(volts);
        expect(far(size, metres * share, amount, unit)).toBeGreaterThanOrEqual(volts);
        expect(far(size, metres, amount * share, unit)).toBeGreaterThanOrEqual(volts);
        expect(far(size, metres, amount, unit, share)).toBeCloseTo(volts, 7);
        if (larger > volts + 1e-3) apart += 1;
      }),
      { numRuns: 60 },
    );
    expect(apart, 'of 60 feeds, those on which a larger wire tells').toBeGreaterThan(30);
  });
});
