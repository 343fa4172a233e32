import { pathToFileURL } from 'node:url';
import type { ProjectReport, Unreadable } from '../../language/project/report.js';
import { count } from '../../vessel/words.js';
import { open, type Opened } from '../project.js';
import { countOption } from '../terminal/arguments.js';
import { paintFor, type ColourChoice } from '../terminal/colours.js';
import type { Invocation } from '../terminal/command.js';
import { displayPath } from '../terminal/paths.js';
import { STATUS, type Status, type World } from '../terminal/world.js';
import { rulePage } from './rulePage.js';
import { totals } from './totals.js';

/** Columns of a quoted line where no terminal says how many it has. */
const COLUMNS = 160;

export async function runCheck(invocation: Invocation, world: World): Promise<Status> {
  const limit = invocation.value('max-warnings');
  const mostWarnings = limit === undefined ? undefined : countOption('max-warnings', limit);
  const opened = await open(invocation.arguments, invocation, world);
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

/** What cannot be read weighs more than what was found: the result is not whole. */
function statusOf(
  report: ProjectReport,
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
