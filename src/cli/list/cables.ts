import type { PortOfDevice } from '../../checks/analysis.js';
import type { End } from '../../vessel/model.js';
import { count } from '../../vessel/words.js';
import type { ListKind } from './listing.js';

export const CABLES: ListKind = {
  what: 'cables',
  summary: 'the cable of every link: its way, its length, and what is bought for it',
  columns: [
    { field: 'id', title: 'Link', type: 'string', text: "The link's identity: its two ends." },
    {
      field: 'from',
      title: 'From',
      type: 'string',
      text: 'One end, a port where it is known.',
      only: 'data',
    },
    { field: 'to', title: 'To', type: 'string', text: 'The other end.', only: 'data' },
    {
      field: 'label',
      title: 'Label',
      type: 'string',
      ifNull: '',
      text: "The cable's label; null where it has none.",
    },
    {
      field: 'medium',
      title: 'Medium',
      type: 'string',
      ifNull: 'unknown',
      text: 'What it carries; null where no port is settled.',
    },
    {
      field: 'cable',
      title: 'Cable',
      type: 'string',
      ifNull: '',
      text: 'The cable that is named; null where none is, as with a captive tail.',
    },
    { field: 'zones', title: 'Zones', type: 'strings', text: 'The zones along its way.' },
    {
      field: 'neededMetres',
      title: 'Needed m',
      type: 'number',
      ifNull: 'unknown',
      text: 'What is stated, else the route with slack at both ends; null where it is not known.',
    },
    {
      field: 'statedMetres',
      title: 'Stated m',
      type: 'number',
      ifNull: '',
      text: 'The length that is stated; null where none is.',
    },
    {
      field: 'piecesMetres',
      title: 'Pieces m',
      type: 'numbers',
      text: 'The lengths that are bought, longest first: one, or several that are joined; none for a tail or a cable cut to length.',
    },
    {
      field: 'captiveMetres',
      title: 'Tail m',
      type: 'number',
      ifNull: '',
      text: 'The length of the moulded tail; null where there is none.',
    },
    {
      field: 'unknown',
      title: 'Unknown',
      type: 'string',
      ifNull: '',
      text: 'The fact that is missing for a length; null where none is.',
    },
  ],
  list: ({ analysis }) => {
    const wired = new Map(analysis.links.map((one) => [one.link.origin, one]));
    const rows = analysis.cables.map((run) => {
      const ends = wired.get(run.link.origin);
      return {
        id: run.id,
        from: endText(ends?.a, run.link.a),
        to: endText(ends?.b, run.link.b),
        label: run.link.label ?? null,
        medium: ends?.medium ?? null,
        cable: run.cable ?? null,
        zones: run.zones,
        neededMetres: run.neededMetres ?? null,
        statedMetres: run.statedMetres ?? null,
        piecesMetres: run.pieces,
        captiveMetres: run.captiveMetres ?? null,
        unknown: run.unknown ?? null,
      };
    });
    const unknown = rows.filter((row) => row.neededMetres === null).length;
    return { rows, summary: `${count(rows.length, 'cable')}, ${unknown} of unknown length.` };
  },
};

/** `hub.1`, as settled or as written. */
function endText(settled: PortOfDevice | undefined, written: End): string {
  if (settled) return `${settled.device}.${settled.port.name}`;
  return [written.device ?? '?', ...(written.port === undefined ? [] : [written.port])].join('.');
}
