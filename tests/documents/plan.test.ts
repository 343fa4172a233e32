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

  it.each(EXAMPLES)(
    'of %s has an outline where zones lie in place, with all below the sheer inside',
    async (name) => {
      const analysis = await example(name);
      for (const paper of PAPERS) {
        const sheets = planOf(analysis, paper);
        const groups = groupsIn(sheets);
        const outlines = groups.filter((group) => group.name === 'outline');
        // A3 holds every example from bow to stern.
        if (paper === 'A3') expect(outlines).toHaveLength(1);
        if (sheets.length > 1) expect(outlines).toHaveLength(0);
        const [line] = outlines.flatMap(({ items }) => items.filter((item) => item.kind === 'line'));
        if (line === undefined) continue;
        const [left, right] = [
          Math.min(...line.points.map(({ x }) => x)),
          Math.max(...line.points.map(({ x }) => x)),
        ];
        const bottom = Math.max(...line.points.map(({ y }) => y));
        for (const { items } of groups.filter(({ role }) => role === 'device'))
          for (const item of items)
            if (item.kind === 'rect') {
              expect(item.x).toBeGreaterThan(left);
              expect(item.x + item.width).toBeLessThan(right);
              expect(item.y + item.height).toBeLessThan(bottom);
            }
      }
    },
  );

  it('has what is aloft over the sheer, what is below under what is on deck, and the bow to the left', async () => {
    const { vessel } = await example('sailing/whimbrel');
    const groups = groupsIn(planOf(await example('sailing/whimbrel'), 'A3'));
    const boxOf = (zone: string): { readonly x: number; readonly y: number; readonly height: number } => {
      const rect = groups
        .find(({ role, name }) => role === 'device' && name === zone)
        ?.items.find(({ kind }) => kind === 'rect');
      if (rect?.kind !== 'rect') throw new Error(`${zone} is not drawn.`);
      return rect;
    };
    const [outline] = groups.filter(({ name }) => name === 'outline').flatMap(({ items }) => items);
    const sheer = outline?.kind === 'line' ? Math.min(...outline.points.map(({ y }) => y)) : NaN;
    const mast = boxOf('mast');
    expect(mast.y + mast.height).toBeLessThan(sheer);
    for (const deck of ['foredeck', 'companionway', 'cockpit']) {
      expect(boxOf(deck).y).toBe(boxOf('foredeck').y);
      for (const below of ['saloon', 'engines', 'chart'])
        expect(boxOf(below).y).toBeGreaterThan(boxOf(deck).y + boxOf(deck).height);
    }
    const along = vessel.zones.map(({ name }) => boxOf(name).x);
    expect(along.every((x, index) => index === 0 || x >= (along[index - 1] ?? 0))).toBe(true);
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
