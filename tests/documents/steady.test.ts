/** Steadiness: one device more or less leaves the others where they were; a new name, or another order of the text, moves none. */
import { describe, expect, it } from 'vitest';
import { analyse } from '../../src/checks/analyse.js';
import type { Analysis } from '../../src/checks/analysis.js';
import { drawSet } from '../../src/documents/draw.js';
import type { KeptPlaces, Sheet, SheetKind } from '../../src/documents/sheet.js';
import type { Vessel } from '../../src/vessel/model.js';
import { analysed, EXAMPLES, example, fleetParts } from './boats.js';
import { measure } from './measure.js';

const GRID = 2.5;

interface Place {
  readonly sheet: string;
  readonly x: number;
  readonly y: number;
}

/** One insertion moves at most this share of the others, whatever is inserted and whatever comes with it; one taken away as well. */
const GATE = 0.15;

/**
 * Drawn from nothing, without the places of the drawing before, the mean of what moves: a sheet that just fits is drawn larger for one
 * box less. Steadiness is what `--places` is for.
 */
const ALONE = 0.9;

/** The sheets that are laid out from boxes; the backbones are drawn along their cables. */
const SHEETS = ['network', 'power'] as const satisfies readonly SheetKind[];

type Places = ReadonlyMap<string, Place>;

function placesIn(sheets: readonly Sheet[]): Places {
  const places = new Map<string, Place>();
  for (const { scene } of sheets)
    for (const [name, box] of measure(scene).boxes)
      places.set(name, { sheet: scene.id, x: box.left, y: box.top });
  return places;
}

const draw = (analysis: Analysis, kind: SheetKind, places?: KeptPlaces): ReturnType<typeof drawSet> =>
  drawSet(analysis, { paper: 'A3', sheets: [kind], places });
const placesOf = (analysis: Analysis): Places => placesIn(draw(analysis, 'network').sheets);

const median = (values: readonly number[]): number =>
  [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? 0;

/** For each sheet the one before that it shares most boxes with: where a sheet has gone, those after it have another number. */
function sheetsAgain(
  common: readonly { readonly from: Place; readonly to: Place }[],
): ReadonlyMap<string, string> {
  const counts = new Map<string, Map<string, number>>();
  for (const { from, to } of common) {
    const own = counts.get(to.sheet) ?? new Map<string, number>();
    counts.set(to.sheet, own.set(from.sheet, (own.get(from.sheet) ?? 0) + 1));
  }
  return new Map(
    [...counts].map(([sheet, own]) => [sheet, [...own].sort((x, y) => y[1] - x[1])[0]?.[0] ?? sheet]),
  );
}

/** Share of the boxes on both that moved by more than a step of the grid, the common shift left out. */
function moved(before: ReadonlyMap<string, Place>, after: ReadonlyMap<string, Place>): number {
  const common = [...before].flatMap(([name, from]) => {
    const to = after.get(name);
    return to === undefined ? [] : [{ from, to }];
  });
  expect(common.length).toBeGreaterThan(1);
  const dx = median(common.map(({ from, to }) => to.x - from.x));
  const dy = median(common.map(({ from, to }) => to.y - from.y));
  const sameSheet = sheetsAgain(common);
  const far = common.filter(
    ({ from, to }) =>
      sameSheet.get(to.sheet) !== from.sheet ||
      Math.abs(to.x - from.x - dx) > GRID + 0.01 ||
      Math.abs(to.y - from.y - dy) > GRID + 0.01,
  );
  return far.length / common.length;
}

/** A boat without one device and what is joined to it. */
function without(vessel: Vessel, name: string): Analysis {
  const touches = (end: { readonly device: string | undefined }): boolean => end.device === name;
  return analyse(
    {
      ...vessel,
      devices: vessel.devices.filter((device) => device.name !== name),
      links: vessel.links.filter(({ a, b }) => !touches(a) && !touches(b)),
      feeds: vessel.feeds.filter(({ from, to }) => !touches(from) && !to.some(touches)),
      backbones: [],
      needs: [],
      views: [],
    },
    { today: '2026-11-25' },
  );
}

/** Whole boat as text with one name for another, read back. */
function renamed(vessel: Vessel, name: string, to: string): Analysis {
  const swap = (value: unknown): unknown => {
    if (value === name) return to;
    if (Array.isArray(value)) return value.map(swap);
    if (typeof value !== 'object' || value === null) return value;
    return Object.fromEntries(
      Object.entries(value).map(([key, inner]) => [
        key,
        key === 'models' && !Array.isArray(inner) ? inner : swap(inner),
      ]),
    );
  };
  return analyse(swap(vessel) as Vessel, { today: '2026-11-25' });
}

interface Moves {
  readonly device: string;
  readonly share: number;
}

/** A device at a time takes too long on a large boat. */
const MOST_TRIED = 25;

const percent = (share: number): string => `${(share * 100).toFixed(1)} %`;

/** The mean and the worst. */
function said(moves: readonly Moves[]): string {
  const shares = moves.map(({ share }) => share);
  const mean = shares.reduce((sum, share) => sum + share, 0) / shares.length;
  return `${percent(mean)} of the others (${percent(Math.max(...shares))} at worst)`;
}

const boats: readonly (readonly [string, () => Promise<Analysis>])[] = [
  ...EXAMPLES.map((name) => [name, () => example(name)] as const),
  ['40 devices', () => Promise.resolve(analysed(fleetParts(40)))],
  ['120 devices', () => Promise.resolve(analysed(fleetParts(120)))],
];

describe('a drawing holds still', () => {
  it.each(boats.flatMap(([name, boat]) => SHEETS.map((kind) => [name, kind, boat] as const)))(
    'when one device is added or taken away: %s, %s',
    async (name, kind, boat) => {
      const { vessel } = await boat();
      const whole = analyse({ ...vessel, backbones: [], needs: [], views: [] }, { today: '2026-11-25' });
      const drawn = draw(whole, kind);
      const all = placesIn(drawn.sheets);
      // Of a large boat, one in so many.
      const names = [...all.keys()].filter((device) => vessel.devices.some((one) => one.name === device));
      const tried = names.filter((_, index) => index % Math.ceil(names.length / MOST_TRIED) === 0);
      const added: Moves[] = [];
      const gone: Moves[] = [];
      const alone: Moves[] = [];
      for (const device of tried) {
        const less = without(vessel, device);
        const before = draw(less, kind);
        const after = draw(whole, kind, before.places);
        const removed = draw(less, kind, drawn.places);
        for (const { sheets } of [after, removed])
          expect(sheets.flatMap(({ scene }) => measure(scene).faults)).toEqual([]);
        added.push({ device, share: moved(placesIn(before.sheets), placesIn(after.sheets)) });
        gone.push({ device, share: moved(all, placesIn(removed.sheets)) });
        alone.push({ device, share: moved(placesIn(before.sheets), all) });
      }
      console.log(
        `${name} ${kind}, ${tried.length} devices: added ${said(added)}, taken away ${said(gone)}, drawn from nothing ${said(alone)}`,
      );
      expect(tried.length).toBeGreaterThan(2);
      // The gate is on each, not on their mean.
      const over = (moves: readonly Moves[]): readonly string[] =>
        moves.flatMap(({ device, share }) => (share > GATE ? [`${device} ${percent(share)}`] : []));
      expect([...over(added), '/', ...over(gone)]).toEqual(['/']);
      expect(alone.reduce((sum, { share }) => sum + share, 0) / alone.length).toBeLessThanOrEqual(ALONE);
    },
  );

  it.each(boats)('when a device has another name: %s', async (_, boat) => {
    const { vessel } = await boat();
    const before = placesOf(analyse(vessel, { today: '2026-11-25' }));
    for (const device of [...before.keys()].slice(0, 6)) {
      const after = new Map(placesOf(renamed(vessel, device, 'zzRenamed')));
      const place = after.get('zzRenamed');
      expect(place).toBeDefined();
      expect(place).toEqual(before.get(device));
      for (const [other, at] of before) if (other !== device) expect(after.get(other)).toEqual(at);
    }
  });

  it.each(EXAMPLES)('when its declarations stand in another order: %s', async (name) => {
    const { vessel } = await example(name);
    const before = placesOf(analyse(vessel, { today: '2026-11-25' }));
    const turned = { ...vessel, devices: [...vessel.devices].reverse(), links: [...vessel.links].reverse() };
    expect([...placesOf(analyse(turned, { today: '2026-11-25' }))].sort()).toEqual([...before].sort());
  });
});
