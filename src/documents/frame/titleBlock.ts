/** The title block, after ISO 7200: what the sheet is, of which boat, from which text, and what to beware of. */
import type { Vessel } from '../../vessel/model.js';
import { GREY, lineItem, NARROW, rectItem, textItem, WIDE } from '../scene/make.js';
import type { Box, GroupItem, Item } from '../scene/scene.js';
import { wrapped } from '../text/measure.js';
import type { Paper } from './paper.js';

/** What a set is drawn with; a field that is not given stays empty, to be filled by pen. */
export interface TitleFacts {
  readonly vessel: Vessel;
  /** ISO date. */
  readonly date: string | undefined;
  readonly revision: string | undefined;
  /** The spec's file, a hash of what was drawn, and the tool: they match a paper to its source. */
  readonly file: string | undefined;
  readonly hash: string | undefined;
  readonly version: string | undefined;
}

export interface SheetFacts {
  readonly id: string;
  readonly title: string;
  readonly number: number;
  readonly of: number;
}

const BLOCK_WIDTH = 180;
const ROW = 8.5;
const CAUTION_HEIGHT = 10;
export const BLOCK_HEIGHT = 4 * ROW + CAUTION_HEIGHT;

const CAUTION =
  'Caution: disconnect every battery and the shore supply before work. Check lengths, sizes and ratings aboard before cutting or energising. Drawn from the specification and not from a survey of the boat.';

const PRACTICES: Readonly<Record<string, string>> = { abyc: 'ABYC E-11', iso: 'ISO 13297' };
const STATUSES: Readonly<Record<string, string>> = {
  preliminary: 'preliminary',
  installation: 'for installation',
  built: 'as built',
  asbuilt: 'as built',
};

interface Cell {
  readonly caption: string;
  readonly value: string | undefined;
  /** Share of the row. */
  readonly width: number;
  readonly bold?: boolean;
}

/** Where the block stands on a paper: bottom right. */
export function blockBox({ frame }: Paper): Box {
  return {
    x: frame.x + frame.width - BLOCK_WIDTH,
    y: frame.y + frame.height - BLOCK_HEIGHT,
    width: BLOCK_WIDTH,
    height: BLOCK_HEIGHT,
  };
}

/** The block of one sheet. */
export function titleBlock(paper: Paper, facts: TitleFacts, sheet: SheetFacts): GroupItem {
  const { vessel } = facts;
  const box = blockBox(paper);
  const rows: readonly (readonly Cell[])[] = [
    [
      { caption: 'Vessel', value: joined([vessel.name, vessel.title], ', '), width: 90, bold: true },
      { caption: 'Owner', value: vessel.owner, width: 45 },
      { caption: 'Yard', value: vessel.yard, width: 45 },
    ],
    [
      { caption: 'Title', value: joined([sheet.title, chosenText(vessel)], ', '), width: 90, bold: true },
      { caption: 'Drawing number', value: vessel.drawingNumber, width: 45 },
      { caption: 'Revision', value: facts.revision ?? vessel.revision, width: 20 },
      { caption: 'Sheet', value: `${sheet.number} of ${sheet.of}`, width: 25, bold: true },
    ],
    [
      { caption: 'Status', value: statusText(vessel.status), width: 45 },
      { caption: 'Date', value: facts.date, width: 45 },
      { caption: 'Drawn', value: undefined, width: 45 },
      { caption: 'Checked', value: undefined, width: 45 },
    ],
    [
      { caption: 'Source', value: joined([facts.file, facts.hash, facts.version], '  '), width: 90 },
      {
        caption: 'Practice',
        value: vessel.practice === undefined ? undefined : (PRACTICES[vessel.practice] ?? vessel.practice),
        width: 30,
      },
      { caption: 'Paper, scale', value: `${paper.name}, none`, width: 35 },
      { caption: 'Units', value: 'm, V, A', width: 25 },
    ],
  ];
  const items: Item[] = [rectItem(box, WIDE, '#ffffff')];
  rows.forEach((cells, row) => {
    const y = box.y + row * ROW;
    if (row > 0) items.push(lineItem(box.x, y, box.x + box.width, y));
    let { x } = box;
    for (const cell of cells) {
      if (x > box.x) items.push(lineItem(x, y, x, y + ROW));
      items.push(textItem(x + 1.2, y + 3.4, cell.caption, { colour: GREY, room: cell.width - 2 }));
      if (cell.value !== undefined && cell.value !== '')
        items.push(
          textItem(x + 1.2, y + 7.4, cell.value, { bold: cell.bold === true, room: cell.width - 2 }),
        );
      x += cell.width;
    }
  });
  const cautionTop = box.y + 4 * ROW;
  items.push(lineItem(box.x, cautionTop, box.x + box.width, cautionTop, NARROW));
  wrapped(CAUTION, box.width - 3, 2).forEach((line, index) => {
    items.push(textItem(box.x + 1.2, cautionTop + 4 + index * 4.4, line));
  });
  return {
    kind: 'group',
    id: `${sheet.id}-title-block`,
    role: 'note',
    name: 'title block',
    label: `${sheet.title} of ${vessel.name}, sheet ${sheet.number} of ${sheet.of}. ${CAUTION}`,
    items,
  };
}

function joined(parts: readonly (string | undefined)[], joiner: string): string | undefined {
  const said = parts.filter((part) => part !== undefined && part !== '');
  return said.length === 0 ? undefined : said.join(joiner);
}

/** A sheet of a boat with options must not pass for one of the boat as she is. */
const chosenText = ({ option }: Vessel): string | undefined =>
  option === undefined ? undefined : `with ${option}`;

function statusText(status: string | undefined): string | undefined {
  return status === undefined ? undefined : (STATUSES[status] ?? status);
}
