import { DRAWING_FORMATS } from '../../documents/formats/files.js';
import { PAPERS } from '../../documents/frame/paper.js';
import { SHEET_KINDS } from '../../documents/sheet.js';
import { REVISION_OPTION } from '../revision.js';
import { ROOT_OPTION, TODAY_OPTION, WITH_OPTION, type Command } from '../terminal/command.js';

export const DRAW: Command = {
  name: 'draw',
  summary: 'Draws the boat: sheets for who installs and who maintains her.',
  about: [
    'Network, buses, power and plan, each on as many sheets as it takes, with frame, title block, legend and the numbers of cables. The same spec in the same commit gives the same files, byte for byte.',
    'SVG and PNG are a file for each sheet; PDF is one file for the set. Files of the same names in the folder are replaced.',
  ],
  arguments: [{ name: 'FILE', text: 'The file that declares the vessel, or one that is aboard it.' }],
  options: [
    {
      name: 'out',
      value: 'DIR',
      text: 'The folder for the drawings. It is made if it is not there. Always needed.',
    },
    { name: 'sheet', value: 'KIND', choices: SHEET_KINDS, text: 'Draw the sheets of one kind only.' },
    {
      name: 'format',
      value: 'FORMAT',
      choices: DRAWING_FORMATS,
      text: 'What to write. The default is svg.',
    },
    { name: 'paper', value: 'PAPER', choices: PAPERS, text: 'The paper, always across. The default is A3.' },
    { name: 'dpi', value: 'NUMBER', text: 'Dots to the inch of a PNG, from 36 to 1200. The default is 150.' },
    {
      name: 'date',
      value: 'DATE',
      text: 'The date in the title block, as 2026-05-01. Without it the field stays empty, to be filled by pen.',
    },
    REVISION_OPTION,
    {
      name: 'places',
      value: 'FILE',
      text: 'Keeps boxes where this file says that they stood, and writes their places to it. Commit it beside the spec, and one device more moves none of the others.',
    },
    {
      name: 'anew',
      text: 'Lays boxes out from nothing, and writes their new places to the file of --places: for when a note says that it saves a sheet.',
    },
    WITH_OPTION,
    ROOT_OPTION,
    TODAY_OPTION,
  ],
  examples: [
    { line: 'wireloft draw kittiwake.loft --out drawings', text: 'Every sheet as SVG.' },
    {
      line: 'wireloft draw kittiwake.loft --out drawings --format pdf --paper A4 --date 2026-05-01',
      text: 'One file to print.',
    },
  ],
  run: async (invocation, world) => (await import('./run.js')).runDraw(invocation, world),
};
