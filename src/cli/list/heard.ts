import { count } from '../../vessel/words.js';
import type { DataWant } from '../../checks/data/data.js';
import type { ListKind, Row } from './listing.js';

/** `list data`: a row for each source that reaches what wants it, and one for what nothing reaches. */
export const HEARD: ListKind = {
  what: 'data',
  summary: 'what each device wants to hear, what brings it, by which path, and how often',
  columns: [
    { field: 'consumer', title: 'Consumer', type: 'string', text: 'The device that wants the signal.' },
    { field: 'signal', title: 'Signal', type: 'string', text: 'What it wants.' },
    {
      field: 'source',
      title: 'Source',
      type: 'string',
      ifNull: 'none',
      text: 'The device that brings it; null where none is known to.',
    },
    { field: 'path', title: 'Path', type: 'strings', text: 'Devices from the source to the consumer.' },
    {
      field: 'wantedHertz',
      title: 'Wanted Hz',
      type: 'number',
      ifNull: '',
      text: 'How often it wants it; null where it does not say.',
    },
    {
      field: 'givenHertz',
      title: 'Given Hz',
      type: 'number',
      ifNull: 'unknown',
      text: 'How often it comes; null where nothing says.',
    },
    {
      field: 'verdict',
      title: 'Verdict',
      type: 'string',
      values: ['met', 'slow', 'none', 'unknown'],
      text: 'Of the want as a whole: met; it comes less often than wanted; no source reaches it; the spec does not say enough.',
    },
    {
      field: 'reason',
      title: 'Reason',
      type: 'string',
      ifNull: '',
      text: 'Why it is not met, or what is not known; null where it is met.',
    },
  ],
  list: ({ analysis }) => {
    const data = analysis.data();
    const of = (verdict: DataWant['verdict']): number =>
      data.filter((want) => want.verdict === verdict).length;
    const rows = data.flatMap((want): readonly Row[] => {
      const { device: consumer, signal, verdict, reason } = want;
      const wantedHertz = want.wantedHertz ?? null;
      const common = { consumer, signal, wantedHertz, verdict, reason };
      return want.supplies.length === 0
        ? [{ ...common, source: null, path: [], givenHertz: null }]
        : want.supplies.map(({ source, path, hertz }) => ({
            ...common,
            source,
            path,
            givenHertz: hertz ?? null,
          }));
    });
    return {
      rows,
      summary: `${count(data.length, 'want')}: ${of('met')} met, ${of('slow')} too slow, ${of('none')} from no source, ${of('unknown')} unknown.`,
    };
  },
};
