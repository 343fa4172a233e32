import { count } from '../../vessel/words.js';
import { rounded, wireText } from './feeds.js';
import { numberCables } from '../../documents/numbering.js';
import type { ListKind } from './listing.js';
import { NUMBER } from './schedules.js';

export const WIRES: ListKind = {
  what: 'wires',
  summary: 'the wire of each feed: its size and what decided it, its length, its way',
  columns: [
    NUMBER,
    { field: 'from', title: 'From', type: 'string', text: 'Where it begins.' },
    { field: 'to', title: 'To', type: 'string', text: 'Where it ends.' },
    {
      field: 'label',
      title: 'Label',
      type: 'string',
      ifNull: '',
      text: 'Its label; null where it has none.',
    },
    {
      field: 'size',
      title: 'Size',
      type: 'string',
      ifNull: 'unknown',
      text: 'The size of each of its two conductors; null where it is not known.',
      only: 'data',
    },
    { field: 'sizeText', title: 'Size', type: 'string', text: '', only: 'table' },
    { field: 'computed', title: 'Computed', type: 'boolean', text: 'Left to the tool.', only: 'data' },
    {
      field: 'governedBy',
      title: 'Decided by',
      type: 'string',
      ifNull: '',
      values: ['ampacity', 'drop', 'fuse', 'minimum'],
      text: 'What decided a computed size: its current, its voltage drop, its fuse, or the least that is allowed; null for a written one.',
    },
    {
      field: 'otherSize',
      title: 'Or',
      type: 'string',
      ifNull: '',
      text: 'The nearest size of the other standard that is no thinner.',
    },
    {
      field: 'lengthMetres',
      title: 'm',
      type: 'number',
      ifNull: 'unknown',
      text: 'One way: each of the two conductors is as long; null where it is not known.',
    },
    {
      field: 'cable',
      title: 'Cable',
      type: 'string',
      ifNull: '',
      text: 'The cable that is named; null where none is.',
    },
    { field: 'sheathed', title: 'Sheathed', type: 'boolean', text: 'In a sheath all the way.' },
    {
      field: 'ratedCelsius',
      title: 'Rated C',
      type: 'number',
      ifNull: 'unknown',
      text: 'The rating of its insulation; null where it is not known.',
    },
    {
      field: 'loadedConductors',
      title: 'Bundle',
      type: 'number',
      ifNull: 'unknown',
      text: 'Conductors that are loaded together in its fullest bundle, itself counted; null where its way is not known.',
    },
    { field: 'zones', title: 'Zones', type: 'strings', text: 'The zones along its way.' },
    {
      field: 'unknown',
      title: 'Unknown',
      type: 'string',
      ifNull: '',
      text: 'The fact that is missing; null where none is.',
    },
  ],
  list: ({ analysis }) => {
    const { of } = numberCables(analysis);
    const rows = analysis.power.feeds().map((feed) => ({
      number: of(feed.origin) ?? '',
      from: feed.from,
      to: feed.to,
      label: feed.label ?? null,
      size: feed.wire.size ?? null,
      sizeText: wireText(feed),
      computed: feed.wire.computed,
      governedBy: feed.wire.governedBy ?? null,
      otherSize: feed.wire.other ?? null,
      lengthMetres: rounded(feed.lengthMetres, 3),
      cable: feed.cable ?? null,
      sheathed: feed.sheathed,
      ratedCelsius: feed.ratedCelsius ?? null,
      loadedConductors: feed.loadedConductors ?? null,
      zones: feed.zones,
      unknown: feed.missing ?? null,
    }));
    const metres = rows.reduce((total, row) => total + 2 * (row.lengthMetres ?? 0), 0);
    const unknown = rows.filter((row) => row.size === null).length;
    return {
      rows,
      summary: `${count(rows.length, 'wire')} of two conductors, ${metres.toFixed(1)} m in all, ${unknown} of unknown size.`,
    };
  },
};
