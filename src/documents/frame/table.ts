/** Tables on sheets: as many rows as go on each, the head on every one. */
import { GREY, lineItem, NARROW, rectItem, textItem, WIDE } from '../scene/make.js';
import type { Box, GroupItem, Item } from '../scene/scene.js';

export interface Column {
  readonly title: string;
  /** Share of the width. */
  readonly share: number;
}

export interface Table {
  readonly title: string;
  readonly columns: readonly Column[];
  readonly rows: readonly (readonly string[])[];
}

const ROW = 5.5;
const TITLE = 9;

/** Rows that go on a page. */
const rowsOn = (height: number): number => Math.max(1, Math.floor((height - TITLE - ROW) / ROW));

/** How many pages a table takes. */
export function tablePages(table: Table, area: Box): number {
  return Math.max(1, Math.ceil(table.rows.length / rowsOn(area.height)));
}

/** One page of a table. */
export function tableGroup(table: Table, page: number, area: Box, sheetId: string): GroupItem {
  const most = rowsOn(area.height);
  const rows = table.rows.slice(page * most, (page + 1) * most);
  const shares = table.columns.reduce((sum, { share }) => sum + share, 0);
  const top = area.y + TITLE;
  const height = ROW * (rows.length + 1);
  const items: Item[] = [
    textItem(area.x, area.y + 5, table.title, { height: 3.5, bold: true, room: area.width }),
    rectItem({ x: area.x, y: top, width: area.width, height }, WIDE),
    rectItem({ x: area.x, y: top, width: area.width, height: ROW }, NARROW, '#e4ebf2'),
  ];
  let { x } = area;
  table.columns.forEach(({ title, share }, index) => {
    const width = (area.width * share) / shares;
    if (index > 0) items.push(lineItem(x, top, x, top + height));
    items.push(textItem(x + 1.2, top + 4, title, { bold: true, room: width - 2.4, colour: GREY }));
    rows.forEach((row, place) => {
      const text = row[index] ?? '';
      if (text !== '')
        items.push(textItem(x + 1.2, top + ROW * (place + 1) + 4, text, { room: width - 2.4 }));
    });
    x += width;
  });
  rows.forEach((_, place) => {
    if (place > 0)
      items.push(lineItem(area.x, top + ROW * (place + 1), area.x + area.width, top + ROW * (place + 1)));
  });
  return {
    kind: 'group',
    id: `${sheetId}-table`,
    role: 'table',
    name: table.title,
    label: `${table.title}: ${rows.length} of ${table.rows.length} rows.`,
    items,
  };
}
