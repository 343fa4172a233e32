/** `wireloft report`: the same handover as PDF and as Markdown. */
import { readFileSync } from 'node:fs';
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
  'Open findings and waivers',
  'Options',
  'Drawings',
  'Parts',
  'Cable schedule',
  'Commissioning',
  'Van list',
  'Cautions',
];

describe('wireloft report', () => {
  it('writes a PDF with bookmarks and page numbers, and the same as Markdown, with the same bytes again', async () => {
    const folder = folderWith({});
    const write = (out: string): ReturnType<typeof wireloft> =>
      wireloft(['report', KITTIWAKE, '--out', out, '--date', '2026-05-01', '--today', '2026-05-01'], {
        folder,
      });
    const { status, out, error } = await write('a');
    expect({ status, error }).toMatchObject({ status: 0 });
    expect(out).toBe('a/report.pdf\na/report.md\na/schedules.xlsx\n');
    await write('b');
    for (const name of ['report.pdf', 'report.md', 'schedules.xlsx'])
      expect(readFileSync(join(folder, 'b', name)).equals(readFileSync(join(folder, 'a', name)))).toBe(true);

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
    for (const word of ['60 ohm', '7918 USD', '10553.5 USD', '9018 USD', '7.5 A fuse, blade', 'Fault finder'])
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
        sections: [{ title: 'Long', blocks: [{ kind: 'table', columns, rows }] }],
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
