/** Failures: taking an element away equals checking the boat without it, and power fails where no feed reaches. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { analyse } from '../../src/checks/analyse.js';
import type { Analysis, Failure } from '../../src/checks/analysis.js';
import type { Vessel } from '../../src/vessel/model.js';
import { CABLES, MODELS } from '../support/fleet.js';
import { build, recipes } from '../support/randomBoat.js';
import { need, view } from '../support/text.js';
import { backbone, boat, dc, model, tap, type BoatParts } from '../support/vessel.js';

const look = (vessel: Vessel): Analysis => analyse(vessel, { today: '2026-06-01' });

/** The boat as somebody would write it who has crossed the element out. */
function crossedOut(vessel: Vessel, failure: Failure): Vessel {
  const { origin } = failure.spot;
  if (failure.kind === 'cable')
    return { ...vessel, links: vessel.links.filter((one) => one.origin !== origin) };
  if (failure.kind === 'bus')
    return { ...vessel, backbones: vessel.backbones.filter((one) => one.origin !== origin) };
  const { name } = failure;
  const on = (...ends: readonly ({ readonly device: string | undefined } | undefined)[]): boolean =>
    ends.some((end) => end?.device === name);
  return {
    ...vessel,
    devices: vessel.devices.filter((one) => one.name !== name),
    links: vessel.links.filter((one) => !on(one.a, one.b)),
    backbones: vessel.backbones.map((one) => ({
      ...one,
      items: one.items.filter((item) => !(item.kind === 'tee' && on(item.end))),
    })),
  };
}

describe('an element taken away', () => {
  it('costs the needs that the boat without it does not meet, and no other', () => {
    const met = { elements: 0, lost: 0, otherPath: 0, cables: 0, buses: 0 };
    fc.assert(
      fc.property(recipes, (recipe) => {
        const plain = build(recipe).vessel;
        const names = plain.devices.map((device) => device.name);
        const all = new Set(names);
        const asks = names.flatMap((one) => [
          `${one} show chart`,
          `${one} show sonar`,
          `${one} hear position`,
        ]);
        const vessel = {
          ...plain,
          needs: [...asks, 'spare 3 ethernet', 'spare 1 transducer'].map((text, index) => ({
            ...need(text, all),
            origin: `need ${String(index)}`,
          })),
          views: names.slice(0, 4).map((one) => view(`V ${one} on ${one} left: sonar right: chart`, all)),
        };
        const base = look(vessel);
        const { failures } = base.failures();
        expect(failures.length).toBe(vessel.devices.length + vessel.links.length + vessel.backbones.length);
        for (const failure of failures) {
          const without = look(crossedOut(vessel, failure));
          const lost = base.needs
            .filter(({ met: held, index }) => held === true && without.needs[index]?.met !== true)
            .map(({ text }) => text);
          expect([...failure.needsLost].sort(), `without ${failure.kind} ${failure.name}`).toEqual(
            lost.sort(),
          );
          const panes = ({ panes: found }: Analysis, held: boolean): string[] =>
            found
              .filter(({ shown }) => (shown.visible === true) === held)
              .map(({ view: one, pane }) => `${one.name}/${pane.name}`);
          const still = new Set(panes(without, true));
          expect([...failure.viewsLost].sort()).toEqual(
            panes(base, true)
              .filter((one) => !still.has(one))
              .sort(),
          );
          expect(failure.devicesDark).toEqual([]);
          met.elements++;
          met.lost += lost.length;
          met.otherPath += failure.otherPath.length;
          if (failure.kind === 'cable') met.cables += lost.length;
          if (failure.kind === 'bus') met.buses += lost.length;
        }
      }),
      { numRuns: 200 },
    );
    for (const [what, count] of Object.entries(met)) expect(count, what).toBeGreaterThan(20);
  }, 120_000);
});

// ---------------------------------------------------------------- power

const supplied = (parts: BoatParts): Analysis => look(boat({ models: MODELS, cables: CABLES, ...parts }));

const failing = ({ failures }: Analysis, kind: Failure['kind'], name: string): Failure => {
  const found = failures().failures.find((one) => one.kind === kind && one.name === name);
  if (!found) throw new Error(`${kind} ${name} cannot fail`);
  return found;
};

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

  const bus = model('Busbar', 'busbar', { ports: [dc('stud')] });

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
