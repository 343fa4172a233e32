import { VERDICTS, type ViewAnswer } from '../../checks/analysis.js';
import { count } from '../../vessel/words.js';
import type { ListKind, Row } from './listing.js';

const position = {
  type: 'object',
  properties: { line: { type: 'integer', minimum: 0 }, character: { type: 'integer', minimum: 0 } },
  required: ['line', 'character'],
};

export const VIEWS: ListKind = {
  what: 'views',
  summary: 'which screen can show which signal of which source, and by which path',
  columns: [
    { field: 'screen', title: 'Screen', type: 'string', text: 'The screen that is asked.' },
    { field: 'source', title: 'Source', type: 'string', text: 'The device that gives the signal.' },
    { field: 'signal', title: 'Signal', type: 'string', text: 'What the source gives.' },
    {
      field: 'visible',
      title: 'Shows',
      type: 'boolean',
      ifNull: 'unknown',
      text: 'Whether the screen can show it; null where the spec does not say enough, which is verdict unknown.',
    },
    {
      field: 'verdict',
      title: 'Verdict',
      type: 'string',
      values: VERDICTS,
      text: 'How it came out: reached, or the first reason that holds against it.',
      only: 'data',
    },
    {
      field: 'by',
      title: 'By',
      type: 'string',
      ifNull: '',
      values: ['own', 'network', 'bus'],
      text: "By the screen's own port, over the network or over a bus; null where it does not get there.",
    },
    {
      field: 'path',
      title: 'Path',
      type: 'strings',
      text: 'The devices from the source to the screen.',
      only: 'data',
    },
    {
      field: 'needsPowered',
      title: 'Needs powered',
      type: 'strings',
      text: 'The devices in between that must be powered.',
      only: 'data',
    },
    {
      field: 'reason',
      title: 'Reason',
      type: 'string',
      ifNull: '',
      text: 'Why not; null where it is visible.',
      only: 'data',
    },
    { field: 'way', title: 'Path, or why not', type: 'string', text: '', only: 'table' },
  ],
  detailSchema: {
    hops: {
      type: 'array',
      description: 'The steps of the answer; the last one is the first that fails.',
      items: {
        type: 'object',
        properties: {
          device: { type: 'string' },
          port: { type: ['string', 'null'] },
          why: { type: 'string', description: 'The rule or the statement that decided it.' },
          file: { type: ['string', 'null'] },
          range: {
            anyOf: [
              { type: 'object', properties: { start: position, end: position }, required: ['start', 'end'] },
              { type: 'null' },
            ],
            description: 'Zero-based, as in the Language Server Protocol.',
          },
        },
        required: ['device', 'port', 'why', 'file', 'range'],
      },
    },
  },
  list: ({ analysis }, placeOf) => {
    const answers = analysis.screens.flatMap((screen) =>
      analysis.sources.map(({ source, signal }) => analysis.answer(screen, source, signal)),
    );
    const visible = answers.filter((answer) => answer.visible === true).length;
    const unknown = answers.filter((answer) => answer.visible === null).length;
    return {
      rows: answers.map(row),
      summary: `${count(answers.length, 'view')}: ${visible} visible, ${answers.length - visible - unknown} not, ${unknown} unknown.`,
      details: answers.map((answer) => ({
        hops: answer.hops.map((hop) => {
          const place = placeOf(hop.spot);
          const { device, port = null, why } = hop;
          return { device, port, why, file: place?.file ?? null, range: place?.range ?? null };
        }),
      })),
    };
  },
};

function row(answer: ViewAnswer): Row {
  const { screen, source, signal, visible, verdict, by, path, needsPowered, reason } = answer;
  const way = visible === true ? path.join(' - ') : (reason ?? verdict);
  return { screen, source, signal, visible, verdict, by, path, needsPowered, reason, way };
}
