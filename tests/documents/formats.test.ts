/** The files themselves, read back by readers that are not ours: strict XML, a PDF reader, the font. */
import { readFileSync } from 'node:fs';
import * as fontkit from 'fontkit';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { SaxesParser } from 'saxes';
import { describe, expect, it } from 'vitest';
import { drawSheets } from '../../src/documents/draw.js';
import { toPdf } from '../../src/documents/formats/pdf.js';
import { toPng } from '../../src/documents/formats/png/png.js';
import { toSvg } from '../../src/documents/formats/svg.js';
import type { Sheet } from '../../src/documents/sheet.js';
import { drawable, fitted, widthOf } from '../../src/documents/text/measure.js';
import { FONT_FILES } from '../support/writers.js';
import { example } from './boats.js';
import { hostile, HOSTILE } from './hostile.js';
import { measure } from './measure.js';

const fonts = { regular: readFileSync(FONT_FILES.regular), bold: readFileSync(FONT_FILES.bold) };
const facts = { title: 'Drawings', keywords: 'test', date: undefined };
const pdfOf = (sheets: readonly Sheet[]): Promise<Uint8Array> =>
  toPdf(
    sheets.map(({ scene }) => scene),
    fonts,
    facts,
  );

interface Element {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
}

/** Elements and text of a document; throws where it is not well formed. */
function parsed(xml: string): { readonly elements: readonly Element[]; readonly text: string } {
  const elements: Element[] = [];
  let text = '';
  const parser = new SaxesParser();
  parser.on('error', (error) => {
    throw error;
  });
  parser.on('opentag', (tag) => elements.push({ name: tag.name, attributes: tag.attributes }));
  parser.on('text', (piece) => (text += piece));
  parser.write(xml).close();
  return { elements, text };
}

interface Read {
  readonly pages: number;
  readonly text: string;
  readonly outline: readonly string[];
  readonly links: number;
}

async function read(pdf: Uint8Array): Promise<Read> {
  const task = getDocument({ data: new Uint8Array(pdf), verbosity: 0, useSystemFonts: false });
  const document = await task.promise;
  let text = '';
  let links = 0;
  for (let number = 1; number <= document.numPages; number += 1) {
    const page = await document.getPage(number);
    const content = await page.getTextContent();
    text += content.items.map((item) => ('str' in item ? item.str : '')).join('\n');
    links += (await page.getAnnotations()).filter(
      (one: { subtype: string; dest: unknown }) => one.subtype === 'Link' && one.dest !== null,
    ).length;
  }
  const outline = ((await document.getOutline()) ?? []).map((entry) => entry.title);
  const pages = document.numPages;
  await task.destroy();
  return { pages, text, outline, links };
}

describe('SVG', () => {
  it('is well formed, with ids of its own, and holds nothing that runs or comes from outside', async () => {
    const sheets = [
      ...drawSheets(await example('motoryacht/razorbill'), { paper: 'A4' }),
      ...drawSheets(hostile(), { paper: 'A3' }).map((sheet) => ({ ...sheet, number: 99 })),
    ];
    expect(sheets.length).toBeGreaterThan(10);
    for (const { scene } of sheets) {
      const { elements } = parsed(toSvg(scene));
      const ids = elements.flatMap(({ attributes }) => attributes['id'] ?? []);
      expect(new Set(ids).size).toBe(ids.length);
      expect(ids.filter((id) => !/^[\w-]+$/.test(id) || !id.startsWith(scene.id))).toEqual([]);
      expect([...new Set(elements.map(({ name }) => name))].sort()).toEqual(
        expect.arrayContaining(['desc', 'g', 'path', 'rect', 'svg', 'text', 'title']),
      );
      for (const { name, attributes } of elements) {
        expect(['svg', 'title', 'desc', 'g', 'rect', 'path', 'circle', 'text']).toContain(name);
        expect(Object.keys(attributes).filter((key) => /^(?:on|style$|class$|href|xlink)/.test(key))).toEqual(
          [],
        );
      }
    }
  });

  it('shows hostile texts as texts, with a sign for what the font lacks', () => {
    const sheets = drawSheets(hostile(), { paper: 'A3' });
    const { text } = parsed(
      sheets
        .map(({ scene }) => toSvg(scene))
        .join('')
        .replace(/<\?xml[^>]*>/g, '')
        .replace(/^/, '<all>')
        .concat('</all>'),
    );
    expect(text).toContain('<script>alert(1)</script>');
    expect(text).toContain(']]>');
    expect(text).toContain('boat � �');
    expect(sheets.flatMap(({ scene }) => measure(scene).faults)).toEqual([]);
  });
});

describe('PDF', () => {
  it('has a page and a bookmark for each sheet, every device as text, and links between references', async () => {
    const analysis = await example('motoryacht/razorbill');
    const sheets = drawSheets(analysis, { paper: 'A3' });
    const { pages, text, outline, links } = await read(await pdfOf(sheets));
    expect(pages).toBe(sheets.length);
    expect(outline).toEqual(sheets.map(({ scene }) => scene.title));
    expect(links).toBeGreaterThan(4);
    expect(
      analysis.vessel.devices.filter((device) => !text.includes(device.name)).map((device) => device.name),
    ).toEqual([]);
  });

  it('has its fonts in it, and none of the viewer', async () => {
    const text = Buffer.from(
      await pdfOf(drawSheets(await example('openboat/dunlin'), { paper: 'A4' })),
    ).toString('latin1');
    const fontNames = [...text.matchAll(/\/BaseFont \/(\S+)/g)].map(([, name]) => name ?? '');
    expect(fontNames.length).toBeGreaterThan(1);
    expect(fontNames.filter((name) => !/^[A-Z]+\+DejaVuSansCondensed/.test(name))).toEqual([]);
    expect(text).toContain('/FontFile2');
  });

  it('takes hostile texts', async () => {
    const sheets = drawSheets(hostile(), { paper: 'A3' });
    const { text, outline } = await read(await pdfOf(sheets));
    expect(outline).toEqual(sheets.map(({ scene }) => scene.title));
    expect(text).toContain('<script>alert(1)</script>');
    expect(text).toContain(']]>');
  });
});

describe('every format', () => {
  it('is the same for the same boat, byte for byte', async () => {
    const draw = async (): Promise<readonly Sheet[]> =>
      drawSheets(await example('kittiwake/kittiwake'), { paper: 'A3', date: '2026-05-01' });
    const [one, two] = [await draw(), await draw()];
    const svg = (sheets: readonly Sheet[]): readonly string[] => sheets.map(({ scene }) => toSvg(scene));
    expect(svg(two)).toEqual(svg(one));
    expect(Buffer.from(await pdfOf(two)).equals(Buffer.from(await pdfOf(one)))).toBe(true);
    const png = (sheets: readonly Sheet[]): readonly Buffer[] =>
      sheets.slice(0, 2).map(({ scene }) => Buffer.from(toPng(scene, 60, fonts)));
    expect(png(two).map((bytes, index) => bytes.equals(png(one)[index] ?? Buffer.alloc(0)))).toEqual([
      true,
      true,
    ]);
  });
});

describe('widths of texts', () => {
  it.each(['regular', 'bold'] as const)('of the %s face are those of the font', (face) => {
    const font = fontkit.openSync(FONT_FILES[face]);
    if (!('layout' in font)) throw new Error('no single font');
    for (const text of ['AVATAR To. 120 Ω µ ° ² →', 'Größe, Żółw, Ёлка, Ωμέγα', 'm'.repeat(40)]) {
      expect(
        Array.from(text).every((character) => font.hasGlyphForCodePoint(character.codePointAt(0) ?? 0)),
      ).toBe(true);
      const advance = font.layout(text, { kern: false, liga: false }).advanceWidth / font.unitsPerEm;
      expect(widthOf(text, 0.729, face)).toBeCloseTo(advance, 6);
    }
  });

  it('are what texts are cut to', () => {
    for (const text of HOSTILE) {
      for (const room of [5, 20, 60]) expect(widthOf(fitted(text, room))).toBeLessThanOrEqual(room + 1e-9);
      expect(drawable(text)).not.toMatch(/[\n\t\u0000\u202e]/); // eslint-disable-line no-control-regex -- they are what must not be there
    }
    expect(drawable('🚤')).toBe('�');
  });
});
