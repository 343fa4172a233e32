/** The plan: every device in its zone, every run with what fills it, what is found at a run at its end, and an outline about it all. */
import { describe, expect, it } from 'vitest';
import type { Analysis } from '../../src/checks/analysis.js';
import { drawSheets } from '../../src/documents/draw.js';
import { PAPERS } from '../../src/documents/frame/paper.js';
import { groupsOf, type GroupItem } from '../../src/documents/scene/scene.js';
import type { Sheet } from '../../src/documents/sheet.js';
import { analysed, EXAMPLES, example } from './boats.js';
import { MODELS } from '../support/fleet.js';

const planOf = (analysis: Analysis, paper: (typeof PAPERS)[number]): readonly Sheet[] =>
  drawSheets(analysis, { paper, sheets: ['plan'] }).filter(({ scene }) =>
    [...groupsOf(scene.items)].some(({ role }) => role === 'device'),
  );
const groupsIn = (sheets: readonly Sheet[]): readonly GroupItem[] =>
  sheets.flatMap(({ scene }) => [...groupsOf(scene.items)]);
const wordsOf = ({ items }: GroupItem): string =>
  items.flatMap((item) => (item.kind === 'text' ? [item.text] : [])).join(' ');

describe('the plan', () => {
  it.each(EXAMPLES)('of %s has every device in the box of its zone', async (name) => {
    const analysis = await example(name);
    const boxes = groupsIn(planOf(analysis, 'A3')).filter(({ role }) => role === 'device');
    expect(boxes.map((box) => box.name).sort()).toEqual(
      analysis.vessel.zones.map((zone) => zone.name).sort(),
    );
    for (const { name: device, zone } of analysis.vessel.devices) {
      const box = boxes.find((one) => one.name === zone);
      if (zone !== undefined)
        expect(box === undefined ? '' : wordsOf(box)).toMatch(new RegExp(`\\b${device}\\b`));
    }
  });

  it('says the bore of a conduit and how full it is, and no share where no thickness is known', async () => {
    const words = groupsIn(planOf(await example('motoryacht/razorbill'), 'A3')).map(wordsOf);
    expect(words).toContain('3.5 m 60 mm, > 12 %');
    expect(words).toContain('5 m 40 mm, ? %');
  });

  it.each(EXAMPLES)('of %s has an outline where it goes on one page, with all of it inside', async (name) => {
    const analysis = await example(name);
    for (const paper of PAPERS) {
      const sheets = planOf(analysis, paper);
      const groups = groupsIn(sheets);
      const outlines = groups.filter((group) => group.name === 'outline');
      expect(outlines).toHaveLength(sheets.length === 1 ? 1 : 0);
      const [line] = outlines.flatMap(({ items }) => items.filter((item) => item.kind === 'line'));
      if (line === undefined) continue;
      const [left, right] = [
        Math.min(...line.points.map(({ x }) => x)),
        Math.max(...line.points.map(({ x }) => x)),
      ];
      for (const { items } of groups.filter(({ role }) => role === 'device'))
        for (const item of items)
          if (item.kind === 'rect') {
            expect(item.x).toBeGreaterThan(left);
            expect(item.x + item.width).toBeLessThan(right);
          }
    }
  });

  it('marks what is found at a run at its end', async () => {
    const analysis = await example('kittiwake/kittiwake');
    const [like] = (await example('motoryacht/razorbill')).findings;
    const run = analysis.vessel.runs[0];
    if (like === undefined || run === undefined) throw new Error('There is no finding or no run.');
    const finding = {
      ...like,
      rule: 'cable/made-up',
      severity: 'warning' as const,
      waived: null,
      at: { origin: run.origin },
    };
    const boxes = groupsIn(planOf({ ...analysis, findings: [finding] }, 'A3')).filter((group) =>
      wordsOf(group).includes('made-up'),
    );
    expect(boxes.map(({ name }) => name)).toEqual([run.to]);
  });

  it('says how many devices of a full zone are not listed', () => {
    const devices = Array.from(
      { length: 80 },
      (_, index) => [`instrument${index}`, 'Gnss10 @ helm'] as const,
    );
    const boat = analysed({
      models: MODELS,
      zones: ['helm sheltered', 'locker interior'],
      runs: ['helm -- locker 3'],
      devices: Object.fromEntries(devices),
    });
    const box = groupsIn(planOf(boat, 'A4')).find(({ name }) => name === 'helm');
    const words = box === undefined ? '' : wordsOf(box);
    const [, more] = /, (\d+) more/.exec(words) ?? [];
    expect((words.match(/instrument\d+/g) ?? []).length + Number(more)).toBe(80);
    expect(words).not.toContain('…');
  });
});
