import { COLOUR_OPTION, ROOT_OPTION, TODAY_OPTION, WITH_OPTION, type Command } from '../terminal/command.js';

export const CHECK: Command = {
  name: 'check',
  summary: 'Checks every vessel found by every rule.',
  about: [
    'A folder stands for every .loft file in it and below. A file that belongs to a vessel is checked with that vessel; a catalogue is checked on its own.',
    'What an option brings that the vessel does not have without it is marked with the option, and said at the option where it is found outside of it.',
    'Each finding names its place, its rule and its repair, and quotes the line. The last line counts the rules run, what they found, what is waived and what could not be judged because the spec does not say enough.',
  ],
  arguments: [{ name: 'PATH...', text: 'Files and folders to check.' }],
  options: [
    {
      ...WITH_OPTION,
      text: 'Checks the vessel with these of its options together. Without it every vessel is checked as it is, and with each of its options by itself.',
    },
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
    {
      name: 'cheaper',
      text: 'Looks for a cheaper design of each vessel as well, which takes its time, and tells of it by the rule choice/cheaper. See "wireloft suggest".',
    },
    {
      name: 'jobs',
      value: 'N',
      text: 'Checks so many vessels at a time, each in a thread of its own. The default is as many as there are processors, and fewer where it would not pay. What is printed does not depend on it.',
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
      line: 'wireloft check kittiwake.loft --with offshore,bigScreen',
      text: 'Checks the boat with two of her options together.',
    },
    {
      line: 'wireloft check . --format sarif > findings.sarif',
      text: 'Writes the findings for a code review.',
    },
  ],
  run: async (invocation, world) => (await import('./run.js')).runCheck(invocation, world),
};
