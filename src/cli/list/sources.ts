import { count } from '../../vessel/words.js';
import type { ListKind } from './listing.js';

export const SOURCES: ListKind = {
  what: 'sources',
  summary: 'what each source gives, and which screens see it',
  columns: [
    { field: 'source', title: 'Source', type: 'string', text: 'The device that gives the signal.' },
    {
      field: 'model',
      title: 'Model',
      type: 'string',
      ifNull: '',
      text: "The device's model; null where it does not resolve.",
    },
    {
      field: 'zone',
      title: 'Zone',
      type: 'string',
      ifNull: '',
      text: 'Where it sits; null where it is not said.',
    },
    { field: 'signal', title: 'Signal', type: 'string', text: 'What the source gives.' },
    {
      field: 'grade',
      title: 'Grade',
      type: 'string',
      ifNull: '',
      values: ['standard', 'hd'],
      text: 'The grade of a sonar signal; null for any other.',
    },
    { field: 'seenBy', title: 'Seen by', type: 'strings', text: 'The screens that can show it.' },
    {
      field: 'unknownOn',
      title: 'Unknown on',
      type: 'strings',
      text: 'The screens for which the spec does not say enough.',
    },
  ],
  list: ({ analysis }) => {
    const devices = new Map(analysis.vessel.devices.map((device) => [device.name, device]));
    const rows = analysis.sources.map(({ source, signal, grade }) => {
      const device = devices.get(source);
      const answers = analysis.screens.map((screen) => analysis.answer(screen, source, signal));
      const screens = (visible: boolean | null): string[] =>
        answers.filter((answer) => answer.visible === visible).map((answer) => answer.screen);
      return {
        source,
        model: device?.models[0] ?? null,
        zone: device?.zone ?? null,
        signal,
        grade: grade ?? null,
        seenBy: screens(true),
        unknownOn: screens(null),
      };
    });
    const unseen = rows.filter((row) => row.seenBy.length === 0).length;
    return { rows, summary: `${count(rows.length, 'signal')}, ${unseen} of them on no screen.` };
  },
};
