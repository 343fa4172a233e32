/** Opens and checks what a command was given. */
import { statSync } from 'node:fs';
import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { SharedServices } from '../language/module.js';
import type { Chosen } from '../language/project/build.js';
import type { ProjectReport, Unreadable } from '../language/project/report.js';
import { chosenOptions, checkChosen } from './options.js';
import { dateOption, quoted } from './terminal/arguments.js';
import type { Invocation } from './terminal/command.js';
import { displayPath } from './terminal/paths.js';
import { printable } from './terminal/printable.js';
import { startProgress } from './terminal/progress.js';
import { UsageError, type World } from './terminal/world.js';

export interface Opened {
  readonly report: ProjectReport;
  readonly unreadable: readonly Unreadable[];
  /** The folder that no "use" may lead out of. */
  readonly root: string;
  readonly shared: SharedServices;
}

/**
 * Reads the options that concern every command that opens a project, opens it, and names on the error stream what could not be read.
 * `unchosen` says what is opened where no options of the vessel are named.
 * @throws UsageError for a date, a root or an option of a vessel that is none
 */
export async function open(
  paths: readonly string[],
  invocation: Invocation,
  world: World,
  unchosen: 'each' | 'none' = 'each',
): Promise<Opened> {
  const options = openingOf(invocation, world, unchosen);
  const progress = startProgress(world.error, `Checking ${paths.join(' ')} ...`);
  try {
    const [{ openProject }, { URI }] = await Promise.all([
      import('../language/project/open.js'),
      import('vscode-uri'),
    ]);
    const { report, unreadable, shared } = await openProject(
      paths.map((path) => resolve(world.folder, path)),
      options,
    );
    progress.clear();
    tellUnreadable(unreadable, world);
    if (typeof options.chosen === 'object') checkChosen(options.chosen, report);
    const anywhere = URI.file(world.folder);
    return { report, unreadable, root: shared.world.root(anywhere).fsPath, shared };
  } finally {
    progress.clear();
  }
}

/** What the options of a command say about how a project is opened. */
export interface Opening {
  readonly root?: string;
  readonly today: string;
  readonly chosen: Chosen;
}

/** @throws UsageError for a date, a root or a list of options that is none */
export function openingOf(invocation: Invocation, world: World, unchosen: 'each' | 'none' = 'each'): Opening {
  const root = invocation.value('root');
  const today = invocation.value('today');
  return {
    ...(root === undefined ? {} : { root: folderOption('root', root, world.folder) }),
    today: today === undefined ? world.today : dateOption('today', today),
    chosen: chosenOptions(invocation) ?? unchosen,
  };
}

/** Names on the error stream what could not be read. */
export function tellUnreadable(unreadable: readonly Unreadable[], world: World): void {
  for (const { path, message } of unreadable)
    world.error.write(`wireloft: ${printable(nameOf(path, world))}: ${printable(message)}\n`);
}

const nameOf = (path: string, world: World): string => displayPath(pathToFileURL(path).href, world.folder);

function folderOption(name: string, value: string, folder: string): string {
  const path = resolve(folder, value);
  if (!statSync(path, { throwIfNoEntry: false })?.isDirectory())
    throw new UsageError(`--${name} ${quoted(value)} is no folder.`);
  return path;
}
