import { compare } from '../../documents/compare/compare.js';
import { comparisonMarkdown } from '../../documents/compare/markdown.js';
import { comparisonText } from '../../documents/compare/text.js';
import type { Analysis } from '../../checks/analysis.js';
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

function told(
  before: Analysis | undefined,
  after: Analysis | undefined,
  invocation: Invocation,
  world: World,
): Status {
  if (!before || !after) return STATUS.usage;
  const found = compare(before, after);
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
