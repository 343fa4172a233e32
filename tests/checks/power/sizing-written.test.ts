/**
 * What the tool works out, written into the boat as if by hand, breaks no rule that judges what is written: over random feeds of
 * both practices. The rules share the tables with the sizing, and none of its steps.
 */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { analyse } from '../../../src/checks/analyse.js';
import { createContext } from '../../../src/checks/context.js';
import type { SizedEdge } from '../../../src/checks/power/sizing/sizing.js';
import type { Feed, FuseType, Model, Vessel } from '../../../src/vessel/model.js';
import { feed, run, zone } from '../../support/text.js';
import { boat, dc, model, range } from '../../support/vessel.js';

const fuseType = (name: string, ratingsAmps: readonly number[], amps: number): FuseType => ({
  name,
  ratingsAmps,
  interrupts: [{ amps, volts: 58 }],
  ratedVolts: 58,
  ignitionProtected: true,
});
const FUSES = {
  blade: fuseType('blade', [1, 2, 3, 5, 7.5, 10, 15, 20, 25, 30], 1000),
  cartridge: fuseType('cartridge', [1, 2, 3, 5, 10, 15, 20, 25], 20_000),
  bolted: fuseType('bolted', [30, 40, 50, 60, 80, 100, 125, 150, 175, 200, 250, 300], 10_000),
};
const HOT = { name: 'machinery', asks: [], wet: false, hot: true };
const draws = (amps: number) => ({ amount: amps, unit: 'A' as const });
const RULES = new Set([
  'power/min-size',
  'power/ampacity',
  'power/voltage-drop',
  'power/unprotected',
  'power/fuse-over-wire',
  'power/fuse-over-device',
  'power/fuse-under-load',
  'power/fuse-not-standard',
  'power/fuse-voltage',
  'power/wire-not-standard',
  'power/interrupting',
]);

const oneLoad = fc.record({
  amps: fc.oneof(fc.double({ min: 0.1, max: 4, noNaN: true }), fc.double({ min: 4, max: 25, noNaN: true })),
  surge: fc.double({ min: 1, max: 2, noNaN: true }),
  kind: fc.constantFrom('light', 'navlight', 'bilgepump', 'motor', 'display'),
  metres: fc.double({ min: 0.1, max: 9, noNaN: true }),
  sheathed: fc.boolean(),
  stated: fc.boolean(),
  direct: fc.boolean(),
  zone: fc.constantFrom('cabin', 'engines'),
});
const given = fc.record({
  practice: fc.constantFrom('abyc' as const, 'iso' as const),
  celsius: fc.constantFrom(60, 70, 75, 85, 90, 105),
  volts: fc.constantFrom(12, 24),
  main: fc.double({ min: 0.3, max: 8, noNaN: true }),
  loads: fc.array(oneLoad, { minLength: 1, maxLength: 4 }),
});
type Given = typeof given extends fc.Arbitrary<infer T> ? T : never;

/** The least rating of the series that carries a load: what its maker may well state. */
const enough = (amps: number): number | undefined =>
  [...FUSES.blade.ratingsAmps, ...FUSES.bolted.ratingsAmps].find((rating) => rating >= amps * 1.25);

function boatOf({ practice, celsius, volts, main, loads }: Given): Vessel {
  const models: Model[] = loads.map(({ amps, surge, kind, stated }, n) =>
    model(`Load${n}`, kind === 'display' ? 'display' : 'load', {
      ...(kind === 'display' ? {} : { kind }),
      ports: [
        dc('power', 'in', {
          draws: draws(amps),
          max: draws(amps * surge),
          ...(stated ? { fuseAmps: enough(amps * surge) } : {}),
        }),
      ],
    }),
  );
  const long = (text: string, metres: number, sheathed = false): Feed => ({
    ...feed(text),
    lengthMetres: metres,
    sheathed,
  });
  return boat({
    models: [
      ...models,
      model('Bank', 'battery', {
        volts,
        lowestVolts: volts * 0.92,
        chargesVolts: volts * 1.2,
        resistanceOhms: 0.004,
        ports: [dc('post')],
      }),
      model('Ways', 'panel', {
        ports: [dc('in', 'in'), ...range(4, 'dc').map(({ name }) => dc(name, 'out'))],
      }),
    ],
    devices: {
      house: 'Bank @ engines',
      ways: 'Ways @ cabin',
      ...Object.fromEntries(loads.map(({ zone }, n) => [`load${n}`, `Load${n} @ ${zone}`])),
    },
    more: {
      practice,
      zones: [zone('cabin interior'), { ...zone('engines interior'), exposure: HOT }],
      runs: [run('cabin -- engines 3')],
      wiringCelsius: celsius,
      fuseTypes: FUSES,
      feeds: [
        long('house -> ways', main),
        ...loads.map(({ metres, sheathed, direct }, n) =>
          long(`${direct ? 'house' : `ways.${n + 1}`} -> load${n}`, metres, sheathed),
        ),
      ],
    },
  });
}

/** A feed with what was worked out for it as its own words. */
function written(one: Feed, { wire, protection, edge }: SizedEdge): Feed {
  return {
    ...one,
    wire: wire.size,
    protections: protection.map(({ device }) => ({
      ...device.protection,
      amps: device.amps,
      type: device.type?.name,
      at: (device.end === 'from' || device.end === undefined ? edge.from : edge.legs[device.end]?.to)?.split(
        '.',
      )[0],
    })),
  };
}

it('breaks no rule that judges what is written, over random feeds', () => {
  const seen: Record<string, number> = {
    feeds: 0,
    fuses: 0,
    ampacity: 0,
    drop: 0,
    fuse: 0,
    minimum: 0,
    none: 0,
  };
  const count = (what: string): void => {
    seen[what] = (seen[what] ?? 0) + 1;
  };
  fc.assert(
    fc.property(given, (one) => {
      const vessel = boatOf(one);
      const { sizing } = createContext(vessel);
      const sized = vessel.feeds.map((each) => sizing.all.find(({ edge }) => edge.origin === each.origin));
      // What nothing suffices for has a finding of its own, and nothing to write.
      if (sized.some((each) => each?.wire.size === undefined || each.unfitted.length > 0)) {
        count('none');
        return;
      }
      const feeds = vessel.feeds.map((each, n) => {
        const own = sized[n];
        if (own === undefined) throw new Error(`${each.origin} is not sized`);
        count('feeds');
        count(own.wire.governedBy ?? 'none');
        seen['fuses'] = (seen['fuses'] ?? 0) + own.protection.length;
        return written(each, own);
      });
      const { findings } = analyse({ ...vessel, feeds }, { today: '2026-11-25' });
      expect(
        findings.filter(({ rule }) => RULES.has(rule)).map(({ rule, message }) => `${rule}: ${message}`),
      ).toEqual([]);
    }),
    { numRuns: 150 },
  );
  console.log('sized and written:', JSON.stringify(seen));
  for (const what of ['ampacity', 'drop', 'fuse', 'minimum'])
    expect(seen[what], what).toBeGreaterThanOrEqual(10);
  expect(seen['fuses']).toBeGreaterThan(150);
});
