/** A backbone read along its cable. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { analyse } from '../../../src/checks/analyse.js';
import { busBoat } from '../../support/busBoat.js';

const WHOLE = [
  'terminator',
  'a drop 1',
  'span 2',
  'tap',
  'ground',
  'span 3',
  'box drop 2 { b 1, c 2 }',
  'isolate',
  'tap other.out',
  'span 4',
  'capped',
  'terminator in d',
];
const UNITS = { a: 1, b: 2, c: 3, d: 4 };
const MORE = { more: { devices: { box: 'Box', other: 'Supply' } } };

describe('a backbone', () => {
  const { bus } = busBoat(WHOLE, UNITS, MORE).bus;

  it('has positions in metres from its first end', () => {
    expect([...bus.positions.values()].map(({ atMetres }) => atMetres)).toEqual([
      0, 0, 0, 2, 2, 2, 5, 5, 5, 5, 9, 9,
    ]);
    expect([bus.backboneMetres, bus.dropTotalMetres, bus.loadUnits]).toEqual([9, 6, 10]);
  });

  it('has a device where its tee is, with its way through the box', () => {
    const rows = bus.nodes.map(({ device, via, atMetres, dropMetres, stretch }) => [
      device,
      via,
      atMetres,
      dropMetres,
      stretch,
    ]);
    expect(rows).toEqual([
      ['a', 'tee', 0, 1, 0],
      ['b', 'branch', 5, 3, 0],
      ['c', 'branch', 5, 4, 0],
      ['d', 'terminator', 9, 0, 1],
    ]);
  });

  it('is parted by isolations, each part with its tap and its load', () => {
    expect(
      bus.stretches.map(({ id, taps, loadUnits }) => [id, taps.map((tap) => tap.fromText), loadUnits]),
    ).toEqual([
      ['backbone nav', ['supply.out'], 6],
      ['backbone nav (2)', ['other.out'], 4],
    ]);
    expect(bus.terminators.map(({ end, in: device }) => [end, device])).toEqual([
      ['first', undefined],
      ['last', 'd'],
    ]);
    expect(bus.missing).toEqual([]);
  });

  it('of one point has its terminators at its two ends', () => {
    const ends = (texts: readonly string[]): unknown =>
      busBoat(texts, { a: 1 }).bus.bus.terminators.map(({ end }) => end);
    expect(ends(['terminator', 'a drop 1', 'terminator'])).toEqual(['first', 'last']);
    expect(ends(['a drop 1', 'terminator'])).toEqual(['last']);
    expect(ends(['terminator', 'span 1', 'a drop 1', 'terminator', 'span 1', 'terminator'])).toEqual([
      'first',
      undefined,
      'last',
    ]);
  });

  it('counts a device once, however often it is named', () => {
    const { bus: twice } = busBoat(['terminator', 'a drop 1', 'a drop 2', 'terminator in a'], { a: 2 }).bus;
    expect(twice.nodes.map(({ device }) => device)).toEqual(['a']);
    expect(twice.loadUnits).toBe(2);
  });

  it('takes the tail for the drop where it is longer, or nothing is written', () => {
    const tail = { lengthMetres: 6, odMetres: undefined, headMetres: undefined };
    const { context } = busBoat(['terminator', 'a drop 4', 'b', 'c drop 7', 'terminator'], {
      a: 1,
      b: 1,
      c: 1,
    });
    const models = Object.fromEntries(
      Object.entries(context.vessel.models).map(([name, one]) => [
        name,
        {
          ...one,
          ports: one.ports.map((port) => (port.medium === 'nmea2000' ? { ...port, captive: tail } : port)),
        },
      ]),
    );
    const [read] = analyse({ ...context.vessel, models }, { today: '2026-11-25' }).buses;
    expect(read?.bus.nodes.map(({ dropMetres, byTail }) => [dropMetres, byTail])).toEqual([
      [6, true],
      [6, false],
      [7, false],
    ]);
  });

  it('turns a current into load units, each begun one counted whole', () => {
    const of = (amount: number, unit: 'A' | 'W'): number | undefined => {
      const { context } = busBoat(['terminator', 'a drop 1', 'terminator'], { a: undefined });
      const models = Object.fromEntries(
        Object.entries(context.vessel.models).map(([name, one]) => [
          name,
          {
            ...one,
            ports: one.ports.map((port) =>
              port.medium === 'nmea2000' ? { ...port, draws: { amount, unit } } : port,
            ),
          },
        ]),
      );
      return analyse({ ...context.vessel, models }, { today: '2026-11-25' }).buses[0]?.bus.loadUnits;
    };
    expect([of(0.05, 'A'), of(0.051, 'A'), of(0.15, 'A'), of(0.9, 'W'), of(0, 'A')]).toEqual([1, 2, 3, 2, 0]);
  });
});

describe('any backbone', () => {
  const item = fc.constantFrom(
    'terminator',
    'terminator in a',
    'terminator in nobody',
    'isolate',
    'ground',
    'tap',
    'tap a',
    'tap ?',
    'tap other.out',
    'span',
    'span 0',
    'span 3',
    'span here -- there',
    'span 1e9',
    'a',
    'a drop 2',
    'b drop 0',
    '?',
    '? drop 3',
    'capped',
    'box',
    'box drop 1 { a 1, b, ? }',
    'a { b }',
    'box { box 1 }',
  );

  it('is read and judged without a crash, with figures that are numbers', () => {
    let devices = 0;
    let found = 0;
    fc.assert(
      fc.property(fc.array(item, { maxLength: 14 }), (texts) => {
        const { context } = busBoat(texts, { a: 1, b: 3 }, MORE);
        const analysis = analyse(context.vessel, { today: '2026-11-25' });
        const [one] = analysis.buses;
        expect(one).toBeDefined();
        if (one === undefined) return;
        devices += one.bus.nodes.length;
        found += analysis.findings.length;
        const numbers = [
          one.bus.backboneMetres ?? 0,
          one.bus.dropKnownMetres,
          one.bus.loadUnits,
          one.traffic().worstShare,
          one.lowest()?.volts ?? 0,
          ...one
            .fed()
            .flatMap(({ drops }) => [drops.thumbVolts, ...drops.nodes.values(), ...drops.spans.values()]),
        ];
        expect(numbers.filter((value) => !Number.isFinite(value))).toEqual([]);
        for (const { stretch } of one.fed()) expect(stretch.taps.length).toBeGreaterThan(0);
        expect(one.bus.stretches.flatMap((stretch) => stretch.nodes).length).toBe(one.bus.nodes.length);
      }),
      { numRuns: 300 },
    );
    console.log(`300 backbones with ${devices} devices and ${found} findings`);
    expect(devices).toBeGreaterThan(150);
  });
});
