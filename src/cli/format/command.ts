import type { Command } from '../terminal/command.js';

export const FORMAT: Command = {
  name: 'format',
  summary: 'Puts files into the canonical layout.',
  about: [
    'Only white space changes. A statement with a syntax error stays as it is written. A file is written whole or not at all, and only where its layout changes.',
  ],
  arguments: [{ name: 'PATH...', text: 'Files, and folders of .loft files, to format.' }],
  options: [
    {
      name: 'check',
      text: 'Write nothing; name the files that would change, and give exit status 1 where there are any.',
    },
  ],
  examples: [
    { line: 'wireloft format kittiwake.loft', text: 'Formats one file in place.' },
    {
      line: 'wireloft format --check .',
      text: 'Tells, before a merge, which files are not in the canonical layout.',
    },
  ],
  run: async (invocation, world) => (await import('./run.js')).runFormat(invocation, world),
};
