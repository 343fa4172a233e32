/** docs/drawings.md says what the sheets have: lines, letters, marks, papers, columns, options. */
import { describe, expect, it } from 'vitest';
import { DRAW } from '../../src/cli/draw/command.js';
import { drawSheets } from '../../src/documents/draw.js';
import { DRAWING_FORMATS, USUAL_DPI } from '../../src/documents/formats/files.js';
import { paperOf, PAPERS, zoneEdges } from '../../src/documents/frame/paper.js';
import { groupsOf, type Stroke } from '../../src/documents/scene/scene.js';
import { SHEET_KINDS } from '../../src/documents/sheet.js';
import { MEDIUM_LETTERS, mediumTitle, strokeOf } from '../../src/documents/style.js';
import { MEDIA } from '../../src/vessel/model.js';
import { EXAMPLES, example } from '../documents/boats.js';
import { readPage } from './support/snippets.js';

const page = readPage('docs/drawings.md').replace(/ +/g, ' ').replace(/-{3,}/g, '---');

const lineText = ({ width, dash }: Stroke): string =>
  `${width} wide, ${dash === undefined ? 'full' : dash.map((length, index) => `${length} ${index % 2 === 0 ? 'on' : 'off'}`).join(', ')}`;

/** The rows under a head. */
function rowsUnder(head: string): readonly string[] {
  const [, after = ''] = page.split(`${head}\n`);
  const [table = ''] = after.split('\n\n');
  return table.split('\n').slice(1);
}

describe('docs/drawings.md', () => {
  it('has the line and the letter of every medium', () => {
    expect(rowsUnder('| Letter | Medium | Line, in mm |')).toEqual([
      ...MEDIA.map(
        (medium) => `| ${MEDIUM_LETTERS[medium]} | ${mediumTitle(medium)} | ${lineText(strokeOf(medium))} |`,
      ),
      `| X | ${mediumTitle(undefined)} | ${lineText(strokeOf(undefined))} |`,
    ]);
  });

  it('has every paper with its size and its zones', () => {
    expect(rowsUnder('| Paper | Size in mm | Zones |')).toEqual(
      PAPERS.map((name) => {
        const { width, height, frame } = paperOf(name);
        const columns = zoneEdges(frame.x, frame.x + frame.width, width / 2).length - 1;
        const rows = zoneEdges(frame.y, frame.y + frame.height, height / 2).length - 1;
        return `| ${name} | ${width} x ${height} | ${columns} x ${rows} |`;
      }),
    );
  });

  it('explains what the legends of the examples name', async () => {
    // A medium has its row, and the last word of an entry that has a comma its own.
    const known = new Set<string>(MEDIA.map((medium) => mediumTitle(medium)));
    const named = new Set<string>();
    for (const name of EXAMPLES)
      for (const { scene } of drawSheets(await example(name), { paper: 'A3' }))
        for (const group of groupsOf(scene.items))
          if (group.name === 'legend')
            for (const text of group.label.replace(/^Legend: |\.$/g, '').split(', ')) named.add(text);
    expect(named.size).toBeGreaterThan(20);
    const marks = rowsUnder('| Mark | Means |').join('\n');
    const text = `${marks}\n${page.split('## The plan and its tables')[1] ?? ''}`;
    expect([...named].filter((word) => !known.has(word) && !text.includes(word))).toEqual([]);
  });

  it('explains every column of the tables', async () => {
    const heads = new Set<string>();
    for (const name of EXAMPLES)
      for (const { scene } of drawSheets(await example(name), { paper: 'A3', sheets: ['plan'] }))
        for (const { role, items } of groupsOf(scene.items))
          if (role === 'table')
            for (const item of items)
              if (item.kind === 'text' && item.bold === true && item.height < 3) heads.add(item.text);
    expect(heads.size).toBeGreaterThan(10);
    const first = rowsUnder('| Column | Says |').concat(
      page.split('The **core table**')[1]?.split('\n') ?? [],
    );
    const cells = first.flatMap((row) => /^\| ([^|]+) \|/.exec(row)?.[1]?.split(/, (?=[A-Z])/) ?? []);
    expect([...heads].filter((head) => !cells.includes(head))).toEqual([]);
  });

  it('names every kind of sheet, every format and every option of its own', () => {
    expect(rowsUnder('| Sheet | Shows | For |').map((row) => /`(\w+)`/.exec(row)?.[1])).toEqual([
      ...SHEET_KINDS,
    ]);
    for (const format of DRAWING_FORMATS) expect(page).toContain(`\`${format}\``);
    expect(page).toContain(`${USUAL_DPI} dots to the inch`);
    for (const name of ['sheet', 'format', 'dpi', 'places', 'with']) {
      expect(DRAW.options.map((option) => option.name)).toContain(name);
      expect(page).toContain(`--${name}`);
    }
  });
});
