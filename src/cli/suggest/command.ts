import { COLOUR_OPTION, ROOT_OPTION, TODAY_OPTION, type Command } from '../terminal/command.js';

export const SUGGEST: Command = {
  name: 'suggest',
  summary: 'Finds the cheapest designs that meet every need.',
  about: [
    'Looks for the cheapest ethernet network: which model for each choice that is open, which switches or none, which displays with more ports, which cables where. A design is offered only if every need is met and no rule of severity error is broken, by the same checks as "wireloft check".',
    'It may plug cables elsewhere, take switches out or put them in, and exchange a display for another of its family that is at least as large and has everything that is in use. What is aboard already (existing) stays and costs nothing; what has no price is in no total, and is named.',
    'Where nothing meets the needs it says which to give up, and the exit status is 1. Ctrl-C ends the search: what was found by then is printed, nothing is written, and the exit status is 130.',
  ],
  arguments: [{ name: 'FILE', text: 'The file that declares the vessel, or one that is aboard it.' }],
  options: [
    { name: 'best', value: 'N', text: 'How many designs to look for, of different gear. The default is 3.' },
    {
      name: 'keep',
      value: 'NAME,...',
      text: 'Devices and links (as "hub--plotter") that stay as they are.',
    },
    {
      name: 'apply',
      value: 'K',
      text: 'Write the design of this rank into the spec, and keep its comments.',
    },
    {
      name: 'format',
      value: 'FORMAT',
      choices: ['text', 'json'],
      text: 'How to print it. The default is text.',
    },
    ROOT_OPTION,
    TODAY_OPTION,
    COLOUR_OPTION,
  ],
  examples: [
    { line: 'wireloft suggest kittiwake.loft', text: 'The three cheapest designs, and what each changes.' },
    {
      line: 'wireloft suggest kittiwake.loft --keep plotter --best 1 --apply 1',
      text: 'Writes the cheapest design with that display into the spec.',
    },
  ],
  run: async (invocation, world) => (await import('./run.js')).runSuggest(invocation, world),
};
