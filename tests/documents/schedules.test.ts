/** Schedules of the example boats: every cable once, a label at each of its ends, numbers as on the drawings. */
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
      expect(rows.filter(({ number }) => !known.has(number))).toEqual([]);
      expect(rows.map(({ number }) => number)).toEqual([...rows.map(({ number }) => number)].sort());
    }
  });

  it('have a label at both ends of every link, side by side', () => {
    for (const boat of boats) {
      const labels = labelList(boat);
      for (const { number, from, to } of cableSchedule(boat).filter(
        ({ from: at }) => !at.startsWith('backbone'),
      )) {
        const own = labels
          .filter((label) => label.number === number)
          .map(({ at, other }) => `${at} ${other}`);
        // A branch of a tee has its number from the tee.
        if (own.includes(`${from} ${to}`)) expect(own).toContain(`${to} ${from}`);
        else expect(number).not.toBe('');
      }
      const ends =
        boat.cables.length * 2 + boat.vessel.feeds.reduce((sum, feed) => sum + 1 + feed.to.length, 0);
      expect(labels.length).toBeGreaterThanOrEqual(ends);
    }
  });

  it('pull through each run what goes along it, and nothing that is aboard', () => {
    if (!kittiwake) throw new Error('there is no Kittiwake');
    const schedule = cableSchedule(kittiwake);
    const pulls = pullList(kittiwake);
    expect(pulls.map(({ run }) => run)).toContain('bow -- helm');
    for (const { run, numbers } of pulls)
      expect(numbers).toEqual(
        schedule.filter(({ runs, existing }) => runs.includes(run) && !existing).map(({ number }) => number),
      );
    expect(pulls.find(({ run }) => run === 'bow -- helm')?.conduitMillimetres).toBe(32);
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
