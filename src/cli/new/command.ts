import type { Command } from '../terminal/command.js';

export const NEW: Command = {
  name: 'new',
  summary: 'Writes a starter spec that checks clean.',
  about: [
    'The spec is a small open boat with a display, a transducer and a battery. Its models are in the same file, so that everything can be seen and changed in one place.',
    'A file that is there already is never written over.',
  ],
  arguments: [{ name: 'NAME', text: "The vessel's name: letters, digits and _, beginning with a letter." }],
  options: [],
  examples: [{ line: 'wireloft new Kittiwake', text: 'Writes Kittiwake.loft in the working folder.' }],
  run: async (invocation, world) => (await import('./run.js')).runNew(invocation, world),
};
