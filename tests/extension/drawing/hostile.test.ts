/** Hostile texts on their way to the page and into files: they stay texts, and nothing that is drawn is lost. */
import { readFileSync } from 'node:fs';
import { SaxesParser } from 'saxes';
import { beforeAll, describe, expect, it } from 'vitest';
import { DRAWING_FORMATS } from '../../../src/documents/formats/files.js';
import { toPdf } from '../../../src/documents/formats/pdf.js';
import { toPng } from '../../../src/documents/formats/png/png.js';
import { ATTRIBUTES, ELEMENTS } from '../../../src/extension/drawing/allowed.js';
import { readToPage } from '../../../src/extension/drawing/messages.js';
import type { Drawn, Subject } from '../../../src/extension/server/drawing/artist/artist.js';
import { inlineArtist } from '../../../src/extension/server/drawing/artist/inline.js';
import { unpack } from '../../../src/extension/server/drawing/artist/packed.js';
import type { SheetPicture } from '../../../src/extension/server/drawing/protocol.js';
import { hostile, HOSTILE } from '../../documents/hostile.js';
import { FONT_FILES } from '../../support/writers.js';

const [SCRIPT = '', CDATA = ''] = HOSTILE;
const fonts = { regular: readFileSync(FONT_FILES.regular), bold: readFileSync(FONT_FILES.bold) };
const artist = inlineArtist(() => Promise.resolve({ toPdf, toPng, fonts }));
const title = { file: `${SCRIPT}.loft`, version: CDATA, revision: HOSTILE[5] };

describe('hostile texts', () => {
  let subject: Subject;
  let drawn: Drawn;
  let pictures: readonly SheetPicture[];
  beforeAll(async () => {
    const analysis = hostile();
    subject = { vessel: analysis.vessel, judged: { today: '2026-01-01' }, analysis: () => analysis };
    drawn = await artist.draw(subject, title, undefined);
    pictures = drawn.sheets.map(({ picture }) => unpack(picture));
  });

  it('come to the page as they are, within the bounds of a message', () => {
    const sheets = drawn.sheets.map(({ id, title: name }) => ({ id, title: name }));
    for (const { id, key, origins, picture } of drawn.sheets) {
      const message = {
        type: 'drawing',
        vessel: HOSTILE.join(''),
        sheets,
        shown: { id, key, origins: [...origins, ...HOSTILE], picture: unpack(picture) },
        optional: true,
        chosen: HOSTILE,
        note: SCRIPT,
      };
      // As between two processes.
      const sent: unknown = JSON.parse(JSON.stringify(message));
      expect(readToPage(sent)).toEqual(message);
    }
    expect(pictures.some(({ svg }) => svg.includes('&lt;script&gt;'))).toBe(true);
    expect(pictures.filter(({ svg }) => /<script|]]>/.test(svg))).toEqual([]);
  });

  it('are in pictures of which the page lets everything in, and lets nothing in that could run', () => {
    const found = { elements: new Set<string>(), attributes: new Set<string>() };
    for (const { svg } of pictures) {
      const parser = new SaxesParser();
      parser.on('opentag', ({ name, attributes }) => {
        found.elements.add(name);
        for (const key of Object.keys(attributes)) found.attributes.add(key);
      });
      parser.on('error', (error) => {
        throw error;
      });
      parser.write(svg).close();
    }
    expect(found.elements.size).toBeGreaterThan(6);
    expect([...found.elements].filter((name) => !ELEMENTS.has(name))).toEqual([]);
    expect([...found.attributes].filter((name) => !ATTRIBUTES.has(name))).toEqual([]);
    const dangerous = /^(?:on|style$|class$|href|xlink|src|script|foreignObject|use|image|a|animate|set)/;
    expect([...ELEMENTS].filter((name) => dangerous.test(name))).toEqual([]);
    expect([...ATTRIBUTES].filter((name) => /^(?:on|style$|class$|href|xlink|src)/.test(name))).toEqual([]);
  });

  it.each(DRAWING_FORMATS)('go into %s files whose names are our own', async (format) => {
    const files = (await artist.write(subject, title, { format, sheet: undefined }, undefined)) ?? [];
    expect(files.length).toBeGreaterThan(0);
    for (const { name, content } of files) {
      expect(name).toMatch(/^(?:drawings|(?:network|bus|power|plan)-\d+)\.(?:svg|pdf|png)$/);
      expect(content.length).toBeGreaterThan(1000);
    }
  });

  it('go into no folder by the name of the file with the places', async () => {
    const hostileTitle = { ...title, file: '../../<b>.loft' };
    const [one] =
      (await artist.write(subject, hostileTitle, { format: 'places', sheet: undefined }, undefined)) ?? [];
    expect(one?.name).toBe('..-..-<b>.places.json');
  });

  it('name a sheet that is exported alone by its id, whatever its title', async () => {
    const [one] =
      (await artist.write(subject, title, { format: 'pdf', sheet: 'network-1' }, undefined)) ?? [];
    expect(one?.name).toBe('network-1.pdf');
    expect(
      await artist.write(subject, title, { format: 'pdf', sheet: '../../etc/passwd' }, undefined),
    ).toEqual([]);
  });
});
