/** The workbook: formulas that stand for the values beside them, and text that stays text. */
import { read, utils } from '@e965/xlsx';
import { describe, expect, it } from 'vitest';
import { toXlsx } from '../../src/documents/formats/xlsx.js';
import { sideBySide } from '../../src/documents/schedules/offers.js';
import type { PartLine } from '../../src/checks/analysis.js';

describe('the workbook', () => {
  it('stores what begins like a formula as text', () => {
    const hostile = ['=1+1', '+cmd', '-2', '@SUM(A1)', '\t=1', '=HYPERLINK("x")', 'a\u0000b'];
    const sheet = read(toXlsx([{ name: 'Text', rows: [hostile] }]), { cellFormula: true }).Sheets['Text'];
    hostile.forEach((text, index) => {
      const cell: unknown = sheet?.[utils.encode_cell({ r: 0, c: index })];
      expect(cell).toMatchObject({ t: 's', v: text.replace('\u0000', '\ufffd') });
      expect(cell).not.toHaveProperty('f');
    });
  });

  it('stores formulas with their values, leaves nothing as nothing, and gives the same bytes again', () => {
    const sheets = [{ name: 'Sums', rows: [[2, 3, { formula: 'A1*B1', value: 6 }, null, NaN]] }];
    const bytes = toXlsx(sheets);
    const sheet = read(bytes, { cellFormula: true }).Sheets['Sums'];
    expect(sheet?.['C1']).toMatchObject({ t: 'n', v: 6, f: 'A1*B1' });
    expect(sheet?.['D1']).toBeUndefined();
    expect(sheet?.['E1']).toMatchObject({ t: 's', v: 'unknown' });
    expect(Buffer.from(toXlsx(sheets)).equals(Buffer.from(bytes))).toBe(true);
  });
});

const part = (model: string, quantity: number, unitPrice: number | null, existing = false): PartLine => ({
  kind: 'device',
  model,
  title: undefined,
  part: undefined,
  lengthMetres: undefined,
  quantity,
  unitPrice,
  totalPrice: existing ? 0 : unitPrice === null ? null : unitPrice * quantity,
  currency: unitPrice === null ? null : 'USD',
  existing,
});

describe('offers side by side', () => {
  it('have a row for each part that any has, and leave out what is aboard', () => {
    const rows = sideBySide([
      { name: 'a', parts: [part('Beta', 2, 10), part('Old', 1, 5, true)] },
      { name: 'b', parts: [part('Alpha', 1, null), part('Beta', 3, 10)] },
    ]);
    expect(rows.map(({ model, quantities }) => [model, ...quantities])).toEqual([
      ['Alpha', 0, 1],
      ['Beta', 2, 3],
    ]);
  });
});
