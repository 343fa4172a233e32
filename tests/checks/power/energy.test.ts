/** Hours on a bank and the balance of a day, by hand; the mixed cases; and laws that hold for any boat. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createContext, type Context } from '../../../src/checks/context.js';
import type { Day, Mode } from '../../../src/vessel/model.js';
import { boat, dc, model, type BoatParts } from '../../support/vessel.js';

const A = (amount: number) => ({ amount, unit: 'A' as const });
const battery = (name: string, more: Parameters<typeof model>[2] = {}) =>
  model(name, 'battery', {
    volts: 12,
    lowestVolts: 11,
    chargesVolts: 14.4,
    capacity: { ampHours: 100, atHours: 20 },
    chemistry: 'agm',
    peukert: 1.2,
    depth: 0.5,
    ports: [dc('post')],
    ...more,
  });
const MODELS = [
  battery('Lead'),
  battery('Lead200', { capacity: { ampHours: 200, atHours: 20 } }),
  battery('Flat', { peukert: 1, chemistry: 'lfp', depth: 0.8 }),
  battery('Dumb', { capacity: undefined }),
  battery('Lead24', { volts: 24, peukert: 1 }),
  model('Ten', 'load', { ports: [dc('power', 'in', { draws: A(10), max: A(20), standby: A(1) })] }),
  model('Watts', 'load', { ports: [dc('power', 'in', { draws: { amount: 120, unit: 'W' } })] }),
  model('Shy', 'load', { ports: [dc('power', 'in')] }),
  model('Selector', 'batteryswitch', {
    positions: [
      { name: 'off', joins: [] },
      { name: '1', joins: ['in1', 'out'] },
      { name: 'both', joins: ['in1', 'in2', 'out'] },
    ],
    ports: [dc('in1'), dc('in2'), dc('out')],
  }),
  model('Diodes', 'chargesplitter', {
    forwardVolts: 0.7,
    ports: [dc('in', 'in'), dc('out1', 'out'), dc('out2', 'out')],
  }),
  model('Down', 'converter', {
    efficiency: 0.8,
    ports: [dc('in', 'in'), dc('out', 'out', { outVolts: 12, limitsAmps: 30 })],
  }),
  model('Sun', 'solar', { ports: [dc('out', 'out', { outVolts: 14.4, limitsAmps: 20 })] }),
  model('Wild', 'solar', { ports: [dc('out', 'out', { outVolts: 14.4 })] }),
  model('Engine', 'engine', { ports: [dc('starter', 'in', { cranks: { amps: 360, seconds: 10 } })] }),
];

const mode = (name: string, ...duties: readonly Mode['duties'][number][]): Mode => ({
  origin: `mode ${name}`,
  name,
  duties,
});
const on = (device: string, duty?: number, atMax = false): Mode['duties'][number] => ({
  kind: 'on',
  device,
  duty,
  atMax,
});
const charge = (device: string, level?: number): Mode['duties'][number] => ({
  kind: 'charge',
  device,
  level,
});
const set = (device: string, position: string): Mode['duties'][number] => ({ kind: 'set', device, position });
const day = (name: string, ...parts: readonly (readonly [string, number])[]): Day => ({
  origin: `day ${name}`,
  name,
  parts: parts.map(([one, hours]) => ({ mode: one, seconds: hours * 3600 })),
});

function look(parts: BoatParts, modes: readonly Mode[], days: readonly Day[] = []): Context {
  return createContext(boat({ models: MODELS, ...parts, more: { modes, days } }));
}

const lasts = (bank: string, hours: number, inMode: string, cranks: readonly string[] = []) => ({
  origin: 'need',
  kind: 'last' as const,
  bank,
  seconds: hours * 3600,
  mode: inMode,
  cranks,
});

describe('hours on a bank', () => {
  const parts = {
    devices: { bank: 'Lead', load: 'Ten', sun: 'Sun' },
    feeds: ['bank -> load', 'sun -> bank'],
  };

  // 100 Ah at 20 h, k 1.2, 10 A: 8.71 h to empty (tests/reference), so 4.35 h to half.
  it('are 4.35 for half of 100 Ah at 10 A by Peukert', () => {
    const flow = look(parts, [mode('m', on('load'))]).energy.flowOf('bank', 'm');
    expect(flow?.hours?.low.toFixed(2)).toBe('4.35');
    expect(flow?.hours?.high).toBe(flow?.hours?.low);
  });

  // 10 A for 40 % of the time; 10 A and for a quarter of it 20 A; standby.
  it('go by the average of duty, maximum and standby', () => {
    const draws = (...duties: readonly Mode['duties'][number][]) =>
      look(parts, [mode('m', ...duties)]).energy.flowOf('bank', 'm')?.drawsAmps;
    expect(draws(on('load', 0.4))).toBeCloseTo(4, 12);
    expect(draws(on('load', 0.25, true))).toBeCloseTo(12.5, 12);
    expect(draws()).toBe(1);
  });

  // 20 A x 40 % = 8 A of the 10 A: 2 A are left, 25 h to half, since 2 A is under the rated current.
  it('count what charges, at its level', () => {
    const { energy } = look(parts, [
      mode('some', on('load'), charge('sun', 0.4)),
      mode('enough', on('load'), charge('sun')),
    ]);
    expect(energy.flowOf('bank', 'some')).toMatchObject({ drawsAmps: 10 });
    expect(energy.flowOf('bank', 'some')?.hours?.low).toBeCloseTo(25, 9);
    expect(energy.flowOf('bank', 'enough')?.hours).toEqual({ low: Infinity, high: Infinity });
    expect(energy.flowOf('bank', 'enough')?.netAmps).toBe(-10);
  });

  // 120 W / 0.8 / 24 V = 6.25 A, of 50 Ah: 8 h (k is 1).
  it('go through a converter with its efficiency, at the voltage of the bank', () => {
    const { energy } = look(
      {
        devices: { bank: 'Lead24', down: 'Down', load: 'Watts' },
        feeds: ['bank -> down.in', 'down.out -> load'],
      },
      [mode('m', on('load'))],
    );
    expect(energy.flowOf('bank', 'm')?.drawsAmps).toBeCloseTo(6.25, 12);
    expect(energy.flowOf('bank', 'm')?.hours?.low).toBeCloseTo(8, 9);
  });

  // 10 A from 300 Ah: a third and two thirds; each under its rated current, so 150 / 10 = 15 h both.
  it('are shared by capacity where a switch joins banks, and alone where it does not', () => {
    const { energy } = look(
      {
        devices: { a: 'Lead', b: 'Lead200', sel: 'Selector', load: 'Ten' },
        feeds: ['a -> sel.in1', 'b -> sel.in2', 'sel.out -> load'],
      },
      [
        mode('both', on('load'), set('sel', 'both')),
        mode('one', on('load'), set('sel', '1')),
        mode('mute', on('load')),
      ],
    );
    expect(energy.flowOf('a', 'both')?.drawsAmps).toBeCloseTo(10 / 3, 12);
    expect(energy.flowOf('b', 'both')).toMatchObject({ beside: ['a'] });
    for (const bank of ['a', 'b']) expect(energy.flowOf(bank, 'both')?.hours?.low).toBeCloseTo(15, 9);
    expect(energy.flowOf('b', 'one')?.drawsAmps).toBe(0);
    expect(energy.flowOf('a', 'mute')?.missing).toBe('it is not said how sel stands');
  });

  it('are not known where banks of two kinds share, or diodes let several carry it', () => {
    const twoKinds = look(
      {
        devices: { a: 'Lead', b: 'Flat', load: 'Ten' },
        feeds: ['a -> b', 'a -> load'],
      },
      [mode('m', on('load'))],
    );
    expect(twoKinds.energy.flowOf('a', 'm')).toMatchObject({
      hours: undefined,
      missing: 'a and b are joined and not alike, so that it is not known how they share',
    });
  });

  // A source of 20 A behind diodes covers 10 A on one side; what is over charges both, by capacity.
  it('count a source behind a splitter once', () => {
    const { energy } = look(
      {
        devices: { a: 'Lead', b: 'Lead', sun: 'Sun', split: 'Diodes', load: 'Ten' },
        feeds: ['sun -> split.in', 'split.out1 -> a', 'split.out2 -> b', 'a -> load'],
      },
      [mode('m', on('load'), charge('sun'))],
    );
    const net = ['a', 'b'].map((bank) => energy.flowOf(bank, 'm')?.netAmps ?? NaN);
    expect(net).toEqual([-5, -5]);
  });
});

describe('a need that a bank lasts', () => {
  const parts = {
    devices: {
      bank: 'Lead',
      load: 'Ten',
      shy: 'Shy',
      wild: 'Wild',
      dumb: 'Dumb',
      lone: 'Lead',
      spare: 'Engine',
      engine: 'Engine',
      other: 'Lead',
    },
    feeds: ['bank -> load', 'bank -> shy', 'wild -> bank', 'other -> engine.starter', 'dumb -> load'],
  };
  const { energy } = look(parts, [
    mode('m', on('load')),
    mode('open', on('load'), on('shy')),
    mode('wild', on('load'), charge('wild')),
  ]);
  it('is met up to the hours, and not beyond, with the figures', () => {
    expect(energy.lasting(lasts('bank', 4.3, 'm')).met).toBe(true);
    const short = energy.lasting(lasts('bank', 4.4, 'm'));
    expect(short.met).toBe(false);
    expect(short.reason).toBe(
      'it lasts 4.4 h in m: it gives 10 A on average (most of it load 10 A), and of 100 Ah 50 % may be used',
    );
  });
  it('is not met with a draw unknown where it is too short anyway, else unknown by what is missing', () => {
    expect(energy.lasting(lasts('bank', 5, 'open')).met).toBe(false);
    expect(energy.lasting(lasts('bank', 1, 'open'))).toEqual({
      met: null,
      reason: 'Shy does not say what it draws',
    });
  });
  it('is met with a source unknown where it lasts anyway, else unknown by what is missing', () => {
    expect(energy.lasting(lasts('bank', 4, 'wild')).met).toBe(true);
    expect(energy.lasting(lasts('bank', 5, 'wild'))).toEqual({
      met: null,
      reason: 'Wild does not say what its output limits',
    });
    expect(energy.lasting(lasts('dumb', 1, 'm')).reason).toBe('Dumb does not say its capacity');
    expect(energy.lasting(lasts('lone', 1, 'm'))).toEqual({
      met: null,
      reason: 'no feed is declared at lone',
    });
    expect(energy.lasting(lasts('bank', 1, 'm', ['spare'])).reason).toBe(
      'no battery is declared that spare is cranked from',
    );
    expect(energy.lasting(lasts('load', 1, 'm')).met).toBe(null);
  });

  // 360 A for 10 s is 1 Ah, by Peukert (360 / 5)^0.2 = 2.35 Ah of 50: at 1 A left on standby 47.6 h instead of 50.
  it('keeps what cranking takes, and asks it of the right bank', () => {
    const own = look(
      {
        devices: { bank: 'Lead', load: 'Ten', engine: 'Engine' },
        feeds: ['bank -> load', 'bank -> engine.starter'],
      },
      [mode('m')],
    ).energy;
    expect(own.lasting(lasts('bank', 47.6, 'm', ['engine'])).met).toBe(true);
    expect(own.lasting(lasts('bank', 47.7, 'm', ['engine'])).met).toBe(false);
    expect(own.lasting(lasts('bank', 47.7, 'm')).met).toBe(true);
    expect(energy.lasting(lasts('bank', 1, 'm', ['engine']))).toEqual({
      met: false,
      reason: 'engine cannot be cranked from bank however the switches stand: its starter hangs on other',
    });
  });
});

describe('a day', () => {
  const parts = {
    devices: { bank: 'Flat', load: 'Ten', sun: 'Sun' },
    feeds: ['bank -> load', 'sun -> bank'],
  };
  const modes = [mode('use', on('load', 0.5)), mode('sunny', charge('sun', 0.55)), mode('idle')];
  // 5 A for 8 h takes 40 Ah; 11 A less 1 A of standby for 6 h would put 60 x 0.98 back: 40 Ah are.
  it('comes back where enough is charged', () => {
    const [one] = look(parts, modes, [day('d', ['use', 8], ['sunny', 6])]).energy.days();
    expect(one).toMatchObject({ comesBack: true, daysToDepth: undefined, hours: 14, missing: undefined });
    expect(one?.outAmpHours).toBeCloseTo(40, 9);
    expect(one?.inAmpHours).toBeCloseTo(40, 9);
    expect(one?.lowest).toBeCloseTo(0.6, 9);
  });
  // The same with an hour of sun: 9.8 Ah back, 30.2 Ah lost a day. Lowest 40, 70.2, 100.4: over 80 % on the third.
  it('falls where it is not, and says on which day it is too deep', () => {
    const [one] = look(parts, modes, [day('d', ['use', 8], ['sunny', 1])]).energy.days();
    expect(one).toMatchObject({ comesBack: false, daysToDepth: 3 });
  });
  // Charged first, a full bank takes nothing on the first day; from the second it fills what the night took.
  it('settles whichever part comes first', () => {
    const [one] = look(parts, modes, [day('d', ['sunny', 6], ['use', 8])]).energy.days();
    expect(one).toMatchObject({ comesBack: true });
    expect(one?.inAmpHours).toBeCloseTo(40, 9);
  });
});

describe('any boat', () => {
  const size = fc.double({ min: 0.1, max: 60, noNaN: true });
  it('lasts no longer with a larger load, a smaller bank or a weaker source, and no figure is NaN', () => {
    const seen = { finite: 0, endless: 0 };
    const share = fc.integer({ min: 0, max: 100 }).map((percent) => percent / 100);
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 250 }).map((tenths) => tenths / 10),
        size,
        fc.double({ min: 1, max: 900, noNaN: true }),
        share,
        share,
        (amps, more, ah, k, level) => {
          const hours = (draw: number, capacity: number, given: number): number => {
            const models = [
              battery('B', { capacity: { ampHours: capacity, atHours: 20 }, peukert: 1 + k / 2 }),
              model('L', 'load', { ports: [dc('power', 'in', { draws: A(draw) })] }),
              MODELS.find(({ name }) => name === 'Sun') ?? model('Sun', 'solar'),
            ];
            const { energy } = look(
              { models, devices: { b: 'B', l: 'L', sun: 'Sun' }, feeds: ['b -> l', 'sun -> b'] },
              [mode('m', on('l'), charge('sun', given))],
              [day('d', ['m', 24])],
            );
            const [one] = energy.days();
            for (const figure of [one?.lowest, one?.inAmpHours, one?.outAmpHours])
              expect(figure).not.toBeNaN();
            return energy.flowOf('b', 'm')?.hours?.low ?? NaN;
          };
          const base = hours(amps, ah, level);
          if (Number.isFinite(base)) seen.finite++;
          else seen.endless++;
          expect(base).toBeGreaterThan(0);
          expect(hours(amps + more, ah, level)).toBeLessThanOrEqual(base);
          expect(hours(amps, ah / 2, level)).toBeLessThanOrEqual(base);
          expect(hours(amps, ah, level / 2)).toBeLessThanOrEqual(base);
        },
      ),
      { numRuns: 120 },
    );
    console.log('energy:', JSON.stringify(seen));
    expect(Math.min(seen.finite, seen.endless)).toBeGreaterThanOrEqual(10);
  });
});
