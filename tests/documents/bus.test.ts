/** Findings on a backbone are marked at their places: at the box of a tee or a tap, by a sign and a number where there is no box. */
import { describe, expect, it } from 'vitest';
import { drawSheets } from '../../src/documents/draw.js';
import { PAPERS } from '../../src/documents/frame/paper.js';
import { groupsOf, type GroupItem } from '../../src/documents/scene/scene.js';
import { FINDING } from '../../src/documents/style.js';
import type { Analysis } from '../../src/checks/analysis.js';
import type { BackboneItem } from '../../src/vessel/model.js';
import type { Origin } from '../../src/vessel/origin.js';
import { EXAMPLES, example } from './boats.js';

/** The groups of the bus sheets of a boat in which one thing alone is found. */
async function drawn(analysis: Analysis, origin: Origin): Promise<readonly GroupItem[]> {
  const [first] = (await example('motoryacht/razorbill')).findings;
  if (first === undefined) throw new Error('There is no finding to copy.');
  const finding = {
    ...first,
    rule: 'bus/made-up',
    severity: 'warning' as const,
    waived: null,
    at: { origin },
  };
  return drawSheets({ ...analysis, findings: [finding] }, { paper: 'A3', sheets: ['bus'] }).flatMap(
    ({ scene }) => [...groupsOf(scene.items)],
  );
}

const texts = (groups: readonly GroupItem[]): readonly string[] =>
  groups.flatMap(({ items }) => items.flatMap((item) => (item.kind === 'text' ? [item.text] : [])));
/** Ids of the groups with the sign of a finding, the legend and the head of the backbone left out. */
const signed = (groups: readonly GroupItem[]): readonly GroupItem[] =>
  groups.filter(
    ({ role, items }) =>
      role !== 'note' && items.some((item) => item.kind === 'line' && item.fill === FINDING),
  );

function itemOf(analysis: Analysis, kind: BackboneItem['kind']): BackboneItem {
  const items = analysis.buses.flatMap(({ bus }) => bus.backbone.items);
  const item = items.find((one) => one.kind === kind);
  if (item === undefined) throw new Error(`No backbone has a ${kind}.`);
  return item;
}

describe('a finding on a backbone', () => {
  it.each(['tee', 'tap', 'span', 'terminator', 'ground', 'isolate'] as const)(
    'is marked at a %s, and written with its code',
    async (kind) => {
      const analysis = await example('motoryacht/razorbill');
      const { origin } = itemOf(analysis, kind);
      const groups = await drawn(analysis, origin);
      expect(texts(groups).some((text) => text.includes('bus/made-up'))).toBe(true);
      const [place, ...others] = signed(groups);
      expect(others).toEqual([]);
      if (kind !== 'tee' && kind !== 'tap') expect(place?.origin).toBe(origin);
      expect(texts(groups)).toContain('finding');
      const without = await drawn(analysis, analysis.vessel.origin);
      expect(signed(without)).toEqual([]);
      expect(texts(without).filter((text) => text.includes('bus/made-up') || text === 'finding')).toEqual([]);
    },
  );
});

describe('a bus sheet', () => {
  it.each(EXAMPLES)('of %s cuts no text on any paper', async (name) => {
    const analysis = await example(name);
    for (const paper of PAPERS) {
      const groups = drawSheets(analysis, { paper, sheets: ['bus'] }).flatMap(({ scene }) => [
        ...groupsOf(scene.items),
      ]);
      expect(texts(groups).length).toBeGreaterThan(20);
      expect(texts(groups).filter((text) => text.endsWith('…'))).toEqual([]);
    }
  });

  it('says a cable that differs and where a span leads, and the size of the wire of a tap', async () => {
    const groups = drawSheets(await example('motoryacht/razorbill'), {
      paper: 'A3',
      sheets: ['bus'],
    }).flatMap(({ scene }) => [...groupsOf(scene.items)]);
    expect(texts(groups)).toEqual(
      expect.arrayContaining(['MicroTrunk', 'flybridge - mast', 'N694 4.7 m', 'P943 (0.75 mm²) 4 A']),
    );
  });
});
