/** Random plans: two backbones, gateways, multiplexers, lines, switches, several sources of a signal. */
import fc from 'fast-check';
import { CARRIED } from './judge.js';
import type { BoatPlan, DevicePlan, PassPlan, PortPlan, Rated } from './plan.js';

const SIGNALS = ['position', 'heading', 'wind'] as const;
const MESSAGES = SIGNALS.flatMap((signal) => [
  ...(CARRIED[signal]?.pgns.map(([pgn]) => pgn) ?? []),
  ...(CARRIED[signal]?.sentences ?? []),
]);
const rate = fc.constantFrom(undefined, undefined, 1, 2, 5, 10);
/** Two of the three most often, so that sources and takers meet. */
const signal = fc.constantFrom('position', 'position', 'heading', 'heading', 'wind');
const signals = fc.uniqueArray(fc.record({ name: signal, hertz: rate }), {
  minLength: 1,
  maxLength: 2,
  selector: ({ name }) => name,
});
const family = fc.constantFrom(undefined, undefined, 'Tern', 'Skua');
const hub = fc.constantFrom('hub', 'hub', 'far', undefined);
const bus = fc.constantFrom('one', 'two');
const filter = fc.option(
  fc.record({
    kind: fc.constantFrom('with' as const, 'without' as const),
    messages: fc.uniqueArray(fc.constantFrom(...MESSAGES), { minLength: 1, maxLength: 3 }),
  }),
  { nil: undefined },
);

const genes = fc.record({
  sources: fc.array(
    fc.record({
      gives: signals,
      on: fc.constantFrom('one', 'one', 'two', 'line', 'line', 'net', 'none'),
      states: fc.uniqueArray(fc.record({ name: fc.constantFrom(...MESSAGES), hertz: rate }), {
        maxLength: 3,
        selector: ({ name }) => name,
      }),
      hub,
      family,
    }),
    { minLength: 3, maxLength: 6 },
  ),
  takers: fc.array(
    fc.record({
      kind: fc.constantFrom('pilot' as const, 'radio' as const, 'instrument' as const, 'display' as const),
      wants: signals,
      shows: fc.uniqueArray(fc.constantFrom(...SIGNALS), { maxLength: 2 }),
      shares: fc.uniqueArray(fc.constantFrom(...SIGNALS), { maxLength: 3 }),
      on: fc.constantFrom('one', 'one', 'two', 'line', 'line', 'none'),
      hub,
      family,
      ear: fc.nat(5),
    }),
    { minLength: 3, maxLength: 6 },
  ),
  gates: fc.array(
    fc.record({
      kind: fc.constantFrom('mux' as const, 'in' as const, 'out' as const, 'bridge' as const),
      bus,
      filters: fc.tuple(filter, filter),
      silent: fc.constantFrom(false, false, false, true),
      ears: fc.tuple(fc.nat(5), fc.nat(5)),
    }),
    { minLength: 1, maxLength: 4 },
  ),
  joinHubs: fc.boolean(),
  prefers: fc.array(fc.record({ signal: fc.constantFrom(...SIGNALS), first: fc.nat(4), second: fc.nat(4) }), {
    maxLength: 1,
  }),
});

const NOTHING = {
  family: undefined,
  gives: [],
  wants: [],
  shows: [],
  shares: [],
  passes: [],
} as const satisfies Partial<DevicePlan>;
const port = (name: string, medium: PortPlan['medium'], sends: readonly Rated[] = []): PortPlan => ({
  name,
  medium,
  sends,
});
const isPgn = (message: string): boolean => /^\d+$/u.test(message);

export const plans: fc.Arbitrary<BoatPlan> = genes.map(
  ({ sources, takers, gates, joinHubs, prefers }): BoatPlan => {
    const devices: DevicePlan[] = [];
    const buses: Record<string, string[]> = { one: [], two: [] };
    const talkers: string[] = [];
    const ears: (readonly [string, number])[] = [];
    const cords: (readonly [string, string])[] = [];
    const netted = (name: string, where: string | undefined): void => {
      if (where !== undefined) cords.push([`${name}.net`, `${where}.${cords.length + 1}`]);
    };
    sources.forEach(({ gives, on, states, hub: where, family: own }, index) => {
      const name = `source${index}`;
      const sends = states.filter((one) => isPgn(one.name) === (on !== 'line'));
      const wired = on === 'line' ? port('out', 'talks', sends) : port('bus', 'bus', sends);
      devices.push({
        ...NOTHING,
        name,
        class: 'instrument',
        family: own,
        ports: [wired, ...(on === 'net' ? [port('net', 'net')] : [])],
        gives,
      });
      if (on === 'line') talkers.push(`${name}.out`);
      buses[on]?.push(`${name}.bus`);
      if (on === 'net') netted(name, where);
    });
    takers.forEach((one, index) => {
      const name = `taker${index}`;
      const isDisplay = one.kind === 'display';
      devices.push({
        ...NOTHING,
        name,
        class: one.kind,
        family: one.family,
        ports: [
          port(one.on === 'line' ? 'ear' : 'bus', one.on === 'line' ? 'listens' : 'bus'),
          port('net', 'net'),
        ],
        wants: one.wants,
        shows: isDisplay ? ['chart', ...one.shows] : [],
        shares: isDisplay ? one.shares : [],
      });
      if (one.on === 'line') ears.push([`${name}.ear`, one.ear]);
      buses[one.on]?.push(`${name}.bus`);
      netted(name, one.hub);
    });
    gates.forEach(({ kind, bus: where, filters, silent, ears: [first, second] }, index) => {
      const name = `gate${index}`;
      const pass = (from: readonly string[], to: string, at: 0 | 1): PassPlan => ({
        from,
        to,
        filter: filters[at],
      });
      const shape: readonly [readonly PortPlan[], readonly PassPlan[]] =
        kind === 'mux'
          ? [[port('a', 'listens'), port('b', 'listens'), port('out', 'talks')], [pass(['a', 'b'], 'out', 0)]]
          : kind === 'in'
            ? [[port('a', 'listens'), port('n', 'bus')], [pass(['a'], 'n', 0)]]
            : kind === 'out'
              ? [[port('n', 'bus'), port('out', 'talks')], [pass(['n'], 'out', 0)]]
              : [
                  [port('n', 'bus'), port('m', 'bus')],
                  [pass(['n'], 'm', 0), pass(['m'], 'n', 1)],
                ];
      const [ports, passes] = shape;
      devices.push({ ...NOTHING, name, class: 'gateway', ports, passes: silent ? [] : passes });
      for (const one of ports) {
        if (one.medium === 'talks') talkers.push(`${name}.${one.name}`);
        if (one.name === 'a') ears.push([`${name}.a`, first]);
        if (one.name === 'b') ears.push([`${name}.b`, second]);
      }
      if (kind === 'bridge') {
        buses['one']?.push(`${name}.n`);
        buses['two']?.push(`${name}.m`);
      } else if (kind !== 'mux') buses[where]?.push(`${name}.n`);
    });
    if (joinHubs) cords.push([`hub.${cords.length + 1}`, `far.${cords.length + 1}`]);
    for (const name of ['hub', 'far'])
      devices.push({
        ...NOTHING,
        name,
        class: 'switch',
        ports: Array.from({ length: 16 }, (_, at) => port(`${at + 1}`, 'net')),
      });
    const lines = ears.flatMap(([ear, choice]) => {
      // Some ears hear nobody.
      const talker = talkers[choice];
      return talker === undefined || talker.split('.')[0] === ear.split('.')[0]
        ? []
        : [[talker, ear] as const];
    });
    return {
      devices,
      buses: Object.fromEntries(Object.entries(buses).filter(([, ends]) => ends.length > 0)),
      lines,
      cords,
      prefers: prefers.map(({ signal, first, second }) => ({
        signal,
        from: [...new Set([first % sources.length, second % sources.length])].map((at) => `source${at}`),
      })),
      needs: takers.flatMap((_, at) => SIGNALS.map((signal) => ({ device: `taker${at}`, signal }))),
    };
  },
);
