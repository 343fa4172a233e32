import { count } from '../../vessel/words.js';
import { WHERE_COLUMNS, type ListKind } from './listing.js';

export const FAILURES: ListKind = {
  what: 'failures',
  summary: 'what the boat no longer does when one thing aboard fails',
  columns: [
    {
      field: 'kind',
      title: 'Kind',
      type: 'string',
      values: ['device', 'cable', 'bus', 'feed', 'fuse', 'not analysed'],
      text: 'What fails; "not analysed" for a need, a pane or a supply that is not there to be lost.',
    },
    {
      field: 'element',
      title: 'Fails',
      type: 'string',
      text: 'Its name, or the two ends of what joins them.',
    },
    {
      field: 'what',
      title: 'What',
      type: 'string',
      ifNull: '',
      text: "A device's class, a cable's medium, feed or tap, fuse or breaker; null for what is not analysed.",
    },
    {
      field: 'needsLost',
      title: 'Needs lost',
      type: 'strings',
      text: 'Needs that are met, and would not be.',
    },
    {
      field: 'viewsLost',
      title: 'Views lost',
      type: 'strings',
      text: 'Panes of views that show what they should, and would not, as Drift/left.',
    },
    { field: 'devicesDark', title: 'Dark', type: 'strings', text: 'Other devices that would have no power.' },
    {
      field: 'otherPath',
      title: 'Another path',
      type: 'strings',
      text: 'Needs and panes that rest on it and would still hold by another path.',
    },
    {
      field: 'reason',
      title: 'Why not',
      type: 'string',
      ifNull: '',
      text: 'Why it is not analysed; null for what is.',
    },
    ...WHERE_COLUMNS,
  ],
  list: ({ analysis }, placeOf) => {
    const { failures, notAnalysed } = analysis.failures();
    const where = (spot: Parameters<typeof placeOf>[0]): { file: string | null; line: number | null } => {
      const place = placeOf(spot);
      return { file: place?.file ?? null, line: place ? place.range.start.line + 1 : null };
    };
    const rows = [
      ...failures.map(({ kind, name, what, spot, needsLost, viewsLost, devicesDark, otherPath }) => ({
        kind,
        element: name,
        what,
        needsLost,
        viewsLost,
        devicesDark,
        otherPath,
        reason: null,
        ...where(spot),
      })),
      ...notAnalysed.map(({ what, why, spot }) => ({
        kind: 'not analysed',
        element: what,
        what: null,
        needsLost: [],
        viewsLost: [],
        devicesDark: [],
        otherPath: [],
        reason: why,
        ...where(spot),
      })),
    ];
    const costing = failures.filter((one) => one.needsLost.length > 0);
    return {
      rows,
      summary: `${count(failures.length, 'failure')}: ${costing.length} cost a need, ${failures.filter((one) => one.needsLost.length + one.viewsLost.length + one.devicesDark.length === 0).length} cost nothing; ${notAnalysed.length} not analysed.`,
    };
  },
};
