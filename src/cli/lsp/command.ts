import type { Command } from '../terminal/command.js';

export const LSP: Command = {
  name: 'lsp',
  summary: 'Starts the language server, for any editor.',
  about: [
    'An editor starts this and speaks the Language Server Protocol with it over standard input and output. It ends when the editor does.',
  ],
  arguments: [],
  options: [
    { name: 'stdio', text: 'Speak over standard input and output. It has to be given.' },
    {
      name: 'clientProcessId',
      value: 'PID',
      text: "The editor's process, which the server ends with. Some editors give it.",
    },
  ],
  examples: [
    {
      line: 'wireloft lsp --stdio',
      text: 'What to put into the settings of an editor that can start a language server.',
    },
  ],
  run: async (invocation) => (await import('./run.js')).runLsp(invocation),
};
