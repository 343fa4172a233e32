/** What is left of what, and above what, stays so when a device is added and the boxes are kept in their places. */
import { describe, expect, it } from 'vitest';
import type { Analysis } from '../../src/checks/analysis.js';
import { drawSet } from '../../src/documents/draw.js';
import type { KeptPlaces, Sheet, SheetKind } from '../../src/documents/sheet.js';
import { analysed, EXAMPLES, fleetParts, variants } from './boats.js';
import { measure } from './measure.js';

/** Share of the orders of two boxes that an added device leaves as they were, at least. */
const GATE = 0.98;
/** Boxes in one row or column are beside or over one another by less than this, in mm. */
const LEVEL = 1.25;

interface Place {
  readonly sheet: string;
  readonly x: number;
  readonly y: number;
}

function placesOf(sheets: readonly Sheet[]): ReadonlyMap<string, Place> {
  const places = new Map<string, Place>();
  for (const { scene } of sheets)
    for (const [name, { left, top }] of measure(scene).boxes)
      places.set(name, { sheet: scene.id, x: left, y: top });
  return places;
}

/** Of every two boxes that were on one sheet, which is left and which is above: the share that is as before. */
function orderKept(before: ReadonlyMap<string, Place>, after: ReadonlyMap<string, Place>): number {
  const common = [...before].flatMap(([name, was]) => {
    const is = after.get(name);
    return is === undefined ? [] : [{ was, is }];
  });
  const sign = (a: number, b: number): number => (Math.abs(a - b) < LEVEL ? 0 : Math.sign(a - b));
  let [kept, all] = [0, 0];
  common.forEach((one, index) => {
    for (const other of common.slice(index + 1)) {
      if (one.was.sheet !== other.was.sheet) continue;
      const together = one.is.sheet === other.is.sheet;
      for (const axis of ['x', 'y'] as const) {
        all += 1;
        if (together && sign(one.was[axis], other.was[axis]) === sign(one.is[axis], other.is[axis]))
          kept += 1;
      }
    }
  });
  return all === 0 ? 1 : kept / all;
}

const KINDS = ['network', 'power'] as const satisfies readonly SheetKind[];

/** A step from one boat to the next, with the places of the one before and from nothing. */
function step(
  before: Analysis,
  after: Analysis,
  kind: SheetKind,
): { readonly kept: number; readonly anew: number } {
  const options = { paper: 'A3', sheets: [kind] } as const;
  const drawn = drawSet(before, options);
  const places = placesOf(drawn.sheets);
  const shareOf = (kept?: KeptPlaces): number =>
    orderKept(places, placesOf(drawSet(after, { ...options, places: kept }).sheets));
  return { kept: shareOf(drawn.places), anew: shareOf() };
}

/** A boat of so many devices, and the same without one of them. */
function pair(devices: number, without: number): readonly [Analysis, Analysis] {
  const parts = fleetParts(devices);
  const list = Object.entries(parts.devices ?? {});
  const less = Object.fromEntries(list.filter((_, index) => index !== without));
  return [analysed({ ...parts, devices: less }), analysed(parts)];
}

type Steps = () => Promise<readonly (readonly [Analysis, Analysis])[]>;

const upTo = (count: number): readonly number[] => Array.from({ length: count }, (_, index) => index);

const STEPS: readonly (readonly [string, number, Steps])[] = [
  // At the end of the text, from 13 to 60 devices.
  [
    'a boat that grows',
    24,
    () => Promise.resolve(upTo(24).map((index) => pair(13 + 2 * index, 12 + 2 * index))),
  ],
  ['every other of 40 devices', 20, () => Promise.resolve(upTo(20).map((index) => pair(40, 2 * index)))],
  [
    'what options add and take away',
    6,
    async () => {
      const all = await Promise.all(EXAMPLES.map((name) => variants(name)));
      return all.flatMap((boats) => {
        const base = boats.find(([option]) => option === null)?.[1];
        return boats.flatMap(([option, analysis]) =>
          option === null || base === undefined ? [] : [[base, analysis] as const],
        );
      });
    },
  ],
];

describe('the order of boxes holds', () => {
  it.each(STEPS.flatMap(([what, least, steps]) => KINDS.map((kind) => [what, kind, least, steps] as const)))(
    'over %s, on the %s sheet',
    async (what, kind, least, steps) => {
      const shares = (await steps()).map(([before, after]) => step(before, after, kind));
      expect(shares.length).toBeGreaterThanOrEqual(least);
      const said = (values: readonly number[]): string =>
        `${(values.reduce((sum, value) => sum + value, 0) / values.length).toFixed(4)}, at worst ${Math.min(...values).toFixed(4)}`;
      console.log(
        `${what}, ${kind}: order kept ${said(shares.map(({ kept }) => kept))}; drawn from nothing ${said(shares.map(({ anew }) => anew))}`,
      );
      for (const { kept } of shares) expect(kept).toBeGreaterThanOrEqual(GATE);
    },
    120_000,
  );
});
