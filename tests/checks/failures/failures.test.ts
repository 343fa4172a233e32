/** Failures: power fails where no feed reaches, and what is told of needs and voltages. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { analyse } from '../../../src/checks/analyse.js';
import type { Analysis, Failure } from '../../../src/checks/analysis.js';
import type { Model, Vessel } from '../../../src/vessel/model.js';
import { CABLES, MODELS } from '../../support/fleet.js';
import { backbone, boat, dc, model, tap, type BoatParts } from '../../support/vessel.js';

const look = (vessel: Vessel): Analysis => analyse(vessel, { today: '2026-06-01' });

const supplied = (parts: BoatParts): Analysis => look(boat({ models: MODELS, cables: CABLES, ...parts }));

const failing = ({ failures }: Analysis, kind: Failure['kind'], name: string): Failure => {
  const found = failures().failures.find((one) => one.kind === kind && one.name === name);
  if (!found) throw new Error(`${kind} ${name} cannot fail`);
  return found;
};

const bus = model('Busbar', 'busbar', { ports: [dc('stud')] });

describe('power', () => {
  /** Panels and pumps, each fed by one or two of the batteries and panels before it. */
  const supplies = fc.array(
    fc.record({
      panel: fc.boolean(),
      first: fc.nat(50),
      second: fc.option(fc.nat(50)),
      shared: fc.boolean(),
    }),
    { minLength: 3, maxLength: 12 },
  );

  it('fails exactly where no feed is left that comes from a battery', () => {
    let dark = 0;
    let spared = 0;
    fc.assert(
      fc.property(supplies, fc.boolean(), (nodes, two) => {
        const devices: Record<string, string> = { house: 'Battery', ...(two ? { start: 'Battery' } : {}) };
        const sources = Object.keys(devices);
        const ways = new Map<string, number>();
        const feeds: [from: string, way: string, to: string[]][] = [];
        const wayOf = (name: string): string | undefined => {
          if (devices[name] !== 'Panel8') return name;
          const way = (ways.get(name) ?? 0) + 1;
          ways.set(name, way);
          return way > 8 ? undefined : `${name}.${String(way)}`;
        };
        nodes.forEach(({ panel, first, second, shared }, index) => {
          const name = `${panel ? 'panel' : 'pump'}${String(index)}`;
          const last = feeds.at(-1);
          const from = sources[first % sources.length] ?? 'house';
          // Several loads on one way are one event.
          if (shared && !panel && last?.[2][0]?.startsWith('pump')) last[2].push(name);
          else {
            const way = wayOf(from);
            if (way === undefined) return;
            feeds.push([from, way, [name]]);
          }
          const other = second === null ? undefined : sources[second % sources.length];
          // A panel's input takes one conductor, a busbar any number.
          const twice = panel && other !== undefined && other !== from && devices[other] === 'Battery';
          devices[name] = twice ? 'Busbar' : panel ? 'Panel8' : 'Pump';
          if (twice) feeds.push([other, other, [name]]);
          if (panel) sources.push(name);
        });
        const vessel = boat({
          models: [...MODELS, bus],
          cables: CABLES,
          devices,
          feeds: feeds.map(([, way, to]) => `${way} -> ${to.join(', ')}`),
        });
        const reached = (gone: string | undefined, cut: number | undefined): Set<string> => {
          const live = new Set(
            ['house', 'start'].filter((name) => devices[name] !== undefined && name !== gone),
          );
          for (let size = -1; size !== live.size;) {
            size = live.size;
            feeds.forEach(([from, , to], index) => {
              // Current goes whichever way it can: a busbar feeds back into a panel.
              if (index === cut || from === gone || ![from, ...to].some((one) => live.has(one))) return;
              for (const one of [from, ...to]) if (one !== gone) live.add(one);
            });
          }
          return live;
        };
        const whole = reached(undefined, undefined);
        const { failures } = look(vessel).failures();
        const feedsOnly = failures.filter(({ kind }) => kind === 'feed');
        expect(feedsOnly).toHaveLength(feeds.length);
        for (const failure of failures) {
          const live =
            failure.kind === 'device'
              ? reached(failure.name, undefined)
              : reached(undefined, feedsOnly.indexOf(failure));
          const expected = [...whole]
            .filter((name) => devices[name] === 'Pump' && name !== failure.name && !live.has(name))
            .sort();
          expect(failure.devicesDark, `without ${failure.kind} ${failure.name}`).toEqual(expected);
          dark += expected.length;
          if (expected.length === 0) spared++;
        }
      }),
      { numRuns: 200 },
    );
    expect(dark).toBeGreaterThan(200);
    expect(spared).toBeGreaterThan(200);
  }, 60_000);

  const nav = backbone('nav', ['gnss', 'one']);
  const fedNav = { ...nav, items: [...nav.items, tap('nav', 'panel.4')] };
  const parts: BoatParts = {
    devices: {
      house: 'Battery',
      panel: 'Panel8',
      one: 'Tern13',
      two: 'Tern13',
      hub: 'Switch5',
      gnss: 'Gnss10',
    },
    links: ['one.net1 -- hub.1', 'two.net1 -- hub.2'],
    feeds: ['house -> panel', 'panel.1 -> one', 'panel.2 -> two', 'panel.3 -> hub'],
    backbones: [fedNav],
    needs: ['two show one.chart', 'one hear position'],
    views: ['Plan on two left: chart right: one.waypoints'],
  };

  it('takes what is dark out of the network, and the bus with its supply', () => {
    const boatWith = supplied(parts);
    expect(failing(boatWith, 'feed', 'panel.3 -> hub')).toMatchObject({
      needsLost: ['two show one.chart'],
      viewsLost: ['Plan/right'],
      devicesDark: ['hub'],
      otherPath: [],
    });
    expect(failing(boatWith, 'feed', 'panel.4 -> backbone nav').needsLost).toEqual(['one hear position']);
    expect(failing(boatWith, 'bus', 'nav').needsLost).toEqual(['one hear position']);
    expect(failing(boatWith, 'device', 'panel').devicesDark).toEqual(
      expect.arrayContaining(['hub', 'one', 'two']),
    );
  });

  it('tells of a second path, and what is not analysed', () => {
    const twice = supplied({
      ...parts,
      devices: { ...parts.devices, spare: 'Switch5' },
      links: [...(parts.links ?? []), 'one.net2 -- spare.1', 'two.net2 -- spare.2'],
      feeds: [...(parts.feeds ?? []), 'panel.5 -> spare'],
      needs: [...(parts.needs ?? []), 'two show radar'],
    });
    expect(failing(twice, 'device', 'hub')).toMatchObject({
      needsLost: [],
      otherPath: expect.arrayContaining(['two show one.chart']) as unknown,
    });
    expect(twice.failures().notAnalysed.map(({ what }) => what)).toEqual(['need two show radar']);
    const bare = supplied({ ...parts, feeds: [], backbones: [] });
    expect(bare.failures().notAnalysed.map(({ why }) => why)).toContain('no feed is declared');
  });
});

describe('voltages', () => {
  const draws = (name: string, watts: number): Model =>
    model(name, 'load', {
      ports: [dc('power', 'in', { draws: { amount: watts, unit: 'W' }, inVolts: { low: 10.5, high: 16 } })],
    });
  const bank = model('Bank', 'battery', {
    ports: [dc('post')],
    volts: 12,
    lowestVolts: 11.4,
    chargesVolts: 14.4,
  });

  /** A pump behind a busbar that two batteries feed, the second over a long thin wire. */
  const boatOf = (watts: number): Analysis => {
    const plain = boat({
      models: [bank, bus, draws('Winch', watts)],
      devices: { house: 'Bank', start: 'Bank', bar: 'Busbar', winch: 'Winch' },
      feeds: ['house -> bar', 'start -> bar', 'bar -> winch'],
    });
    return look({
      ...plain,
      practice: 'iso',
      feeds: plain.feeds.map((feed) => ({
        ...feed,
        lengthMetres: feed.from.device === 'start' ? 10 : 1,
        wire: { standard: 'mm2', size: feed.from.device === 'start' ? '2.5' : '16' },
      })),
    });
  };

  it('are lowest in the failure that leaves the longer way', () => {
    const { failures, voltages } = boatOf(60).failures();
    const [winch] = voltages();
    const ohms = (metres: number, mm2: number): number => (2 * metres * 0.0164) / mm2;
    // 60 W behind both wires in a row: V = V0 (1 + sqrt(1 - 4 P R / V0^2)) / 2.
    const closed = (r: number): number => (11.4 * (1 + Math.sqrt(1 - (4 * 60 * r) / 11.4 ** 2))) / 2;
    expect(winch?.lowestVolts).toBeCloseTo(closed(ohms(10, 2.5) + ohms(1, 16)), 2);
    expect(winch?.normalVolts).toBeGreaterThan((winch?.lowestVolts ?? 0) + 0.5);
    expect(winch).toMatchObject({ floorVolts: 10.5, collapsing: [], darkBy: ['bar', 'bar -> winch'] });
    expect(['house', 'house -> bar']).toContain(winch?.failure);
    expect(failures.map(({ name }) => name)).toContain('start -> bar');
  });

  it('name the failures in which the supply collapses', () => {
    const [winch] = boatOf(400).failures().voltages();
    expect(winch?.collapsing).toEqual(['house', 'house -> bar']);
    expect(['start', 'start -> bar']).toContain(winch?.failure);
    expect(winch?.lowestVolts).toBeLessThan(winch?.normalVolts ?? 0);
  });
});

describe('a need', () => {
  it('is told with what alone costs it', () => {
    const { needs, failures } = supplied({
      devices: { one: 'Tern13', two: 'Tern13', hub: 'Switch5' },
      links: ['one.net1 -- hub.1', 'two.net1 -- hub.2'],
      needs: ['two show one.chart'],
    }).failures();
    const [only] = needs;
    expect(only?.costBy.map(({ name }) => name)).toEqual([
      'one',
      'two',
      'hub',
      'one.net1 -- hub.1',
      'two.net1 -- hub.2',
    ]);
    expect(failures.filter(({ needsLost }) => needsLost.length > 0)).toEqual(only?.costBy);
  });
});
