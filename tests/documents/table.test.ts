/** Tables on sheets: every row once, no page with a rest of a row or two, nothing cut that goes in on two lines. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { drawSheets } from '../../src/documents/draw.js';
import { PAPERS } from '../../src/documents/frame/paper.js';
import { tablePages, type Table } from '../../src/documents/frame/table.js';
import { groupsOf } from '../../src/documents/scene/scene.js';
import { EXAMPLES, example } from './boats.js';

const AREA = { x: 0, y: 0, width: 240, height: 150 };

const tableOf = (name: string, rows: number): Table => ({
  title: name,
  columns: [
    { title: 'Run', share: 1 },
    { title: 'Cable', share: 3 },
  ],
  rows: Array.from({ length: rows }, (_, index) => [
    index % 5 === 0 ? `run ${index}` : '',
    `${name} row ${index}`,
  ]),
});

/** Rows on each page, table by table. */
function rowsOn(tables: readonly Table[]): readonly (readonly number[])[] {
  return tablePages(tables, AREA).map(({ items }) =>
    [...groupsOf(items('sheet'))].map(
      (group) => group.items.filter((item) => item.kind === 'text' && / row \d+$/.test(item.text)).length,
    ),
  );
}

describe('tables', () => {
  it('have every row once, none alone on a page, on as few pages as they take', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 120 }), fc.integer({ min: 0, max: 120 }), (one, other) => {
        const pages = rowsOn([tableOf('one', one), tableOf('other', other)]);
        const pieces = pages.flat();
        expect(pieces.reduce((sum, rows) => sum + rows, 0)).toBe(one + other);
        // A page holds 24 rows below one head.
        expect(pages.length).toBeLessThanOrEqual(Math.ceil(one / 24) + Math.ceil(other / 24));
        for (const rows of pieces) if (rows < 4) expect([one, other]).toContain(rows);
      }),
    );
  });

  it('stand under one another where both go in, and spread evenly where one does not', () => {
    expect(rowsOn([tableOf('one', 8), tableOf('other', 6)])).toEqual([[8, 6]]);
    expect(rowsOn([tableOf('one', 26)])).toEqual([[13], [13]]);
    expect(tablePages([tableOf('one', 26)], AREA).map(({ title }) => title)).toEqual([
      'one 1 of 2',
      'one 2 of 2',
    ]);
  });

  it('name the run again where a page begins within it', () => {
    const [, second] = tablePages([tableOf('one', 28)], AREA);
    const texts =
      second?.items('sheet').flatMap((group) => (group.kind === 'group' ? group.items : [])) ?? [];
    const runs = texts.flatMap((item) =>
      item.kind === 'text' && item.text.startsWith('run ') ? [item.text] : [],
    );
    expect(runs[0]).toBe('run 10');
  });

  it.each(EXAMPLES)('of %s are never cut, and no two sheets have one title', async (name) => {
    const analysis = await example(name);
    for (const paper of PAPERS) {
      const sheets = drawSheets(analysis, { paper, sheets: ['plan'] });
      const cut = sheets
        .flatMap(({ scene }) => [...groupsOf(scene.items)].filter(({ role }) => role === 'table'))
        .flatMap(({ items }) =>
          items.flatMap((item) => (item.kind === 'text' && item.text.endsWith('…') ? [item.text] : [])),
        );
      expect(cut).toEqual([]);
      const titles = sheets.map(({ scene }) => scene.title);
      expect(titles).toEqual([...new Set(titles)]);
    }
  });
});
