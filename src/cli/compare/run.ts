import { compare } from '../../documents/compare/compare.js';
import { drawDifference } from '../../documents/compare/drawing.js';
import { comparisonMarkdown } from '../../documents/compare/markdown.js';
import type { Comparison } from '../../documents/compare/model.js';
import { comparisonText } from '../../documents/compare/text.js';
import { DRAWING_FORMATS, filesOf, type HeavyWriters } from '../../documents/formats/files.js';
import { PAPERS } from '../../documents/frame/paper.js';
import type { Analysis } from '../../checks/analysis.js';
import { fontsOf } from '../draw/fonts.js';
import { writeAll } from '../files/outputs.js';
import { givenPlaces } from '../places.js';
import { open } from '../project.js';
import type { Invocation } from '../terminal/command.js';
import { printable } from '../terminal/printable.js';
import { STATUS, UsageError, type Status, type World } from '../terminal/world.js';
import { onlyVessel } from '../vessel.js';
import { revisionRange, withRevisions } from './revisions.js';

export async function runCompare(invocation: Invocation, world: World): Promise<Status> {
  const files = invocation.arguments;
  const range = invocation.value('rev');
  const [first = '', second = ''] = files;
  if (range === undefined) {
    if (files.length !== 2)
      throw new UsageError('compare wants two files, the older and the newer; or --rev A..B and one file.');
    return told(
      await analysisOf(first, invocation, world),
      await analysisOf(second, invocation, world),
      invocation,
      world,
    );
  }
  if (files.length !== 1) throw new UsageError('compare --rev wants one file.');
  return withRevisions(first, revisionRange(range), world.folder, async (before, after) =>
    told(
      await analysisOf(before.file, invocation, { ...world, folder: before.folder }, before.folder),
      await analysisOf(after.file, invocation, { ...world, folder: after.folder }, after.folder),
      invocation,
      world,
    ),
  );
}

async function analysisOf(
  file: string,
  invocation: Invocation,
  world: World,
  root?: string,
): Promise<Analysis | undefined> {
  // In a revision nothing leads out of what was read of it.
  const asked =
    root === undefined
      ? invocation
      : { ...invocation, value: (name: string) => (name === 'root' ? root : invocation.value(name)) };
  const { report, unreadable } = await open([file], asked, world, 'none');
  return unreadable.length > 0 ? undefined : onlyVessel(report.vessels, file, world).analysis;
}

async function told(
  before: Analysis | undefined,
  after: Analysis | undefined,
  invocation: Invocation,
  world: World,
): Promise<Status> {
  if (!before || !after) return STATUS.usage;
  const found = compare(before, after);
  const out = invocation.value('out');
  if (out === '') throw new UsageError('--out wants a folder.');
  if (out !== undefined) await draw({ before, after, found }, out, invocation, world);
  switch (invocation.value('format')) {
    case 'json':
      world.out.write(`${JSON.stringify({ format: '1.0', ...found }, undefined, 2)}\n`);
      break;
    case 'markdown':
      world.out.write(comparisonMarkdown(found));
      break;
    default:
      world.out.write(comparisonText(found).split('\n').map(printable).join('\n'));
  }
  return found.regression ? STATUS.findings : STATUS.clean;
}

interface Compared {
  readonly before: Analysis;
  readonly after: Analysis;
  readonly found: Comparison;
}

/** The names of the files are told beside the result, which has the output for itself. */
async function draw(
  { before, after, found }: Compared,
  out: string,
  invocation: Invocation,
  world: World,
): Promise<void> {
  const version = `wireloft ${world.version}`;
  const paper = PAPERS.find((one) => one === invocation.value('paper')) ?? 'A3';
  const sheets = drawDifference(before, after, found, {
    paper,
    places: await givenPlaces(invocation, paper, world),
    revision: revisionText(before.vessel.revision, after.vessel.revision),
    version,
  });
  if (sheets.length === 0) {
    world.error.write('Nothing that is drawn is different.\n');
    return;
  }
  const load = async (): Promise<HeavyWriters> => ({
    ...(await world.writers.load()),
    fonts: await fontsOf(world),
  });
  const format = DRAWING_FORMATS.find((one) => one === invocation.value('drawing')) ?? 'svg';
  const files = await filesOf(
    sheets.map(({ scene }) => scene),
    format,
    { vessel: after.vessel.name, version },
    load,
  );
  await writeAll(files, out, { ...world, out: world.error });
}

const revisionText = (before: string | undefined, after: string | undefined): string | undefined =>
  before === after ? after : `${before ?? '?'} to ${after ?? '?'}`;
