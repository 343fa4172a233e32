import { cableSchedule, labelList, pullList, screenPlan } from '../../documents/schedules/schedules.js';
import { count } from '../../vessel/words.js';
import type { Column, ListKind, Listed, Row } from './listing.js';

export const NUMBER: Column = {
  field: 'number',
  title: 'No.',
  type: 'string',
  text: 'The number of the cable, as on the drawings; the label that the spec gives stands in its place.',
};

const listed = (rows: readonly object[], noun: string): Listed => ({
  rows: rows as readonly Row[],
  summary: `${count(rows.length, noun)}.`,
});

export const SCHEDULE: ListKind = {
  what: 'schedule',
  summary: 'the cable schedule: number, type, both ends, way and length of links, spans and drops',
  columns: [
    NUMBER,
    {
      field: 'medium',
      title: 'Medium',
      type: 'string',
      ifNull: 'unknown',
      text: 'What it carries; null where no port is settled.',
    },
    {
      field: 'type',
      title: 'Type',
      type: 'string',
      ifNull: '',
      text: 'The cable, or "captive tail"; null where none is named.',
    },
    { field: 'from', title: 'From', type: 'string', text: 'One end, a port where it is known.' },
    { field: 'to', title: 'To', type: 'string', text: 'The other end.' },
    { field: 'zones', title: 'Zones', type: 'strings', text: 'The zones along its way.' },
    { field: 'runs', title: 'Runs', type: 'strings', text: 'The runs along its way.' },
    {
      field: 'neededMetres',
      title: 'Needed m',
      type: 'number',
      ifNull: 'unknown',
      text: 'Its length; null where it is not known.',
    },
    {
      field: 'stockMetres',
      title: 'Stock m',
      type: 'numbers',
      text: 'The lengths that are bought: one, or several that are joined.',
    },
    { field: 'existing', title: 'Aboard', type: 'boolean', text: 'Whether it is aboard already.' },
    {
      field: 'missing',
      title: 'Unknown',
      type: 'string',
      ifNull: '',
      text: 'The fact without which its length is not known; null where it is.',
    },
  ],
  list: ({ analysis }) => listed(cableSchedule(analysis), 'cable'),
};

export const LABELS: ListKind = {
  what: 'labels',
  summary: 'a label for each end of every cable, sorted for a label printer',
  columns: [
    NUMBER,
    { field: 'at', title: 'At', type: 'string', text: 'The end that the label goes on.' },
    {
      field: 'zone',
      title: 'Zone',
      type: 'string',
      ifNull: '',
      text: 'Where that end is; null where it is not known.',
    },
    { field: 'other', title: 'Goes to', type: 'string', text: 'The other end.' },
  ],
  list: ({ analysis }) => listed(labelList(analysis), 'label'),
};

export const PULLS: ListKind = {
  what: 'pulls',
  summary: 'what is pulled through each run',
  columns: [
    { field: 'run', title: 'Run', type: 'string', text: 'Its name, or the two zones that it joins.' },
    { field: 'from', title: 'From', type: 'string', text: 'The zone at one end.' },
    { field: 'to', title: 'To', type: 'string', text: 'The zone at the other.' },
    {
      field: 'conduitMillimetres',
      title: 'Conduit mm',
      type: 'number',
      ifNull: '',
      text: 'The bore of its conduit; null where none is stated.',
    },
    {
      field: 'numbers',
      title: 'Cables',
      type: 'strings',
      text: 'Numbers of the links, feeds, spans and drops in it that are not aboard yet.',
    },
    {
      field: 'types',
      title: 'Types',
      type: 'strings',
      text: 'What they are: cables by name, the two wires of a feed by their size.',
    },
  ],
  list: ({ analysis }) => listed(pullList(analysis), 'run'),
};

export const SCREENS: ListKind = {
  what: 'screens',
  summary: 'the screen plan: what each pane of each view shows',
  columns: [
    { field: 'screen', title: 'Screen', type: 'string', text: 'The screen.' },
    { field: 'view', title: 'View', type: 'string', text: 'The name of the view.' },
    { field: 'pane', title: 'Pane', type: 'string', text: 'The name of the pane.' },
    { field: 'layers', title: 'Shows', type: 'strings', text: 'What it shows, from the top layer down.' },
    {
      field: 'visible',
      title: 'Can',
      type: 'boolean',
      ifNull: 'unknown',
      text: 'Whether the screen can show it; null where that is not known.',
    },
  ],
  list: ({ analysis }) => listed(screenPlan(analysis), 'pane'),
};
