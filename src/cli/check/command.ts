import { COLOUR_OPTION, ROOT_OPTION, TODAY_OPTION, type Command } from '../terminal/command.js';

export const CHECK: Command = {
  name: 'check',
  summary: 'Checks every vessel found by every rule.',
  about: [
    'A folder stands for every .loft file in it and below. A file that belongs to a vessel is checked with that vessel; a catalogue is checked on its own.',
    'Each finding names its place, its rule and its repair, and quotes the line. The last line counts the rules run, what they found, what is waived and what could not be judged because the spec does not say enough.',
  ],
  arguments: [{ name: 'PATH...', text: 'Files and folders to check.' }],
  options: [
    ROOT_OPTION,
    TODAY_OPTION,
    {
      name: 'format',
      value: 'FORMAT',
      choices: ['text', 'json', 'sarif'],
      text: 'How to print the findings. The default is text. The shape of json is in docs/schemas/check.schema.json; sarif is SARIF 2.1.0.',
    },
    {
      name: 'max-warnings',
      value: 'N',
      text: 'More warnings than this, waived ones aside, give exit status 1.',
    },
    COLOUR_OPTION,
  ],
  examples: [
    { line: 'wireloft check kittiwake.loft', text: 'Checks one boat.' },
    {
      line: 'wireloft check . --max-warnings 0',
      text: 'Checks everything here and lets no warning pass, as before a merge.',
    },
    {
      line: 'wireloft check . --format sarif > findings.sarif',
      text: 'Writes the findings for a code review.',
    },
  ],
  run: async (invocation, world) => (await import('./run.js')).runCheck(invocation, world),
};
