import { DRAWING_FORMATS } from '../../documents/formats/files.js';
import { PAPERS } from '../../documents/frame/paper.js';
import { PLACES_OPTION } from '../places.js';
import { COLOUR_OPTION, ROOT_OPTION, TODAY_OPTION, WITH_OPTION, type Command } from '../terminal/command.js';

export const COMPARE: Command = {
  name: 'compare',
  summary: 'Compares two revisions of a boat: what changes aboard.',
  about: [
    'Tells of devices added, removed, renamed, exchanged and moved; of cables to pull and to take out; of fuses and wires; then of what follows: needs and views gained and lost, findings new and gone, new single points of failure, metres of cable and money. Where only the text was laid out anew, there is no change aboard.',
    'With --rev it reads both revisions from git and touches no file of yours. Exit status 1 says regression: a need or a view is lost, or there is a new error.',
  ],
  arguments: [{ name: 'FILE...', text: 'The older file and the newer one; or, with --rev, the one file.' }],
  options: [
    {
      name: 'rev',
      value: 'A..B',
      text: 'Compares the file as it is in two revisions of its git repository.',
    },
    {
      name: 'format',
      value: 'FORMAT',
      choices: ['text', 'json', 'markdown'],
      text: 'How to print it. The default is text. The shape of json is in docs/schemas/compare.schema.json; markdown is fit for a pull request.',
    },
    {
      name: 'out',
      value: 'DIR',
      text: 'Draws the difference as well, into this folder: network, backbones, serial lines and power, with what is added, removed and changed marked so that it is read in black and white.',
    },
    {
      name: 'drawing',
      value: 'FORMAT',
      choices: DRAWING_FORMATS,
      text: 'What to draw it as, with --out. The default is svg.',
    },
    { name: 'paper', value: 'PAPER', choices: PAPERS, text: 'The paper of the drawing. The default is A3.' },
    PLACES_OPTION,
    WITH_OPTION,
    ROOT_OPTION,
    TODAY_OPTION,
    COLOUR_OPTION,
  ],
  examples: [
    { line: 'wireloft compare old/kittiwake.loft kittiwake.loft', text: 'Compares two files.' },
    {
      line: 'wireloft compare --rev main..HEAD kittiwake.loft --format markdown',
      text: 'What a branch changes aboard, for its pull request.',
    },
    {
      line: 'wireloft compare old/kittiwake.loft kittiwake.loft --out difference --drawing pdf',
      text: 'The same as a drawing for the yard.',
    },
  ],
  run: async (invocation, world) => (await import('./run.js')).runCompare(invocation, world),
};
