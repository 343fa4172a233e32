/** Steadiness: one device more or less leaves the others where they were; a new name, or another order of the text, moves none. */
import { describe, expect, it } from 'vitest';
import { analyse } from '../../src/checks/analyse.js';
import type { Analysis } from '../../src/checks/analysis.js';
import { drawSet } from '../../src/documents/draw.js';
import type { KeptPlaces, Sheet } from '../../src/documents/sheet.js';
import type { Vessel } from '../../src/vessel/model.js';
import { analysed, EXAMPLES, example, fleetParts } from './boats.js';
import { measure } from './measure.js';

const GRID = 2.5;

interface Place {
  readonly sheet: string;
  readonly x: number;
  readonly y: number;
}

/** One insertion moves at most this share of the others. */
const GATE = 0.15;

/**
 * Insertions that move more, by boat and device, and the most they may. The sheets have five to twenty-two boxes, so that one box is
 * already 5 to 20 %, and how high a box is depends on the findings at it. A switch gives a row to every neighbour at once: in Kittiwake, whose one sheet is drawn large, to four of seven.
 */
const MORE: Readonly<Record<string, Readonly<Record<string, number>>>> = {
  'kittiwake/kittiwake': { hub: 0.58, sternSonar: 0.29 },
  'motoryacht/razorbill': { cameraHub: 0.19 },
  'sailing/whimbrel': { plotter: 0.2, loanScreen: 0.2 },
};

type Places = ReadonlyMap<string, Place>;

function placesIn(sheets: readonly Sheet[]): Places {
  const places = new Map<string, Place>();
  for (const { scene } of sheets)
    for (const [name, box] of measure(scene).boxes)
      places.set(name, { sheet: scene.id, x: box.left, y: box.top });
  return places;
}

const draw = (analysis: Analysis, places?: KeptPlaces): ReturnType<typeof drawSet> =>
  drawSet(analysis, { paper: 'A3', sheets: ['network'], places });
const placesOf = (analysis: Analysis): Places => placesIn(draw(analysis).sheets);

const median = (values: readonly number[]): number =>
  [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? 0;

/** Share of the boxes on both that moved by more than a step of the grid, the common shift left out. */
function moved(before: ReadonlyMap<string, Place>, after: ReadonlyMap<string, Place>): number {
  const common = [...before].flatMap(([name, from]) => {
    const to = after.get(name);
    return to === undefined ? [] : [{ from, to }];
  });
  expect(common.length).toBeGreaterThan(1);
  const dx = median(common.map(({ from, to }) => to.x - from.x));
  const dy = median(common.map(({ from, to }) => to.y - from.y));
  const far = common.filter(
    ({ from, to }) =>
      from.sheet !== to.sheet ||
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

const boats: readonly (readonly [string, () => Promise<Analysis>])[] = [
  ...EXAMPLES.map((name) => [name, () => example(name)] as const),
  ['40 devices', () => Promise.resolve(analysed(fleetParts(40)))],
  ['120 devices', () => Promise.resolve(analysed(fleetParts(120)))],
];

describe('a drawing holds still', () => {
  it.each(boats)('when one device is added: %s', async (name, boat) => {
    const { vessel } = await boat();
    const whole = analyse({ ...vessel, backbones: [], needs: [], views: [] }, { today: '2026-11-25' });
    const names = [...placesOf(whole).keys()];
    const tried = names.filter((_, index) => index % Math.ceil(names.length / 12) === 0);
    const alone: number[] = [];
    const shares = tried.map((device) => {
      const before = draw(without(vessel, device));
      const after = draw(whole, before.places);
      expect(after.sheets.flatMap(({ scene }) => measure(scene).faults)).toEqual([]);
      alone.push(moved(placesIn(before.sheets), placesOf(whole)));
      return moved(placesIn(before.sheets), placesIn(after.sheets));
    });
    const mean = (list: readonly number[]): string =>
      `${((list.reduce((sum, share) => sum + share, 0) / list.length) * 100).toFixed(1)} %`;
    console.log(
      `${name}: ${tried.length} insertions move ${mean(shares)} of the others, ${(Math.max(...shares) * 100).toFixed(0)} % at worst; drawn from nothing ${mean(alone)}`,
    );
    expect(shares.length).toBeGreaterThan(2);
    // The gate of one insertion. Only those named may move more, and never more than is said there.
    const over = tried.flatMap((device, index) => {
      const share = shares[index] ?? 1;
      return share > Math.max(GATE, MORE[name]?.[device] ?? 0)
        ? [`${device} ${(share * 100).toFixed(0)} %`]
        : [];
    });
    expect(over).toEqual([]);
    expect(shares.reduce((sum, share) => sum + share, 0) / shares.length).toBeLessThanOrEqual(GATE);
  });

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
