/** Pictures beside those of resvg, which shares no code with what paints them, and figures that are known beforehand. */
import { readFileSync } from 'node:fs';
import { Resvg } from '@resvg/resvg-js';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { drawSheets } from '../../src/documents/draw.js';
import { toPng } from '../../src/documents/formats/png/png.js';
import { toSvg } from '../../src/documents/formats/svg.js';
import type { Item, Scene } from '../../src/documents/scene/scene.js';
import { FONT_FILES } from '../support/writers.js';
import { example } from './boats.js';
import { hostile } from './hostile.js';

const fonts = { regular: readFileSync(FONT_FILES.regular), bold: readFileSync(FONT_FILES.bold) };
/** Four pixels to the millimetre, so that no rounding of the paper's size comes between the two. */
const DPI = 101.6;

/** Red, green, blue and alpha of every pixel of a PNG, as resvg reads them. */
function pixelsOf(png: Uint8Array): { readonly width: number; readonly pixels: Uint8Array } {
  const bytes = Buffer.from(png);
  const [width, height] = [bytes.readUInt32BE(16), bytes.readUInt32BE(20)];
  const picture = `<image width="${width}" height="${height}" href="data:image/png;base64,${bytes.toString('base64')}"/>`;
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}">${picture}</svg>`;
  return { width, pixels: new Resvg(svg, { font: { loadSystemFonts: false } }).render().pixels };
}

function painted(scene: Scene): Uint8Array {
  const font = {
    loadSystemFonts: false,
    fontFiles: Object.values(FONT_FILES),
    defaultFontFamily: 'DejaVu Sans Condensed',
  };
  const width = Math.round((scene.width / 25.4) * DPI);
  return new Resvg(toSvg(scene), { fitTo: { mode: 'width', value: width }, font }).render().pixels;
}

/** The mean difference of a colour of a pixel (0 to 255), and the share of colours that are far off. */
function apart(own: Uint8Array, other: Uint8Array): { readonly mean: number; readonly far: number } {
  expect(own.length).toBe(other.length);
  let [sum, far] = [0, 0];
  own.forEach((value, index) => {
    const difference = Math.abs(value - (other[index] ?? 0));
    sum += difference;
    if (difference > 64) far += 1;
  });
  return { mean: sum / own.length, far: far / own.length };
}

const sceneOf = (items: readonly Item[], width = 20, height = 10): Scene => ({
  id: 'a',
  title: 'a',
  description: 'a',
  width,
  height,
  items,
});

/** The red of a pixel. */
function red(items: readonly Item[], x: number, y: number): number {
  const { width, pixels } = pixelsOf(toPng(sceneOf(items), 25.4, fonts));
  return pixels[(y * width + x) * 4] ?? NaN;
}

describe('a picture', () => {
  it('is that of resvg, but for the last shade', async () => {
    const sheets = [
      ...drawSheets(await example('openboat/dunlin'), { paper: 'A4' }).slice(0, 2),
      ...drawSheets(hostile(), { paper: 'A4' }).slice(0, 2),
    ];
    expect(sheets.length).toBe(4);
    for (const { scene } of sheets) {
      const { mean, far } = apart(pixelsOf(toPng(scene, DPI, fonts)).pixels, painted(scene));
      expect(mean, scene.id).toBeLessThan(1.2);
      expect(far, scene.id).toBeLessThan(0.005);
    }
    // The measure sees what is missing: a sheet without its texts is further off.
    const [scene] = sheets.map((sheet) => sheet.scene);
    if (scene === undefined) throw new Error('nothing is drawn');
    const bare = JSON.parse(JSON.stringify(scene), (_, value: unknown) =>
      typeof value === 'object' && value !== null && 'kind' in value && value.kind === 'text'
        ? { ...value, text: '' }
        : value,
    ) as Scene;
    expect(apart(pixelsOf(toPng(bare, DPI, fonts)).pixels, painted(scene)).mean).toBeGreaterThan(1.5);
  });

  it('has its true size, and says its resolution', () => {
    const png = Buffer.from(toPng(sceneOf([], 420, 297), 60, fonts));
    expect(png.readUInt32BE(16)).toBe(Math.round((420 / 25.4) * 60));
    expect(png.readUInt32BE(20)).toBe(Math.round((297 / 25.4) * 60));
    expect(png.readUInt32BE(png.indexOf('pHYs') + 4)).toBe(2362);
  });

  it('has the shade of what covers a pixel', () => {
    const box = { kind: 'rect', x: 2.25, y: 2, width: 3, height: 3, fill: '#000000' } as const;
    expect([
      red([box], 3, 3),
      red([box], 2, 3),
      red([box], 5, 3),
      red([box], 6, 3),
      red([box], 3, 5),
    ]).toEqual([0, 64, 191, 255, 255]);
    const slope = [
      { x: 0, y: 0 },
      { x: 10, y: 10 },
      { x: 0, y: 10 },
    ];
    const stroke = { colour: '#ffffff', width: 0.001 };
    const half = { kind: 'line', points: slope, closed: true, fill: '#000000', stroke } as const;
    expect(red([half], 4, 4)).toBe(128);
  });

  it('strokes with dashes that end where they end, and with sharp corners', () => {
    const stroke = { colour: '#000000', width: 2, dash: [4, 2] };
    const line = {
      kind: 'line',
      points: [
        { x: 1, y: 5 },
        { x: 19, y: 5 },
      ],
      stroke,
    } as const;
    expect(Array.from({ length: 20 }, (_, x) => (red([line], x, 4) === 0 ? '#' : '.')).join('')).toBe(
      '.####..####..####...',
    );
    const corner = {
      kind: 'line',
      points: [
        { x: 2, y: 8 },
        { x: 2, y: 2 },
        { x: 9, y: 2 },
      ],
      stroke: { colour: '#000000', width: 2 },
    } as const;
    expect([red([corner], 1, 1), red([corner], 0, 1), red([corner], 8, 1), red([corner], 9, 1)]).toEqual([
      0, 255, 0, 255,
    ]);
  });

  it('has the same pixels with numbered colours as with more than can be numbered', () => {
    const patch = (index: number): Item => {
      const fill = `#${(index * 40503 + 1).toString(16).padStart(6, '0')}`;
      return { kind: 'rect', x: index % 20, y: Math.floor(index / 20), width: 1, height: 1, fill };
    };
    // White and so many of its own; each colour is at its place.
    for (const [count, kind] of [
      [255, 3],
      [256, 2],
    ] as const) {
      const png = toPng(
        sceneOf(
          Array.from({ length: count }, (_, index) => patch(index)),
          20,
          20,
        ),
        25.4,
        fonts,
      );
      expect(png[25]).toBe(kind);
      const { pixels } = pixelsOf(png);
      const rgb = (at: number): number =>
        ((pixels[at * 4] ?? 0) << 16) | ((pixels[at * 4 + 1] ?? 0) << 8) | (pixels[at * 4 + 2] ?? 0);
      expect(Array.from({ length: count }, (_, index) => rgb(index))).toEqual(
        Array.from({ length: count }, (_, index) => index * 40503 + 1),
      );
      expect(rgb(count)).toBe(0xffffff);
    }
  });

  it('is made of whatever a scene holds', () => {
    const number = fc.oneof(fc.double({ min: -50, max: 50, noNaN: true }), fc.constantFrom(0, NaN, 1e9));
    const point = fc.record({ x: number, y: number });
    const stroke = fc.record({
      colour: fc.constantFrom('#000000', '#a81414', 'red'),
      width: number,
      dash: fc.option(fc.array(fc.double({ min: 0.2, max: 9, noNaN: true }), { maxLength: 3 }), {
        nil: undefined,
      }),
    });
    const item: fc.Arbitrary<Item> = fc.oneof(
      fc.record({ kind: fc.constant('line' as const), points: fc.array(point, { maxLength: 4 }), stroke }),
      fc.record({
        kind: fc.constant('rect' as const),
        x: number,
        y: number,
        width: number,
        height: number,
        radius: number,
        stroke,
      }),
      fc.record({ kind: fc.constant('disc' as const), x: number, y: number, radius: number, stroke }),
      fc.record({
        kind: fc.constant('text' as const),
        x: number,
        y: number,
        height: number,
        text: fc.string({ unit: 'binary', maxLength: 5 }),
        anchor: fc.constantFrom('start' as const, 'middle' as const, 'end' as const),
        upright: fc.boolean(),
      }),
    );
    fc.assert(
      fc.property(fc.array(item, { maxLength: 4 }), (items) => {
        const { pixels } = pixelsOf(toPng(sceneOf(items), 25.4, fonts));
        expect(pixels.length).toBe(20 * 10 * 4);
      }),
      { numRuns: 60 },
    );
  });
});
