/** The drawing of a difference: everything is marked for what became of it, in black and white too, and nothing lies on another. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Analysis } from '../../src/checks/analysis.js';
import { compare } from '../../src/documents/compare/compare.js';
import { drawDifference } from '../../src/documents/compare/drawing.js';
import { toSvg } from '../../src/documents/formats/svg.js';
import { groupsOf, type GroupItem, type Item } from '../../src/documents/scene/scene.js';
import { GRID } from '../../src/documents/diagram/diagram.js';
import { drawSet } from '../../src/documents/draw.js';
import type { Sheet } from '../../src/documents/sheet.js';
import { createWorkspace, type Check } from '../docs/support/workspace.js';
import { measure } from '../documents/measure.js';

const EXAMPLES = join(import.meta.dirname, '..', '..', 'examples');
const BEFORE = readFileSync(join(EXAMPLES, 'kittiwake', 'kittiwake.loft'), 'utf8');
/** A display moves and is plugged elsewhere, live sonar goes, a dome comes, a fuse changes, and a sensor has another name. */
const AFTER = BEFORE.replace(/^(device bowScreen .*) at bow/m, '$1 at helm')
  .replace(/^(device|link) live(Head)? .*\n/gm, '')
  .replace(/^feed panel\.4 .*\n/m, 'feed panel.4 -> dome fuse 5 A\n')
  .replace(/^(link bowScreen .*)hub\.2/m, 'link dome -- hub.5\n$1hub.4')
  .replace(/^device whip/m, 'device dome : Radar18 at roof\ndevice whip')
  .replace(/(feed panel\.1 .*fuse) 5 A/, '$1 3 A')
  .replace(/\bgnss\b/g, 'position1');

let check: Check;
let before: Analysis;
let after: Analysis;
beforeAll(async () => {
  check = await createWorkspace();
  before = await analysed(BEFORE);
  after = await analysed(AFTER);
});

async function analysed(text: string): Promise<Analysis> {
  const { vessels } = await check(new Map([['kittiwake/kittiwake.loft', text]]), 'none');
  const [vessel] = vessels;
  if (!vessel) throw new Error('there is no vessel');
  return vessel.analysis;
}

const drawn = (old: Analysis, now: Analysis): readonly Sheet[] =>
  drawDifference(old, now, compare(old, now), { paper: 'A3' });

const groups = (sheets: readonly Sheet[], role: string): readonly GroupItem[] =>
  sheets.flatMap(({ scene }) => [...groupsOf(scene.items)]).filter((group) => group.role === role);

const texts = (items: readonly Item[]): readonly string[] =>
  items.flatMap((item) =>
    item.kind === 'text' ? [item.text] : item.kind === 'group' ? texts(item.items) : [],
  );

const device = (sheets: readonly Sheet[], name: string): GroupItem => {
  const found = groups(sheets, 'device').find((one) => one.name === name);
  if (!found) throw new Error(`${name} is not drawn`);
  return found;
};

/** What is left of a mark without its colour: letter, weight and dash of the edge, and how many lines lie under the text. */
const inBlackAndWhite = ({ items }: GroupItem): string => {
  const edge = items.find((item) => item.kind === 'rect')?.stroke;
  const letter = texts(items).find((text) => /^[ARC]$/.test(text)) ?? '';
  const hatched = items.filter((item) => item.kind === 'line').length > 5 ? 'hatched' : '';
  return `${letter} ${String(edge?.width)} ${edge?.dash?.join() ?? 'solid'} ${hatched}`.trim();
};

describe('the drawing of a difference', () => {
  it('marks what is added, removed and changed by letter, weight and hatching', () => {
    const sheets = drawn(before, after);
    expect(sheets.map(({ scene }) => scene.id)[0]).toBe('changes-network-1');
    const marks = ['dome', 'live', 'bowScreen', 'hub'].map((name) => inBlackAndWhite(device(sheets, name)));
    expect(marks).toEqual(['A 1 solid', 'R 0.5 1.5,1.5 hatched', 'C 0.7 6,1.5', '0.25 solid']);
    expect(texts(device(sheets, 'bowScreen').items)).toContain('was at bow');
    const wires = groups(sheets, 'link').map(({ label }) => label);
    expect(wires.filter((label) => label.endsWith(' added.')).join()).toMatch(/dome.*hub|hub.*dome/);
    expect(wires.filter((label) => label.endsWith(' removed.')).join()).toMatch(/live/);
    // On another port it is changed, and not taken out and pulled anew.
    expect(wires.filter((label) => label.endsWith(' changed.')).join()).toMatch(/bowScreen.*hub, port 4/);
    expect(wires.filter((label) => label.endsWith(' as before.')).join()).toMatch(/plotter.*hub, port 1/);
    const [network] = sheets;
    for (const word of ['added', 'removed', 'changed', 'as before'])
      expect(texts(network?.scene.items ?? [])).toContain(word);
  });

  it('draws what is aboard in both and only joined otherwise as changed, on the sheet of the backbones too', async () => {
    const off = await analysed(BEFORE.replace(/^ *tee vhf .*\n/m, ''));
    const sheets = drawn(before, off);
    const ids = sheets.map(({ scene }) => scene.id);
    expect(ids).toContain('changes-backbones-1');
    const backbones = sheets.filter(({ scene }) => scene.id === 'changes-backbones-1');
    expect(inBlackAndWhite(device(backbones, 'vhf'))).toBe('C 0.7 6,1.5');
    expect(texts(device(backbones, 'vhf').items)).toContain('no longer joined');
    expect(inBlackAndWhite(device(backbones, 'gnss'))).toBe('0.25 solid');
    expect(inBlackAndWhite(device(backbones, 'backbone nav'))).toBe('C 0.7 6,1.5');
    expect(
      groups(backbones, 'link')
        .map(({ label }) => label)
        .filter((label) => label.endsWith(' removed.'))
        .join(),
    ).toMatch(/to vhf/);
  });

  it('has nothing on top of another, whichever way round, and the same bytes each time', () => {
    for (const [old, now] of [
      [before, after],
      [after, before],
    ] as const) {
      const sheets = drawn(old, now);
      expect(sheets.flatMap(({ scene }) => measure(scene).faults)).toEqual([]);
      expect(drawn(old, now).map(({ scene }) => toSvg(scene))).toEqual(
        sheets.map(({ scene }) => toSvg(scene)),
      );
    }
  });

  it('stands as the drawing that is aboard, where its places are given', () => {
    const aboard = drawSet(before, { paper: 'A3' });
    const step = GRID * (aboard.places['network']?.scale ?? 1) + 0.01;
    const placesIn = (sheets: readonly Sheet[]): ReadonlyMap<string, readonly [number, number]> =>
      new Map(
        sheets
          .filter(({ scene }) => /network|power/.test(scene.id))
          .flatMap(({ scene }) =>
            [...measure(scene).boxes].map(
              ([name, { left, top }]) =>
                [`${scene.id.replace('changes-', '')} ${name}`, [left, top] as const] as const,
            ),
          ),
      );
    const were = placesIn(aboard.sheets);
    const moved = (sheets: readonly Sheet[]): readonly string[] =>
      [...placesIn(sheets)].flatMap(([name, at]) => {
        // The one that has another name since is the same box.
        const was = were.get(name.replace('position1', 'gnss'));
        if (was === undefined) return [];
        return Math.abs(was[0] - at[0]) > step || Math.abs(was[1] - at[1]) > step ? [name] : [];
      });
    const sheets = drawDifference(before, after, compare(before, after), {
      paper: 'A3',
      places: aboard.places,
    });
    // Only the display that goes to another zone moves on the network by more than a step of the grid; a box that grows makes room on the power sheet.
    expect(moved(sheets).filter((name) => name.startsWith('network'))).toEqual(['network-1 bowScreen']);
    expect(moved(sheets).length * 2).toBeLessThan(moved(drawn(before, after)).length);
    expect(sheets.flatMap(({ scene }) => measure(scene).faults)).toEqual([]);
  });

  it('turns round with the revisions, and is none where nothing is different', () => {
    const marked = (sheets: readonly Sheet[], letter: string): readonly string[] =>
      groups(sheets, 'device')
        .filter((one) => inBlackAndWhite(one).startsWith(`${letter} `))
        .map(({ name }) => name)
        .sort();
    const [there, back] = [drawn(before, after), drawn(after, before)];
    expect(marked(there, 'A')).toEqual(marked(back, 'R'));
    expect(marked(there, 'R')).toEqual(marked(back, 'A'));
    expect(marked(there, 'R')).toContain('liveHead');
    expect(drawn(before, before)).toEqual([]);
  });
});
