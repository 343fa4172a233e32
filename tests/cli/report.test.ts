/** `wireloft report`: the same handover as PDF and as Markdown. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { describe, expect, it } from 'vitest';
import { brokenLines, layTable } from '../../src/documents/report/table.js';
import { reportPages } from '../../src/documents/report/pages.js';
import { groupsOf, type Item, type TextItem } from '../../src/documents/scene/scene.js';
import { widthOf } from '../../src/documents/text/measure.js';
import { folderWith, ROOT, wireloft } from './program.js';

const KITTIWAKE = join(ROOT, 'examples', 'kittiwake', 'kittiwake.loft');
const SECTIONS = [
  'What the boat has',
  'Screen plan',
  'Needs',
  'What one failure costs',
  'Options',
  'Open findings and waivers',
  'Cautions',
  'Drawings',
  'Parts',
  'Cable schedule',
  'Pull list',
  'Labels',
  'Feeds, wires and fuses',
  'Backbones',
  'Connectors',
  'Commissioning',
  'Van list',
];

/** Small, since it is written twice. */
const SMALL = `model D : display { port net : ethernet  shows chart  shares chart  families F  price 100 USD }
family F
vessel Boat { currency USD }
device a : D
device b : D
link a -- b length 2 m label "=N1"
need a show b.chart
option more { add device c : D }
`;

describe('wireloft report', () => {
  it('writes the same bytes for the same spec', async () => {
    const folder = folderWith({ 'boat.loft': SMALL });
    for (const out of ['a', 'b']) {
      const { status } = await wireloft(['report', 'boat.loft', '--out', out, '--today', '2026-05-01'], {
        folder,
      });
      expect(status).toBe(0);
    }
    for (const name of ['report.pdf', 'report.md', 'schedules.xlsx'])
      expect(readFileSync(join(folder, 'b', name)).equals(readFileSync(join(folder, 'a', name)))).toBe(true);
  });

  it('draws boxes where the places say that they stand, and leaves that file alone', async () => {
    const folder = folderWith({ 'boat.loft': SMALL });
    await wireloft(['draw', 'boat.loft', '--out', 'a', '--places', 'places.json'], { folder });
    const places = readFileSync(join(folder, 'places.json'), 'utf8').replace(
      /("id":"b".*"y":)([\d.]+)/g,
      (_, before: string, y: string) => `${before}${Number(y) + 50}`,
    );
    writeFileSync(join(folder, 'places.json'), places);
    /** Where a device is written on the sheet of the network, in points. */
    const at = async (out: string, ...more: readonly string[]): Promise<readonly (readonly number[])[]> => {
      const written = await wireloft(['report', 'boat.loft', '--out', out, ...more], { folder });
      expect(written).toMatchObject({ status: 0 });
      const data = new Uint8Array(readFileSync(join(folder, out, 'report.pdf')));
      const pdf = await getDocument({ data }).promise;
      for (let number = 1; number <= pdf.numPages; number += 1) {
        const { items } = await (await pdf.getPage(number)).getTextContent();
        const words = items.flatMap((item) => ('str' in item ? [item] : []));
        if (!words.some(({ str }) => str === 'Network')) continue;
        return words.filter(({ str }) => str === 'b').map(({ transform }) => transform as readonly number[]);
      }
      return [];
    };
    const [anew] = await at('b');
    const [kept] = await at('c', '--places', 'places.json');
    // 50 mm further down on a sheet that is drawn at 1.4.
    expect(anew?.[5]).toBeGreaterThan(300);
    expect((anew?.[5] ?? 0) - (kept?.[5] ?? 0)).toBeCloseTo((50 * 1.4 * 72) / 25.4, 2);
    expect(readFileSync(join(folder, 'places.json'), 'utf8')).toBe(places);
  });

  it.each([
    [['--places', 'none'], '--places "none" is not there. "wireloft draw --places none" writes it.'],
    [['--places', 'boat.loft'], '--places "boat.loft" holds no places'],
  ])('refuses %j', async (words, message) => {
    const folder = folderWith({ 'boat.loft': SMALL });
    const { status, out, error } = await wireloft(['report', 'boat.loft', '--out', 'a', ...words], {
      folder,
    });
    expect({ status, out }).toEqual({ status: 2, out: '' });
    expect(error).toContain(message);
  });

  it('says so where the places are for another paper', async () => {
    const folder = folderWith({ 'boat.loft': SMALL });
    await wireloft(['draw', 'boat.loft', '--out', 'a', '--places', 'places.json'], { folder });
    const words = ['report', 'boat.loft', '--out', 'b', '--paper', 'A4', '--places', 'places.json'];
    const { status, error } = await wireloft(words, { folder });
    expect(status).toBe(0);
    expect(error).toContain(
      'the places in "places.json" are for A3, so what is drawn on A4 is laid out anew',
    );
  });

  it('writes a PDF with bookmarks and page numbers, and the same as Markdown', async () => {
    const folder = folderWith({});
    const { status, out, error } = await wireloft(
      ['report', KITTIWAKE, '--out', 'a', '--date', '2026-05-01', '--today', '2026-05-01'],
      { folder },
    );
    expect({ status, error }).toMatchObject({ status: 0 });
    expect(out).toBe('a/report.pdf\na/report.md\na/schedules.xlsx\n');
    const pdf = await getDocument({ data: new Uint8Array(readFileSync(join(folder, 'a', 'report.pdf'))) })
      .promise;
    expect(error).toContain(`${pdf.numPages} pages on Kittiwake`);
    const titles = (await pdf.getOutline()).map(({ title }) => title);
    expect(titles.filter((title) => SECTIONS.includes(title))).toEqual(SECTIONS);
    const texts: string[] = [];
    for (let number = 1; number <= pdf.numPages; number += 1) {
      const { items } = await (await pdf.getPage(number)).getTextContent();
      const words = items.flatMap((item) => ('str' in item ? [item.str] : []));
      expect(words).toContain(`page ${number} of ${pdf.numPages}`);
      texts.push(words.join('\n'));
    }
    const whole = texts.join('\n');
    // Owner and installer find their part: every section stands on the page that the cover names.
    const [cover = ''] = texts;
    expect(cover).toMatch(
      /For the owner\n[\s\S]*Needs\n[\s\S]*For who installs and services her\n[\s\S]*Commissioning\n/,
    );
    for (const section of SECTIONS) {
      const page = new RegExp(`^${section}\\s+(\\d+)$`, 'm').exec(cover)?.[1];
      expect(texts[Number(page) - 1], `${section} on page ${page ?? '?'}`).toMatch(
        new RegExp(`^${section}$`, 'm'),
      );
    }
    for (const word of [
      '60 ohm',
      '7918 USD',
      '10553.5 USD',
      '9018 USD',
      '7.5 A fuse, blade',
      'Fault finder',
      'Lost with',
    ])
      expect(whole).toContain(word);

    const markdown = readFileSync(join(folder, 'a', 'report.md'), 'utf8');
    const headings = [...markdown.matchAll(/^## (.+)$/gm)].map(([, title]) => title);
    expect(headings.filter((title) => SECTIONS.includes(title ?? ''))).toEqual(SECTIONS);
    expect(markdown).toContain('60 ohm');
  });

  it('wants a folder', async () => {
    const { status, error } = await wireloft(['report', KITTIWAKE], { folder: folderWith({}) });
    expect({ status, error }).toMatchObject({
      status: 2,
      error: expect.stringContaining('--out DIR') as string,
    });
  });
});

const textsOf = (items: readonly Item[]): readonly TextItem[] =>
  items.flatMap((item) => (item.kind === 'text' ? [item] : item.kind === 'group' ? textsOf(item.items) : []));

describe('the pages', () => {
  it('break lines without losing a sign, and none is wider than its room', () => {
    const text = 'backbone nav: aVeryLongNameThatDoesNotGoIntoOneLineOfTheCell.power and more';
    const lines = brokenLines(text, 20, 1.9);
    expect(lines.join('').replaceAll(' ', '')).toBe(text.replaceAll(' ', ''));
    expect(lines.length).toBeGreaterThan(3);
    for (const line of lines) expect(widthOf(line, 1.9)).toBeLessThanOrEqual(20);
  });

  it('keep a table within the page, its head on each page, and every row whole', () => {
    const columns = ['One', 'Two', 'Three', 'Four', 'Five'].map((title) => ({ title }));
    const rows = Array.from({ length: 150 }, (_, row) =>
      columns.map((_, column) => `cell${row}x${column} with rather more text than a narrow column takes`),
    );
    expect(layTable(columns, rows, 175).rows).toHaveLength(150);
    const pages = reportPages(
      {
        title: 'Boat',
        subtitle: '',
        facts: [],
        caution: '',
        sections: [{ title: 'Long', reader: 'owner', blocks: [{ kind: 'table', columns, rows }] }],
      },
      'A4',
    );
    expect(pages.length).toBeGreaterThan(5);
    const cells: string[] = [];
    for (const { items, width, height } of pages.slice(1)) {
      const texts = textsOf(items);
      expect(texts.filter(({ text }) => text === 'Three')).toHaveLength(1);
      cells.push(...texts.flatMap(({ text }) => /^cell\d+x\d+/.exec(text)?.[0] ?? []));
      for (const { x, y, text, height: size, anchor } of texts) {
        expect(y).toBeLessThan(height - 8);
        if (anchor === 'start') expect(x + widthOf(text, size)).toBeLessThan(width);
      }
      expect([...groupsOf(items)]).toEqual([]);
    }
    expect(cells).toEqual(rows.flatMap((row) => row.map((text) => text.split(' ')[0])));
  });
});
