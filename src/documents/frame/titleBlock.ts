/** The title block, after ISO 7200: what the sheet is, of which boat, from which text, and what to beware of. */
import type { Vessel } from '../../vessel/model.js';
import { GREY, lineItem, rectItem, textItem, WIDE } from '../scene/make.js';
import type { Box, GroupItem, Item } from '../scene/scene.js';
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
/** The block leaves as much beside it. */
const LEGEND_WIDTH = 85;
const ROW = 7.5;
const ROWS = 3;
const CAUTION_HEIGHT = 5;
/** What block and caution take at the foot of a sheet. */
export const BLOCK_HEIGHT = ROWS * ROW + CAUTION_HEIGHT;

/** On one line of the narrowest paper. */
const CAUTION =
  'Caution: disconnect batteries and shore supply before work. Check lengths, sizes and ratings aboard before cutting or energising. Not drawn from a survey.';

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
  /** Of the 180 mm that the block is wide at most. */
  readonly width: number;
  readonly bold?: boolean;
}

/** Where the block stands on a paper: bottom right, over the caution. */
export function blockBox({ frame }: Paper): Box {
  const width = Math.min(BLOCK_WIDTH, frame.width - LEGEND_WIDTH);
  return {
    x: frame.x + frame.width - width,
    y: frame.y + frame.height - BLOCK_HEIGHT,
    width,
    height: ROWS * ROW,
  };
}

/** The block of one sheet. */
export function titleBlock(paper: Paper, facts: TitleFacts, sheet: SheetFacts): GroupItem {
  const { vessel } = facts;
  const box = blockBox(paper);
  const rows: readonly (readonly Cell[])[] = [
    [
      { caption: 'Vessel', value: joined([vessel.name, vessel.title], ', '), width: 70, bold: true },
      { caption: 'Owner', value: vessel.owner, width: 38 },
      { caption: 'Yard', value: vessel.yard, width: 38 },
      { caption: 'Drawing number', value: vessel.drawingNumber, width: 34 },
    ],
    [
      { caption: 'Title', value: joined([sheet.title, chosenText(vessel)], ', '), width: 90, bold: true },
      { caption: 'Status', value: statusText(vessel.status), width: 28 },
      { caption: 'Date', value: facts.date, width: 22 },
      { caption: 'Drawn', value: undefined, width: 20 },
      { caption: 'Checked', value: undefined, width: 20 },
    ],
    [
      { caption: 'Source', value: joined([facts.file, facts.hash, facts.version], '  '), width: 70 },
      {
        caption: 'Practice',
        value: vessel.practice === undefined ? undefined : (PRACTICES[vessel.practice] ?? vessel.practice),
        width: 20,
      },
      { caption: 'Paper, scale', value: `${paper.name}, none`, width: 23 },
      { caption: 'Units', value: 'm, V, A', width: 15 },
      { caption: 'Revision', value: facts.revision ?? vessel.revision, width: 31 },
      { caption: 'Sheet', value: `${sheet.number} of ${sheet.of}`, width: 21, bold: true },
    ],
  ];
  const { frame } = paper;
  const items: Item[] = [
    rectItem({ ...box, x: frame.x, y: box.y + box.height, width: frame.width, height: CAUTION_HEIGHT }),
    rectItem(box, WIDE, '#ffffff'),
    textItem(frame.x + frame.width - 1.2, box.y + box.height + 3.6, CAUTION, { anchor: 'end' }),
  ];
  rows.forEach((cells, row) => {
    const y = box.y + row * ROW;
    if (row > 0) items.push(lineItem(box.x, y, box.x + box.width, y));
    let { x } = box;
    for (const cell of cells) {
      const width = (cell.width * box.width) / BLOCK_WIDTH;
      if (x > box.x) items.push(lineItem(x, y, x, y + ROW));
      items.push(textItem(x + 1.2, y + 2.9, cell.caption, { colour: GREY, room: width - 1.8 }));
      if (cell.value !== undefined && cell.value !== '')
        items.push(textItem(x + 1.2, y + 6.45, cell.value, { bold: cell.bold === true, room: width - 1.8 }));
      x += width;
    }
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
