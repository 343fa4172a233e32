/** Schedules of the example boats: every cable once, a label at each of its ends, numbers as on the drawings. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Analysis } from '../../src/checks/analysis.js';
import { numberCables } from '../../src/documents/numbering.js';
import { cableSchedule, labelList, pullList, screenPlan } from '../../src/documents/schedules/schedules.js';
import { openProject } from '../../src/language/project/open.js';

const folder = fileURLToPath(new URL('../../examples', import.meta.url));
let boats: readonly Analysis[] = [];
let kittiwake: Analysis | undefined;
beforeAll(async () => {
  const { report } = await openProject([folder], { root: folder, today: '2026-11-25', chosen: 'none' });
  boats = report.vessels.map(({ analysis }) => analysis);
  kittiwake = boats.find(({ vessel }) => vessel.name === 'Kittiwake');
});

describe('the schedules', () => {
  it('have every link, span and drop with the number of the drawings', () => {
    expect(boats.length).toBeGreaterThan(3);
    for (const boat of boats) {
      const rows = cableSchedule(boat);
      const onBus = boat.vessel.backbones.flatMap(({ items }) =>
        items.flatMap((item): unknown[] => {
          if (item.kind === 'span') return [item];
          return item.kind === 'tee' && item.end ? [item, ...item.branches] : [];
        }),
      );
      expect(rows).toHaveLength(boat.cables.length + onBus.length);
      const known = new Set(numberCables(boat).all.values());
      expect(rows.filter(({ number }) => !known.has(number.replace(/\.\d+$/, '')))).toEqual([]);
      expect(rows.map(({ number }) => number)).toEqual([...rows.map(({ number }) => number)].sort());
    }
  });

  it('say where each span begins and ends, and how long it is along the runs', () => {
    if (!kittiwake) throw new Error('there is no Kittiwake');
    const spans = cableSchedule(kittiwake).filter(({ from }) => from.startsWith('nav'));
    expect(spans.length).toBe(7);
    // 2 m from helm to cabin, and half a metre of slack at both ends.
    expect(spans.find(({ to }) => to === 'nav at headingSensor')).toMatchObject({
      from: 'nav at vhf',
      zones: ['helm', 'cabin'],
      runs: ['helm -- cabin'],
      neededMetres: 3,
      missing: null,
    });
    for (const boat of boats) {
      const rows = cableSchedule(boat);
      expect(
        rows.filter(({ neededMetres, missing }) => (neededMetres === null) !== (missing !== null)),
      ).toEqual([]);
      for (const { bus } of boat.buses) {
        const length = rows
          .filter(({ from }) => from.startsWith(`${bus.name} `) || from.startsWith(`${bus.name},`))
          .reduce((sum, { neededMetres }) => sum + (neededMetres ?? NaN), 0);
        if (bus.backboneMetres !== undefined) expect(length).toBeCloseTo(bus.backboneMetres, 9);
      }
    }
  });

  it('have a label at both ends of every cable, side by side and sorted by number', () => {
    for (const boat of boats) {
      const labels = labelList(boat);
      const numbers = labels.map(({ number }) => number);
      expect(numbers).toEqual([...numbers].sort());
      for (const { number, from, to } of cableSchedule(boat)) {
        const own = labels.filter((label) => label.number === number);
        expect(own.map(({ at, other }) => `${at} ${other}`).sort()).toEqual(
          [`${from} ${to}`, `${to} ${from}`].sort(),
        );
      }
      expect(labels.filter(({ number }) => number === '')).toEqual([]);
      const ends =
        boat.cables.length * 2 + boat.vessel.feeds.reduce((sum, feed) => sum + 1 + feed.to.length, 0);
      expect(labels.length).toBeGreaterThanOrEqual(ends);
    }
  });

  it('pull through each run what goes along it, feeds and spans too, and nothing that is aboard', () => {
    if (!kittiwake) throw new Error('there is no Kittiwake');
    const schedule = cableSchedule(kittiwake);
    const pulls = pullList(kittiwake);
    expect(pulls.map(({ run }) => run)).toContain('bow -- helm');
    const { all } = numberCables(kittiwake);
    const feeds = kittiwake.passages.flatMap(({ spot, route }) =>
      spot.origin.startsWith('feed ') && route.kind === 'route'
        ? route.runs.map((run) => `${run.name ?? `${run.from} -- ${run.to}`} ${all.get(spot.origin) ?? ''}`)
        : [],
    );
    expect(feeds.length).toBeGreaterThan(3);
    for (const { run, numbers } of pulls) {
      const [own, supply] = [
        numbers.filter((one) => !one.startsWith('P')),
        numbers.filter((one) => one.startsWith('P')),
      ];
      expect(own).toEqual(
        schedule.filter(({ runs, existing }) => runs.includes(run) && !existing).map(({ number }) => number),
      );
      for (const number of supply) expect(feeds).toContain(`${run} ${number}`);
    }
    expect(pulls.find(({ run }) => run === 'bow -- helm')).toMatchObject({
      conduitMillimetres: 32,
      types: ['2 x 14 AWG', 'SealedNet', 'captive tail'],
    });
  });

  it('keep the number of a link that an option lays anew between the same ends', async () => {
    const text = `model D : display { port net : ethernet  shows chart  families F }
family F
vessel Boat
device a : D
device b : D
link a -- b length 2 m
option longer { remove a -- b  add link a -- b length 5 m }
`;
    const folder = mkdtempSync(join(tmpdir(), 'schedules-'));
    writeFileSync(join(folder, 'boat.loft'), text);
    const { report } = await openProject([join(folder, 'boat.loft')], { root: folder, today: '2026-11-25' });
    rmSync(folder, { recursive: true });
    const [[base], [relaid]] = [null, 'longer'].map((option) => {
      const found = report.vessels.find((one) => one.option === option);
      return found ? cableSchedule(found.analysis) : [];
    }) as [ReturnType<typeof cableSchedule>, ReturnType<typeof cableSchedule>];
    expect([base?.neededMetres, relaid?.neededMetres]).toEqual([2, 5]);
    expect(relaid?.number).toBe(base?.number);
  });

  it('plan every pane of every view', () => {
    if (!kittiwake) throw new Error('there is no Kittiwake');
    expect(screenPlan(kittiwake)).toContainEqual({
      screen: 'plotter',
      view: 'Drift',
      pane: 'right',
      layers: ['sternSonar.side'],
      visible: true,
    });
    for (const boat of boats)
      expect(screenPlan(boat)).toHaveLength(boat.vessel.views.flatMap(({ panes }) => panes).length);
  });
});
