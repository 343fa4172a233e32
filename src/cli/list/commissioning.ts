import { faultFinder } from '../../documents/commissioning/bus.js';
import { commissioning, STAGES } from '../../documents/commissioning/steps.js';
import { connectorCount, vanList } from '../../documents/schedules/making.js';
import { count } from '../../vessel/words.js';
import type { ListKind, Row } from './listing.js';

export const COMMISSIONING: ListKind = {
  what: 'commissioning',
  summary: 'what to test in order, with the value that is expected',
  columns: [
    { field: 'number', title: 'No.', type: 'number', text: 'Its place in the order, from 1.' },
    { field: 'stage', title: 'Stage', type: 'string', values: STAGES, text: 'When it is made.' },
    { field: 'test', title: 'Test', type: 'string', text: 'What is tested.' },
    { field: 'at', title: 'At', type: 'string', text: 'Where.' },
    {
      field: 'expected',
      title: 'Expected',
      type: 'string',
      ifNull: 'unknown',
      text: 'What the analysis expects; null where it does not know.',
    },
    {
      field: 'note',
      title: 'Note',
      type: 'string',
      ifNull: '',
      text: 'The fact that is missing, or what else there is to know; null where there is nothing.',
    },
  ],
  list: ({ analysis }) => {
    const rows = commissioning(analysis);
    const unknown = rows.filter(({ expected }) => expected === null).length;
    return {
      rows: rows.map((row): Row => ({ ...row })),
      summary: `${count(rows.length, 'test')}, ${unknown} with nothing known to expect.`,
    };
  },
};

export const FAULTS: ListKind = {
  what: 'faults',
  summary: 'the fault finder of the buses: what a reading means, and where to look',
  columns: [
    { field: 'bus', title: 'Backbone', type: 'string', text: 'The backbone.' },
    { field: 'reading', title: 'Reading', type: 'string', text: 'What the meter shows.' },
    { field: 'means', title: 'Means', type: 'string', text: 'What that says.' },
    { field: 'look', title: 'Look at', type: 'string', text: 'Where to look.' },
  ],
  list: ({ analysis }) => {
    const rows = faultFinder(analysis);
    return { rows: rows.map((row): Row => ({ ...row })), summary: `${count(rows.length, 'reading')}.` };
  },
};

export const CONNECTORS: ListKind = {
  what: 'connectors',
  summary: 'how many plugs, tees, terminators and terminals there are to fit',
  columns: [
    { field: 'item', title: 'Item', type: 'string', text: 'What it is.' },
    { field: 'quantity', title: 'Quantity', type: 'number', text: 'How many.' },
    {
      field: 'supplied',
      title: 'Supplied',
      type: 'string',
      values: ['moulded', 'to fit', 'unknown'],
      text: 'On a cable that is bought, or to be fitted aboard; unknown where no cable or size is known.',
    },
    { field: 'for', title: 'For', type: 'strings', text: 'Cables and backbones that ask for it.' },
  ],
  list: ({ analysis }) => {
    const rows = connectorCount(analysis);
    const fit = rows
      .filter(({ supplied }) => supplied === 'to fit')
      .reduce((sum, row) => sum + row.quantity, 0);
    return {
      rows: rows.map((row): Row => ({ ...row })),
      summary: `${count(rows.length, 'kind')}, ${fit} to fit aboard.`,
    };
  },
};

export const VAN: ListKind = {
  what: 'van',
  summary: 'what to take aboard to make off and to mend: terminals, sleeves, caps, spare fuses',
  columns: [
    {
      field: 'group',
      title: 'Group',
      type: 'string',
      values: ['terminals', 'heat-shrink', 'caps', 'spare fuses'],
      text: 'What kind of thing.',
    },
    { field: 'item', title: 'Item', type: 'string', text: 'What it is, with its size.' },
    { field: 'quantity', title: 'Quantity', type: 'number', text: 'How many.' },
    {
      field: 'note',
      title: 'Note',
      type: 'string',
      ifNull: '',
      text: 'What for; null where it says itself.',
    },
  ],
  list: ({ analysis }) => {
    const rows = vanList(analysis);
    return { rows: rows.map((row): Row => ({ ...row })), summary: `${count(rows.length, 'line')}.` };
  },
};
