/** Wires and fuses that the tool works out: what governs, what is missing, and what no conductor does. */
import { describe, expect, it } from 'vitest';
import { createContext, type Context } from '../../../src/checks/context.js';
import type { SizedEdge } from '../../../src/checks/power/sizing/sizing.js';
import { sizeText } from '../../../src/vessel/conductors/sizes.js';
import type { Duty, Feed, FuseType, Mode, Model, Protection } from '../../../src/vessel/model.js';
import { boat, dc, model, range, type BoatParts } from '../../support/vessel.js';
import { feed, zone } from '../../support/text.js';

const A = (amount: number) => ({ amount, unit: 'A' as const });
const BLADE: FuseType = {
  name: 'blade',
  ratingsAmps: [1, 2, 3, 5, 7.5, 10, 15, 20, 25, 30],
  interrupts: [{ amps: 1000, volts: 32 }],
  ratedVolts: 32,
  ignitionProtected: false,
};
const BOLTED: FuseType = {
  name: 'bolted',
  ratingsAmps: [30, 40, 50, 60, 80, 100, 150, 200],
  interrupts: [{ amps: 6000, volts: 32 }],
  ratedVolts: 32,
  ignitionProtected: true,
};
const lamp = (name: string, amps: number, facts: Partial<Model> = {}, fuse?: number): Model =>
  model(name, 'load', {
    ports: [dc('power', 'in', { draws: A(amps), fuseAmps: fuse })],
    ...facts,
  });
const MODELS = [
  model('Lead12', 'battery', {
    volts: 12,
    lowestVolts: 11,
    chargesVolts: 14.4,
    resistanceOhms: 0.004,
    ports: [dc('post')],
  }),
  model('Ways', 'panel', {
    ports: [
      dc('in', 'in'),
      ...range(4, 'dc').map((port) => ({ ...dc(port.name, 'out', { holds: ['blade'] }), group: '1..4' })),
    ],
  }),
  model('Engine', 'engine', {
    ports: [
      dc('starter', 'in', { cranks: { amps: 220, seconds: 2 } }),
      dc('charge', 'out', { outVolts: 14.2, limitsAmps: 60 }),
    ],
  }),
  model('Cutoff', 'batteryswitch', {
    positions: [
      { name: 'off', joins: [] },
      { name: 'on', joins: ['a', 'b'] },
    ],
    ports: [dc('a'), dc('b')],
  }),
  lamp('Lamp2', 2),
  lamp('Lamp10', 10),
  lamp('Winch', 60, {}, 80),
  lamp('Monster', 900),
  lamp('Faint', 0.2),
  model('Screen', 'display', { ports: [dc('power', 'in', { draws: A(10), fuseAmps: 15 })] }),
  model('Mute', 'load', { ports: [dc('power', 'in')] }),
];

/** A feed of a stated length. */
const long = (text: string, metres: number, facts: Partial<Feed> = {}): Feed => ({
  ...feed(text),
  lengthMetres: metres,
  ...facts,
});
const fuse = (amps: number | undefined, facts: Partial<Protection> = {}): Protection => ({
  device: 'fuse',
  amps,
  type: undefined,
  ratedVolts: undefined,
  interruptsAmps: undefined,
  at: undefined,
  afterMetres: undefined,
  ...facts,
});
const contextOf = (
  devices: Readonly<Record<string, string>>,
  feeds: readonly Feed[],
  more: BoatParts['more'] = {},
): Context =>
  createContext(
    boat({
      models: MODELS,
      zones: ['cabin interior'],
      devices: Object.fromEntries(Object.entries(devices).map(([name, text]) => [name, `${text} @ cabin`])),
      more: {
        practice: 'abyc',
        wiringCelsius: 105,
        feeds,
        fuseTypes: { blade: BLADE, bolted: BOLTED },
        ...more,
      },
    }),
  );
const sizedOf = ({ sizing }: Context, text: string): SizedEdge => {
  const found = sizing.all.find(({ edge }) => edge.text === text);
  if (found === undefined) throw new Error(`no conductor ${text}`);
  return found;
};
const wireOf = (sized: SizedEdge): string =>
  `${sized.wire.size === undefined ? 'none' : sizeText(sized.wire.size)} by ${sized.wire.governedBy ?? sized.wire.none?.by ?? 'nothing'}`;
const fusesOf = (sized: SizedEdge): unknown =>
  sized.protection.map(({ device, computed }) => [device.amps, device.type?.name, device.end, computed]);

describe('a wire that is left to the tool', () => {
  it('follows the printed example: 10 A at 12 V, 3 %, 20 ft round trip asks for 10 AWG (ABYC E-11)', () => {
    const context = contextOf({ house: 'Lead12', screen: 'Screen' }, [long('house -> screen', 10 * 0.3048)]);
    const sized = sizedOf(context, 'house -> screen');
    expect(wireOf(sized)).toBe('10 AWG by drop');
    expect(sized).toMatchObject({ typicalAmps: 10, maxAmps: 10, ampacityAmps: 60 });
  });

  it('is governed by the current where it is short, by the least size where it carries little', () => {
    const context = contextOf({ house: 'Lead12', winch: 'Winch', faint: 'Faint', lamp: 'Lamp2' }, [
      long('house -> winch', 0.3),
      long('house -> faint', 0.3),
      long('house -> lamp', 0.3),
    ]);
    expect(wireOf(sizedOf(context, 'house -> winch'))).toBe('10 AWG by ampacity');
    // A circuit under 1 A is exempt from the least size (33 CFR 183.425 (g)); one of 2 A is not.
    expect(wireOf(sizedOf(context, 'house -> faint'))).toBe('18 AWG by minimum');
    expect(wireOf(sizedOf(context, 'house -> lamp'))).toBe('16 AWG by minimum');
  });

  it('is as thick as the fuse that is written asks: 80 A on 105 C needs 53.3 A, 10 AWG (33 CFR 183.455)', () => {
    const context = contextOf({ house: 'Lead12', lamp: 'Lamp2' }, [
      long('house -> lamp', 0.3, { protections: [fuse(80, { at: 'house', type: 'bolted' })] }),
    ]);
    expect(wireOf(sizedOf(context, 'house -> lamp'))).toBe('10 AWG by fuse');
  });

  it('leaves the branches behind a feeder their share, by length', () => {
    // 10 A over 3 m and 3 m, 0.36 V in all: each may lose 0.18 V, which asks for 4 AWG minimum areas: R = 0.18 / 60 ohm/m,
    // 10.75 / 0.3048 / 0.003 = 11756 cmil: 8 AWG (14810).
    const context = contextOf({ house: 'Lead12', ways: 'Ways', screen: 'Screen' }, [
      long('house -> ways', 3),
      long('ways.1 -> screen', 3),
    ]);
    expect(wireOf(sizedOf(context, 'house -> ways'))).toBe('8 AWG by drop');
    // The feeder lost less than its share: 10 x 6 x 10.75 / 0.3048 / 14810 = 0.143 V; 0.217 V are left: 9750 cmil, 8 AWG again.
    expect(wireOf(sizedOf(context, 'ways.1 -> screen'))).toBe('8 AWG by drop');
  });

  it('takes off what a wire as written will lose behind it, and shares out the rest', () => {
    // 10 A over 2 m of 12 AWG as written: 10 x 4 x 10.75 / 0.3048 / 5833 = 0.242 V of 0.36 V. 0.118 V are left for the 3 m
    // before it: 17 930 cmil, 6 AWG (24538). By length alone it might lose 0.216 V, for which 8 AWG would do.
    const context = contextOf({ house: 'Lead12', ways: 'Ways', screen: 'Screen' }, [
      long('house -> ways', 3),
      long('ways.1 -> screen', 2, { wire: { standard: 'AWG', size: '12' } }),
    ]);
    expect(wireOf(sizedOf(context, 'house -> ways'))).toBe('6 AWG by drop');
  });

  it('carries the worst mode of what hangs on it, with one device at its maximum', () => {
    const on = (device: string): Duty => ({ kind: 'on', device, duty: undefined, atMax: false });
    const quiet: Mode = { origin: 'mode quiet', name: 'quiet', duties: [on('small')] };
    const busy: Mode = { origin: 'mode busy', name: 'busy', duties: [on('small'), on('big')] };
    const context = contextOf(
      { house: 'Lead12', ways: 'Ways', small: 'Lamp2', big: 'Lamp10', never: 'Screen' },
      [
        long('house -> ways', 1),
        long('ways.1 -> small', 1),
        long('ways.2 -> big', 1),
        long('ways.3 -> never', 1),
      ],
      { modes: [quiet, busy] },
    );
    // 12 A at once, and the screen, which no mode has on, may be switched on besides.
    expect(sizedOf(context, 'house -> ways')).toMatchObject({ typicalAmps: 12, maxAmps: 22 });
  });

  it('stands its charging current and its starter', () => {
    const context = contextOf({ start: 'Lead12', cutoff: 'Cutoff', engine: 'Engine' }, [
      long('start -> cutoff', 0.5, { cranking: true }),
      long('cutoff -> engine.starter', 0.5, { cranking: true }),
      long('engine.charge -> start', 1),
    ]);
    expect(sizedOf(context, 'engine.charge -> start')).toMatchObject({ maxAmps: 60 });
    expect(wireOf(sizedOf(context, 'engine.charge -> start'))).toBe('10 AWG by ampacity');
    // Half of 220 A: 6 AWG carries 120 A. The switch need not be on for that.
    expect(wireOf(sizedOf(context, 'start -> cutoff'))).toBe('6 AWG by ampacity');
    expect(fusesOf(sizedOf(context, 'start -> cutoff'))).toEqual([]);
  });

  it('is none where nothing suffices, and says by what', () => {
    const context = contextOf({ house: 'Lead12', monster: 'Monster', screen: 'Screen' }, [
      long('house -> monster', 1),
      long('house -> screen', 400),
    ]);
    expect(wireOf(sizedOf(context, 'house -> monster'))).toBe('none by ampacity');
    expect(wireOf(sizedOf(context, 'house -> screen'))).toBe('none by drop');
  });

  it('is none where a fact is missing, and says which', () => {
    const context = contextOf({ house: 'Lead12', mute: 'Mute', lamp: 'Lamp2' }, [
      long('house -> mute', 1),
      feed('house -> lamp'),
    ]);
    expect(sizedOf(context, 'house -> mute').missing).toBe('Mute does not say what it draws');
    expect(
      sizedOf(
        contextOf({ house: 'Lead12', lamp: 'Lamp2' }, [long('house -> lamp', 1)], { practice: undefined }),
        'house -> lamp',
      ).missing,
    ).toBe('Test does not say its practice');
  });
});

describe('a wire and its fuse', () => {
  it('do not wait for each other where no type fits: the wire is known, and the end is named', () => {
    // Of the types here only a blade has 15 A, and it does not interrupt the 3 kA of the battery.
    const context = contextOf({ house: 'Lead12', screen: 'Screen' }, [long('house -> screen', 1)]);
    const sized = sizedOf(context, 'house -> screen');
    expect(sized.unfitted).toEqual(['house.post']);
    expect(wireOf(sized)).toBe('16 AWG by drop');
  });
});

describe('a fuse that is left to the tool', () => {
  it("stands where fault current comes from, carries the load and is the maker's own", () => {
    const context = contextOf(
      { house: 'Lead12', ways: 'Ways', winch: 'Winch', screen: 'Screen', lamp: 'Lamp2' },
      [
        long('house -> ways', 1),
        long('house -> winch', 0.3),
        long('ways.1 -> screen', 1),
        long('ways.2 -> lamp', 1),
      ],
    );
    expect(fusesOf(sizedOf(context, 'house -> winch'))).toEqual([[80, 'bolted', 'from', true]]);
    expect(fusesOf(sizedOf(context, 'ways.1 -> screen'))).toEqual([]);
    // 12 A at 80 % asks for 15 A, which no bolted one is; a blade can't interrupt 3 kA.
    expect(fusesOf(sizedOf(context, 'house -> ways'))).toEqual([[30, 'bolted', 'from', true]]);
  });

  it('is the rating of one that is written without', () => {
    const context = contextOf({ house: 'Lead12', lamp: 'Lamp2' }, [
      long('house -> lamp', 1, { protections: [fuse(undefined, { at: 'house', type: 'blade' })] }),
    ]);
    // 2 A at 80 %: 2.5 A, so 3 A.
    expect(fusesOf(sizedOf(context, 'house -> lamp'))).toEqual([[3, 'blade', 'from', true]]);
  });

  it('makes no spark in a petrol space', () => {
    const fused = (fuel: 'petrol' | 'diesel'): unknown =>
      fusesOf(
        sizedOf(
          contextOf({ house: 'Lead12', winch: 'Winch' }, [long('house -> winch', 0.3)], {
            zones: [{ ...zone('cabin interior'), fuel }],
            fuseTypes: { bolted: BOLTED, open: { ...BOLTED, name: 'aOpen', ignitionProtected: false } },
          }),
          'house -> winch',
        ),
      );
    expect(fused('diesel')).toEqual([[80, 'aOpen', 'from', true]]);
    expect(fused('petrol')).toEqual([[80, 'bolted', 'from', true]]);
  });

  it('is added behind a main that is too large for the branch', () => {
    const context = contextOf({ house: 'Lead12', ways: 'Ways', lamp: 'Lamp2' }, [
      long('house -> ways', 1, { protections: [fuse(100, { at: 'house', type: 'bolted' })] }),
      long('ways.1 -> lamp', 1),
    ]);
    expect(fusesOf(sizedOf(context, 'ways.1 -> lamp'))).toEqual([[3, 'blade', 'from', true]]);
  });

  it('stands at both ends between two batteries, and at the battery of a charging source', () => {
    const context = contextOf({ house: 'Lead12', start: 'Lead12', engine: 'Engine', cutoff: 'Cutoff' }, [
      long('house -> cutoff', 1),
      long('cutoff -> start', 1),
      long('engine.charge -> house', 1),
    ]);
    expect(fusesOf(sizedOf(context, 'engine.charge -> house'))).toEqual([[80, 'bolted', 0, true]]);
  });
});
