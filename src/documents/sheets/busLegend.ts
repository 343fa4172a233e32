/** The legend of a bus sheet: what is on it, and nothing else. */
import { EXISTING, markSign } from '../diagram/render.js';
import type { LegendEntry } from '../frame/legend.js';
import { lineItem, rectItem, textItem } from '../scene/make.js';
import { arrow, dot, DROP, earth, PEN, RAIL, SUPPLY } from './busSigns.js';
import type { Placed, TrunkRow } from './trunk.js';

/** The legend of what is in some rows. */
export function busLegend(rows: readonly TrunkRow[]): readonly LegendEntry[] {
  const items = rows.flatMap((row) => row.items);
  const has = (kind: Placed['kind']): boolean => items.some((item) => item.kind === kind);
  const nodes = items.flatMap((item) =>
    item.kind === 'tap'
      ? [item.node]
      : item.kind === 'tee'
        ? [...(item.hung === undefined ? [] : [item.hung.node]), ...item.branches.map(({ node }) => node)]
        : [],
  );
  const marked = [...items, ...rows.flatMap(({ spans }) => spans)].some((one) => one.marked);
  const centred =
    (text: string): LegendEntry['sample'] =>
    (x, y) => [textItem(x + 6, y + 1.25, text, { anchor: 'middle' })];
  const entries: readonly (readonly [boolean, string, LegendEntry['sample']])[] = [
    [true, 'backbone', (x, y) => [lineItem(x, y, x + 12, y, RAIL)]],
    [
      has('tee'),
      'tee and drop',
      (x, y) => [
        lineItem(x, y - 1, x + 12, y - 1, RAIL),
        dot(x + 6, y - 1),
        lineItem(x + 6, y - 1, x + 6, y + 2, DROP),
      ],
    ],
    [has('tap'), 'tap, supply', (x, y) => [lineItem(x, y, x + 12, y, SUPPLY)]],
    [
      has('terminator'),
      'terminator',
      (x, y) => [
        lineItem(x, y, x + 6, y, RAIL),
        rectItem({ x: x + 6, y: y - 1.5, width: 6, height: 3 }, PEN),
      ],
    ],
    [has('ground'), 'drain, earthed', (x, y) => earth(x + 6, y - 1.8, 1.3)],
    [items.some((item) => item.kind === 'tee' && item.hung !== undefined), 'load units', centred('LEN')],
    [items.some((item) => item.kind === 'tee' && item.hung !== undefined), 'lowest there', centred('12 V')],
    [
      rows.some(({ before, after }) => before || after),
      'goes on',
      (x, y) => [lineItem(x, y, x + 12, y, RAIL), ...arrow(x + 12, y, -1)],
    ],
    [
      nodes.some(({ existing }) => existing),
      'aboard already',
      (x, y) => [rectItem({ x: x + 1, y: y - 1.8, width: 10, height: 3.6 }, EXISTING)],
    ],
    [
      marked || nodes.some(({ marks }) => marks.length > 0),
      'finding',
      (x, y) => [markSign(x + 4.6, y + 1.25)],
    ],
  ];
  return entries.flatMap(([shown, text, sample]) => (shown ? [{ text, sample }] : []));
}
