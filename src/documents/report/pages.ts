/** A report laid out on pages: a cover with the contents, text and tables upright, drawings across as they are. */
import { paperOf, type PaperName } from '../frame/paper.js';
import { GREY, lineItem, textItem, WIDE } from '../scene/make.js';
import type { Item, Scene } from '../scene/scene.js';
import { READER_TITLES, type Block, type Report, type Section } from './report.js';
import { brokenLines, layTable } from './table.js';

const LEFT = 20;
const RIGHT = 14;
const TOP = 20;
const BOTTOM = 18;
const TEXT = 2.3;
const TEXT_LINE = 4.6;

/** A page that is being filled. */
interface Page {
  readonly items: Item[];
  readonly bookmarks: string[];
  /** A sheet that stands here as it is. */
  readonly sheet?: Scene;
}

interface Size {
  readonly width: number;
  readonly height: number;
}

/** Pages in the order of the report, numbered. */
export function reportPages(report: Report, paper: PaperName): readonly Scene[] {
  const upright = paperOf(paper === 'A4' || paper === 'A3' ? 'A4' : 'letter');
  const size: Size = { width: upright.height, height: upright.width };
  const filler = new Filler(size);
  const starts = report.sections.map((section) => filler.section(section));
  const pages: readonly Page[] = [cover(report, size, starts), ...filler.pages];
  return pages.map((page, index) => numbered(page, report.title, index + 1, pages.length, size));
}

function numbered(page: Page, title: string, number: number, of: number, size: Size): Scene {
  const text = `page ${number} of ${of}`;
  if (page.sheet !== undefined) {
    const { sheet } = page;
    const label = textItem(sheet.width - 10, sheet.height - 2.4, text, {
      height: 2,
      anchor: 'end',
      colour: GREY,
    });
    return { ...sheet, bookmarks: [...page.bookmarks, sheet.title], items: [...sheet.items, label] };
  }
  const foot = size.height - 9;
  const right = size.width - RIGHT;
  return {
    id: `page-${number}`,
    title: number === 1 ? title : `${title}, ${text}`,
    description: `Page ${number} of the report.`,
    width: size.width,
    height: size.height,
    bookmarks: page.bookmarks,
    items: [
      ...page.items,
      ...(number === 1 ? [] : [textItem(LEFT, foot, title, { height: 2, colour: GREY })]),
      textItem(right, foot, text, { height: 2, anchor: 'end', colour: GREY }),
    ],
  };
}

function cover(report: Report, size: Size, starts: readonly number[]): Page {
  const room = size.width - LEFT - RIGHT;
  const items: Item[] = [textItem(LEFT, 50, report.title, { height: 8, bold: true, room })];
  items.push(textItem(LEFT, 62, report.subtitle, { height: 3.5, colour: GREY, room }));
  items.push(lineItem(LEFT, 68, LEFT + room, 68, WIDE));
  let y = 78;
  for (const [caption, value] of report.facts) {
    items.push(textItem(LEFT, y, caption, { height: TEXT, colour: GREY }));
    for (const line of brokenLines(value, room - 38, TEXT)) {
      items.push(textItem(LEFT + 38, y, line, { height: TEXT }));
      y += 5.4;
    }
  }
  y += 6;
  for (const reader of ['owner', 'installer'] as const) {
    const own = report.sections.flatMap((section, index) =>
      section.reader === reader ? [{ title: section.title, start: starts[index] }] : [],
    );
    if (own.length === 0) continue;
    items.push(textItem(LEFT, y, READER_TITLES[reader], { height: 3, bold: true }));
    y += 7;
    for (const { title, start } of own) {
      items.push(textItem(LEFT, y, title, { height: TEXT, room: room - 20 }));
      items.push(textItem(LEFT + room, y, String(start ?? ''), { height: TEXT, anchor: 'end' }));
      y += 5.4;
    }
    y += 5;
  }
  y += 1;
  for (const line of brokenLines(report.caution, room, TEXT)) {
    items.push(textItem(LEFT, y, line, { height: TEXT, bold: false }));
    y += TEXT_LINE;
  }
  return { items, bookmarks: [report.title] };
}

/** Fills pages from the top; the cover is page 1. */
class Filler {
  readonly pages: Page[] = [];
  private y = Infinity;
  private current: Page | undefined;
  constructor(private readonly size: Size) {}

  private get bottom(): number {
    return this.size.height - BOTTOM;
  }

  private get room(): number {
    return this.size.width - LEFT - RIGHT;
  }

  /** The page to write on, with so much room left. */
  private with(height: number): Page {
    if (this.current !== undefined && this.y + height <= this.bottom) return this.current;
    const page: Page = { items: [], bookmarks: [] };
    this.current = page;
    this.pages.push(page);
    this.y = TOP;
    return page;
  }

  /** @returns the page that it begins on */
  section({ title, blocks, apart, sheets }: Section): number {
    if (apart === true) this.current = undefined;
    const [first] = blocks;
    const start = this.with(14 + (first === undefined ? 0 : this.least(first)));
    if (this.y > TOP) this.y += 6;
    this.y += 4;
    start.items.push(textItem(LEFT, this.y, title, { height: 4, bold: true, room: this.room }));
    start.bookmarks.push(title);
    const begins = this.pages.indexOf(start) + 2;
    this.y += 5;
    blocks.forEach((block, index) => this.block(block, blocks[index + 1]));
    for (const sheet of sheets ?? []) this.pages.push({ items: [], bookmarks: [], sheet });
    if (sheets !== undefined && sheets.length > 0) this.current = undefined;
    return begins;
  }

  /** What has to stand together with what is before it. */
  private least(block: Block): number {
    if (block.kind === 'table') {
      const { head, rows } = layTable(block.columns, block.rows, this.room);
      return head.height + rows.slice(0, 2).reduce((sum, row) => sum + row.height, 0);
    }
    return block.kind === 'heading' ? 20 : 2 * TEXT_LINE;
  }

  private block(block: Block, next: Block | undefined): void {
    if (block.kind === 'heading') {
      const page = this.with(9 + (next === undefined ? 0 : this.least(next)));
      this.y += 6;
      page.items.push(textItem(LEFT, this.y, block.text, { height: 2.8, bold: true, room: this.room }));
      this.y += 3;
      return;
    }
    if (block.kind === 'text') {
      this.y += 1;
      for (const line of brokenLines(block.text, this.room, TEXT)) {
        const page = this.with(TEXT_LINE);
        this.y += TEXT_LINE;
        page.items.push(textItem(LEFT, this.y - 1.2, line, { height: TEXT }));
      }
      this.y += 1.5;
      return;
    }
    const { head, rows } = layTable(block.columns, block.rows, this.room);
    let on: Page | undefined;
    // The line below a table takes its last row along to the next page.
    const below = next?.kind === 'text' ? 4 + 2 * TEXT_LINE : 0;
    for (const [index, row] of rows.entries()) {
      const after = index === rows.length - 1 ? below : 0;
      const page = this.with(row.height + after + (on === undefined ? head.height : 0));
      if (page !== on) {
        page.items.push(...head.draw(LEFT, this.y));
        this.y += head.height;
        on = page;
      }
      page.items.push(...row.draw(LEFT, this.y));
      this.y += row.height;
    }
    this.y += 4;
  }
}
