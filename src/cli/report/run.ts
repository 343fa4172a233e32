import { drawSheets } from '../../documents/draw.js';
import { PAPERS, type PaperName } from '../../documents/frame/paper.js';
import { toMarkdown } from '../../documents/report/markdown.js';
import { reportPages } from '../../documents/report/pages.js';
import { fontsOf } from '../draw/fonts.js';
import { writeAll } from '../files/outputs.js';
import { open } from '../project.js';
import { givenPlaces } from '../places.js';
import { dateOption } from '../terminal/arguments.js';
import type { Invocation } from '../terminal/command.js';
import { displayPath } from '../terminal/paths.js';
import { printable } from '../terminal/printable.js';
import { STATUS, UsageError, type Status, type World } from '../terminal/world.js';
import { revisionOf } from '../revision.js';
import { onlyVessel, warnOfErrors } from '../vessel.js';
import { reportOf } from './contents.js';
import { workbookOf } from './workbook.js';

/** Everything is laid out before the first file is written, so that a fault leaves the folder as it was. */
export async function runReport(invocation: Invocation, world: World): Promise<Status> {
  const [file = ''] = invocation.arguments;
  const out = invocation.value('out');
  if (out === undefined || out === '')
    throw new UsageError('report needs --out DIR: the folder for the report.');
  const given = invocation.value('date');
  const date = given === undefined ? undefined : dateOption('date', given);
  const paper = PAPERS.find((one) => one === invocation.value('paper')) ?? ('A3' satisfies PaperName);
  const places = await givenPlaces(invocation, paper, world);
  const { report: project, unreadable, shared } = await open([file], invocation, world, 'each');
  if (unreadable.length > 0) return STATUS.usage;
  const bases = project.vessels.filter(({ option }) => option === null);
  const vessel = onlyVessel(bases.length > 0 ? bases : project.vessels, file, world);
  const revision = await revisionOf(invocation, vessel, shared, world);
  const source = displayPath(vessel.file, world.folder);
  const name = source.slice(source.lastIndexOf('/') + 1);
  const version = `wireloft ${world.version}`;
  const drawn = { paper, date, revision, version, file: name, places };
  const sheets = drawSheets(vessel.analysis, drawn).map(({ scene }) => scene);
  const report = reportOf({ vessel, variants: project.vessels, sheets, date, revision, file: name, version });
  const pages = reportPages(report, paper);
  const { toPdf, toXlsx } = await world.writers.load();
  const pdf = await toPdf(pages, await fontsOf(world), {
    title: `${vessel.name}: report`,
    keywords: version,
    date,
  });
  const outputs = [
    { name: 'report.pdf', content: pdf },
    { name: 'report.md', content: toMarkdown(report) },
    { name: 'schedules.xlsx', content: toXlsx(workbookOf(vessel, project.vessels)) },
  ];
  await writeAll(outputs, out, world);
  world.error.write(`${pages.length} pages on ${printable(vessel.name)} written.\n`);
  warnOfErrors(vessel, file, world);
  return STATUS.clean;
}
