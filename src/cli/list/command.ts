import { COLOUR_OPTION, ROOT_OPTION, TODAY_OPTION, WITH_OPTION, type Command } from '../terminal/command.js';
import { LIST_KINDS } from './kinds.js';

export const LIST: Command = {
  name: 'list',
  summary: 'Lists what a vessel has and can do.',
  about: [
    'Answers from the same analysis that the checks read. Where the spec does not say enough, the answer is "unknown", never a guess.',
  ],
  arguments: [
    { name: 'WHAT', choices: LIST_KINDS.map((kind) => [kind.what, kind.summary]), text: 'What to list.' },
    { name: 'FILE', text: 'The file that declares the vessel, or one that is aboard it.' },
  ],
  options: [
    {
      name: 'format',
      value: 'FORMAT',
      choices: ['table', 'json', 'csv', 'markdown'],
      text: 'How to print it. The default is table. The shapes of json are in docs/schemas/.',
    },
    WITH_OPTION,
    ROOT_OPTION,
    TODAY_OPTION,
    COLOUR_OPTION,
  ],
  examples: [
    {
      line: 'wireloft list views kittiwake.loft',
      text: 'Which screens can show which sources, and by which path.',
    },
    {
      line: 'wireloft list parts kittiwake.loft --format csv > parts.csv',
      text: 'The parts list for a spreadsheet.',
    },
  ],
  run: async (invocation, world) => (await import('./run.js')).runList(invocation, world),
};
