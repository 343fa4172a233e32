import { count } from '../../vessel/words.js';
import { WHERE_COLUMNS, type ListKind } from './listing.js';

export const NEEDS: ListKind = {
  what: 'needs',
  summary: 'what the boat must do, and whether it does',
  columns: [
    { field: 'need', title: 'Need', type: 'string', text: 'The need as it is written.' },
    {
      field: 'met',
      title: 'Met',
      type: 'boolean',
      ifNull: 'unknown',
      text: 'Whether it is met; null where that cannot be judged.',
    },
    {
      field: 'reason',
      title: 'Reason',
      type: 'string',
      ifNull: '',
      text: 'Why it is not met, or cannot be judged; null where it is met.',
    },
    ...WHERE_COLUMNS,
  ],
  list: ({ analysis }, placeOf) => {
    const rows = analysis.needs.map(({ text, met, reason, spot }) => {
      const place = placeOf(spot);
      return {
        need: text,
        met,
        reason,
        file: place?.file ?? null,
        line: place ? place.range.start.line + 1 : null,
      };
    });
    const having = (met: boolean | null): number => rows.filter((row) => row.met === met).length;
    return {
      rows,
      summary: `${count(rows.length, 'need')}: ${having(true)} met, ${having(false)} not met, ${having(null)} unknown.`,
    };
  },
};
