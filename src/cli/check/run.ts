import { availableParallelism } from 'node:os';
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Unreadable } from '../../language/project/report.js';
import { count } from '../../vessel/words.js';
import { checkChosen } from '../options.js';
import { openingOf, tellUnreadable } from '../project.js';
import { countOption } from '../terminal/arguments.js';
import { paintFor, type ColourChoice } from '../terminal/colours.js';
import type { Invocation } from '../terminal/command.js';
import { displayPath } from '../terminal/paths.js';
import { startProgress } from '../terminal/progress.js';
import { STATUS, UsageError, type Status, type World } from '../terminal/world.js';
import { together, type Checked, type CheckedShare } from './checked.js';
import { rulePage } from './rulePage.js';
import { checkShare } from './share.js';
import { totals } from './totals.js';

/** Columns of a quoted line where no terminal says how many it has. */
const COLUMNS = 160;

export async function runCheck(invocation: Invocation, world: World): Promise<Status> {
  const limit = invocation.value('max-warnings');
  const mostWarnings = limit === undefined ? undefined : countOption('max-warnings', limit);
  const opened = await open(invocation, world);
  const { report, unreadable } = opened;
  const status = statusOf(report, unreadable, mostWarnings);
  // With nothing to tell of, the error stream has said it all.
  if (report.vessels.length + report.files.length > 0)
    world.out.write(await render(opened, status, invocation, world));
  const counts = totals(report);
  if (mostWarnings !== undefined && counts.warning > mostWarnings)
    world.error.write(
      `wireloft: ${count(counts.warning, 'warning')}, and --max-warnings allows ${mostWarnings}.\n`,
    );
  return status;
}

interface Opened {
  readonly report: Checked;
  readonly unreadable: readonly Unreadable[];
  /** The folder that no "use" may lead out of. */
  readonly root: string;
}

/** Text for which starting one more thread pays: that of three or four boats. */
const CHARACTERS_A_THREAD = 40_000;

async function open(invocation: Invocation, world: World): Promise<Opened> {
  const jobs = jobsOf(invocation);
  const opening = openingOf(invocation, world);
  const paths = invocation.arguments;
  const progress = startProgress(world.error, `Checking ${paths.join(' ')} ...`);
  try {
    const { findSpecs } = await import('../../language/project/open.js');
    const {
      files,
      unreadable: missing,
      root,
    } = findSpecs(
      paths.map((path) => resolve(world.folder, path)),
      opening.root,
    );
    const checked = (vessels: number): void => {
      progress.show(`Checking ${paths.join(' ')} ... ${count(vessels, 'vessel')} done`);
    };
    // The solver is large, and in no thread of its own.
    const shares = invocation.flag('cheaper')
      ? [await checkShare({ files, opening: { ...opening, root } }, checked, await world.solver())]
      : await inShares(files, { ...opening, root }, jobs, world, checked);
    progress.clear();
    const report = together(shares, files);
    const unreadable = [...missing, ...report.unreadable];
    tellUnreadable(unreadable, world);
    if (typeof opening.chosen === 'object') checkChosen(opening.chosen, report);
    return { report, unreadable, root };
  } finally {
    progress.clear();
  }
}

/** How many threads were asked for; undefined where nobody asked. */
function jobsOf(invocation: Invocation): number | undefined {
  const value = invocation.value('jobs');
  if (value === undefined) return undefined;
  const jobs = countOption('jobs', value);
  if (jobs < 1) throw new UsageError('--jobs wants one thread at least.');
  return jobs;
}

async function inShares(
  files: readonly string[],
  opening: ReturnType<typeof openingOf> & { readonly root: string },
  jobs: number | undefined,
  world: World,
  checked: (vessels: number) => void,
): Promise<readonly CheckedShare[]> {
  const most = jobs ?? availableParallelism();
  if (world.worker === undefined || most < 2 || files.length < 2)
    return [await checkShare({ files, opening }, checked)];
  const read = (path: string): string | undefined => {
    try {
      return readFileSync(path, 'utf8');
    } catch {
      return undefined;
    }
  };
  const { shareOut } = await import('./shares.js');
  const specs = files.map((path) => ({ path, text: read(path) ?? '' }));
  const characters = specs.reduce((sum, { text }) => sum + text.length, 0);
  const worth = jobs ?? Math.min(most, Math.floor(characters / CHARACTERS_A_THREAD));
  const shares = shareOut(specs, worth, read);
  const [only] = shares;
  if (shares.length < 2 || only === undefined) return [await checkShare({ files, opening }, checked)];
  const { checkInThreads } = await import('./threads.js');
  return checkInThreads(
    shares.map((share) => ({ files: share, opening })),
    world.worker,
    checked,
  );
}

/** What cannot be read weighs more than what was found: the result is not whole. */
function statusOf(
  report: Checked,
  unreadable: readonly Unreadable[],
  mostWarnings: number | undefined,
): Status {
  if (unreadable.length > 0) return STATUS.usage;
  const { error, warning } = totals(report);
  return error > 0 || (mostWarnings !== undefined && warning > mostWarnings) ? STATUS.findings : STATUS.clean;
}

async function render(opened: Opened, status: Status, invocation: Invocation, world: World): Promise<string> {
  switch (invocation.value('format')) {
    case 'json': {
      const { checkJson } = await import('./json.js');
      return lines(checkJson(opened.report, world.folder));
    }
    case 'sarif': {
      const [{ checkSarif }, { findRule }] = await Promise.all([
        import('./sarif.js'),
        import('../../checks/rules.js'),
      ]);
      const { root, unreadable } = opened;
      return lines(
        checkSarif(opened.report, {
          root,
          version: world.version,
          rule: findRule,
          rulePage,
          exitCode: status,
          unreadable: unreadable.map((one) => ({
            ...one,
            path: displayPath(pathToFileURL(one.path).href, root),
          })),
        }),
      );
    }
    default: {
      const { checkText } = await import('./text.js');
      const colour = (invocation.value('color') ?? 'auto') as ColourChoice;
      const paint = paintFor(colour, world.out, world.environment);
      return checkText(opened.report, { folder: world.folder, paint, columns: world.out.columns ?? COLUMNS });
    }
  }
}

const lines = (value: object): string => `${JSON.stringify(value, undefined, 2)}\n`;
