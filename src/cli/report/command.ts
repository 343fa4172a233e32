import { PAPERS } from '../../documents/frame/paper.js';
import { PLACES_OPTION } from '../places.js';
import { REVISION_OPTION } from '../revision.js';
import { ROOT_OPTION, TODAY_OPTION, WITH_OPTION, type Command } from '../terminal/command.js';

export const REPORT: Command = {
  name: 'report',
  summary: 'Writes the handover as PDF and Markdown, with a workbook.',
  about: [
    'Cover, what the boat has, screen plan, needs, open findings and waivers with their reasons, options side by side, drawings, schedules, commissioning sheet with fault finder, van list and cautions; with page numbers and bookmarks. The same spec in the same commit gives the same files, byte for byte.',
    'Writes report.pdf and report.md, and schedules.xlsx: every schedule as a sheet of one workbook, with totals as formulas. Files of the same names in the folder are replaced.',
  ],
  arguments: [{ name: 'FILE', text: 'The file that declares the vessel, or one that is aboard it.' }],
  options: [
    {
      name: 'out',
      value: 'DIR',
      text: 'The folder for the report. It is made if it is not there. Always needed.',
    },
    {
      name: 'paper',
      value: 'PAPER',
      choices: PAPERS,
      text: 'The paper of the drawings, across; text is on A4 or letter, upright. The default is A3.',
    },
    {
      name: 'date',
      value: 'DATE',
      text: 'The date on the cover and in the title blocks, as 2026-05-01. Without it there is none.',
    },
    REVISION_OPTION,
    PLACES_OPTION,
    WITH_OPTION,
    ROOT_OPTION,
    TODAY_OPTION,
  ],
  examples: [
    { line: 'wireloft report kittiwake.loft --out handover --date 2026-05-01', text: 'What the owner gets.' },
  ],
  run: async (invocation, world) => (await import('./run.js')).runReport(invocation, world),
};
