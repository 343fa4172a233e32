/** What terminals draw in each mode: duties, standby, converters through to the bank, and backbones. */
import { describe, expect, it } from 'vitest';
import { createContext, type Context } from '../../../src/checks/context.js';
import { demandOf } from '../../../src/checks/power/loads/demand.js';
import { averageAmps, type TerminalLoad } from '../../../src/checks/power/loads/load.js';
import type { Duty, Mode } from '../../../src/vessel/model.js';
import { backbone, boat, dc, model, port, range, tap, type BoatParts } from '../../support/vessel.js';

const A = (amount: number) => ({ amount, unit: 'A' as const });
const W = (amount: number) => ({ amount, unit: 'W' as const });
const MODELS = [
  model('Lead12', 'battery', { volts: 12, lowestVolts: 11, chargesVolts: 14.4, ports: [dc('post')] }),
  model('Lead24', 'battery', { volts: 24, lowestVolts: 22, chargesVolts: 28.8, ports: [dc('post')] }),
  model('Ways', 'panel', {
    ports: [dc('in', 'in'), ...range(4, 'dc').map((port) => ({ ...dc(port.name, 'out'), group: '1..4' }))],
  }),
  model('Down', 'converter', {
    efficiency: 0.8,
    ports: [dc('in', 'in'), dc('out', 'out', { outVolts: 12, limitsAmps: 30 })],
  }),
  model('Untold', 'converter', { ports: [dc('in', 'in'), dc('out', 'out', { outVolts: 12 })] }),
  model('Engine', 'engine', {
    ports: [
      dc('starter', 'in', { cranks: { amps: 200, seconds: 2 } }),
      dc('charge', 'out', { outVolts: 14.2 }),
      dc('ecu', 'in', { draws: A(5) }),
    ],
  }),
  model('Radio', 'radio', { ports: [dc('power', 'in', { draws: A(0.5), max: A(5.5), standby: A(0.1) })] }),
  model('Lamp', 'load', { ports: [dc('power', 'in', { draws: W(24) })] }),
  model('Mute', 'load', { ports: [dc('power', 'in')] }),
  model('Wind', 'instrument', { ports: [port('n2k', 'nmea2000', { len: 2 })] }),
  model('Depth', 'instrument', { ports: [port('n2k', 'nmea2000')] }),
  model('Screen', 'display', { ports: [dc('power', 'in', { draws: A(2) }), port('n2k', 'nmea2000')] }),
];

const on = (device: string, duty?: number, atMax = false): Duty => ({ kind: 'on', device, duty, atMax });
const mode = (name: string, ...duties: Duty[]): Mode => ({ origin: `mode ${name}`, name, duties });
const contextOf = (parts: BoatParts): Context => createContext(boat({ models: MODELS, ...parts }));
const loadAt = ({ loads }: Context, terminal: string, one?: Mode): TerminalLoad => {
  const load = loads.loadsIn(one).at(terminal);
  if (load === undefined) throw new Error(`nothing draws at ${terminal}`);
  return load;
};

describe('a device in a mode', () => {
  const afloat = mode('afloat', on('lamp', 0.25), on('vhf', 0.05, true));
  const asleep = mode('asleep');
  const full = mode('full', on('vhf', undefined, true), { kind: 'others' });
  const context = contextOf({
    devices: {
      house: 'Lead12',
      ways: 'Ways',
      vhf: 'Radio',
      lamp: 'Lamp',
      mute: 'Mute',
      gone: 'Lamp leaving',
    },
    feeds: ['house -> ways', 'ways.1 -> vhf', 'ways.2 -> lamp', 'ways.3 -> mute', 'ways.4 -> gone'],
    more: { modes: [afloat, asleep, full] },
  });

  it('runs for its share of the time, and draws the whole while it runs', () => {
    const lamp = loadAt(context, 'lamp.power', afloat);
    expect(lamp).toMatchObject({ state: 'on', duty: 0.25, running: W(24) });
    expect(averageAmps(lamp, 12)).toBeCloseTo(0.5, 12);
  });

  it('is at its maximum for the share that is said, and draws as usual for the rest', () => {
    const vhf = loadAt(context, 'vhf.power', afloat);
    expect(vhf).toMatchObject({ duty: 1, maxDuty: 0.05, running: A(5.5) });
    expect(averageAmps(vhf, 12)).toBeCloseTo(0.05 * 5.5 + 0.95 * 0.5, 12);
    expect(averageAmps(loadAt(context, 'vhf.power', full), 12)).toBe(5.5);
  });

  it('is on standby where it is not named and says what it draws then, else off', () => {
    expect(loadAt(context, 'vhf.power', asleep)).toMatchObject({
      state: 'standby',
      running: A(0.1),
      duty: 0,
    });
    expect(averageAmps(loadAt(context, 'vhf.power', asleep), 12)).toBe(0.1);
    expect(loadAt(context, 'lamp.power', asleep)).toMatchObject({ state: 'off', running: A(0) });
    expect(averageAmps(loadAt(context, 'lamp.power', asleep), 12)).toBe(0);
  });

  it('says what is missing of one that is on, and is none where it comes out', () => {
    expect(loadAt(context, 'mute.power', full).missing).toBe('Mute does not say what it draws');
    expect(averageAmps(loadAt(context, 'mute.power', full), 12)).toBeUndefined();
    expect(loadAt(context, 'mute.power', afloat).missing).toBeUndefined();
    expect(context.loads.loadsIn(full).at('gone.power')).toBeUndefined();
  });

  it('adds up to what flows through a panel in the worst mode', () => {
    const demand = demandOf(context.supply, context.protection, context.loads);
    expect(demand('ways.in')).toMatchObject({ amps: 7.5, silent: { device: 'mute' } });
    expect(demand('ways.in').mode?.name).toBe('afloat');
    expect(demand('ways.1').amps).toBe(5.5);
  });

  it('is on without a mode, and a starter is no load of a mode', () => {
    const still = contextOf({
      devices: { house: 'Lead12', engine: 'Engine', lamp: 'Lamp' },
      feeds: ['house -> engine.starter', 'house -> engine.ecu', 'house -> lamp'],
    });
    expect(still.loads.modes).toEqual([undefined]);
    expect(still.loads.loadsIn().all.map(({ terminal, state }) => [terminal, state])).toEqual([
      ['engine.ecu', 'on'],
      ['lamp.power', 'on'],
    ]);
    expect(still.loads.starters).toEqual([
      { terminal: 'engine.starter', device: 'engine', amps: 200, seconds: 2 },
    ]);
  });

  it('runs where it charges', () => {
    const away: Mode = mode('away', { kind: 'charge', device: 'engine', level: undefined });
    const driven = contextOf({ devices: { engine: 'Engine' }, more: { modes: [away] } });
    expect(loadAt(driven, 'engine.ecu', away).state).toBe('on');
  });
});

describe('a converter', () => {
  it('draws the power of what hangs on it over its efficiency, and another that hangs on it too', () => {
    const context = contextOf({
      devices: { house: 'Lead24', first: 'Down', ways: 'Ways', vhf: 'Radio', second: 'Down', lamp: 'Lamp' },
      feeds: [
        'house -> first.in',
        'first.out -> ways',
        'ways.1 -> vhf',
        'ways.2 -> second.in',
        'second.out -> lamp',
      ],
    });
    expect(loadAt(context, 'second.in')).toMatchObject({ kind: 'converter', running: W(24 / 0.8) });
    const first = loadAt(context, 'first.in');
    // 12 V x 0.5 A and 30 W, at 80 %.
    expect(first.running?.amount).toBeCloseTo((6 + 30) / 0.8, 12);
    expect(first.maximum?.amount).toBeCloseTo((66 + 30) / 0.8, 12);
    expect(averageAmps(first, 24)).toBeCloseTo(45 / 24, 12);
  });

  it('says what it does not say, and a ring of converters ends', () => {
    const untold = contextOf({
      devices: { house: 'Lead24', down: 'Untold', lamp: 'Lamp' },
      feeds: ['house -> down.in', 'down.out -> lamp'],
    });
    expect(loadAt(untold, 'down.in').missing).toBe('Untold does not say its efficiency');
    const ring = contextOf({
      devices: { a: 'Down', b: 'Down' },
      feeds: ['a.out -> b.in', 'b.out -> a.in'],
    });
    expect(loadAt(ring, 'a.in').running?.amount).toBe(0);
  });

  it('charges a battery on its output only where the mode says so', () => {
    const charging = mode('charging', { kind: 'charge', device: 'down', level: 0.5 });
    const resting = mode('resting', { kind: 'others' });
    const context = contextOf({
      devices: { house: 'Lead24', down: 'Down', start: 'Lead12' },
      feeds: ['house -> down.in', 'down.out -> start'],
      more: { modes: [charging, resting] },
    });
    expect(loadAt(context, 'down.in', charging).running?.amount).toBeCloseTo((12 * 30 * 0.5) / 0.8, 12);
    expect(loadAt(context, 'down.in', resting).state).toBe('off');
  });
});

describe('a backbone', () => {
  const resting = mode('resting', on('screen'));
  const context = contextOf({
    devices: { house: 'Lead12', ways: 'Ways', wind: 'Wind', depth: 'Depth', screen: 'Screen' },
    feeds: ['house -> ways', 'ways.2 -> screen'],
    backbones: [backbone('nav', [tap('nav', 'ways.1'), 'wind', 'screen', 'depth'])],
    more: { modes: [resting] },
  });

  it('draws the load units of what it powers, and not of what has a supply of its own', () => {
    const load = loadAt(context, 'backbone nav');
    expect(load).toMatchObject({ kind: 'bus', device: 'nav', state: 'on', running: A(0.1) });
    expect(load.missing).toBe('Depth does not say its load units (len)');
  });

  it('is off while nothing that it powers is on', () => {
    expect(loadAt(context, 'backbone nav', resting)).toMatchObject({ state: 'off', missing: undefined });
  });
});
