import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { passedLimit } from '../../language/parsing/limits.js';
import { count } from '../../vessel/words.js';
import { findSpecs, readSpec } from '../files/find.js';
import { replaceFile, systemMessage } from '../files/write.js';
import { layOut } from './layout.js';
import type { Invocation } from '../terminal/command.js';
import { displayPath } from '../terminal/paths.js';
import { printable } from '../terminal/printable.js';
import { startProgress } from '../terminal/progress.js';
import { STATUS, type Status, type World } from '../terminal/world.js';

/** How a file came out. */
interface Outcome {
  readonly changed: boolean;
  /** Why it is not whole in the canonical layout: its text is faulty, or it cannot be read or written. */
  readonly trouble?: { readonly kind: 'faulty' | 'unreachable'; readonly message: string };
}

export async function runFormat(invocation: Invocation, world: World): Promise<Status> {
  const check = invocation.flag('check');
  const { files, unreadable } = await findSpecs(
    invocation.arguments.map((path) => resolve(world.folder, path)),
  );
  const nameOf = (path: string): string => printable(displayPath(pathToFileURL(path).href, world.folder));
  const complain = (path: string, message: string): void =>
    world.error.write(`wireloft: ${nameOf(path)}: ${message}\n`);
  for (const one of unreadable) complain(one.path, one.message);
  const outcomes: Outcome[] = [];
  for (const path of files) {
    const progress = startProgress(world.error, `Formatting ${nameOf(path)} ...`);
    const outcome = await formatFile(path, check);
    progress.clear();
    outcomes.push(outcome);
    if (outcome.changed) world.out.write(`${nameOf(path)}\n`);
    if (outcome.trouble) complain(path, outcome.trouble.message);
  }
  const changed = outcomes.filter((outcome) => outcome.changed).length;
  world.error.write(`${count(files.length, 'file')}, ${changed} ${check ? 'to format' : 'formatted'}.\n`);
  const having = (kind: string): boolean => outcomes.some((outcome) => outcome.trouble?.kind === kind);
  if (unreadable.length > 0 || having('unreachable')) return STATUS.usage;
  return having('faulty') || (check && changed > 0) ? STATUS.findings : STATUS.clean;
}

async function formatFile(path: string, check: boolean): Promise<Outcome> {
  const read = await readSpec(path);
  if ('message' in read) return { changed: false, trouble: { kind: 'unreachable', message: read.message } };
  const { text } = read;
  const limit = passedLimit(text);
  if (limit) return { changed: false, trouble: { kind: 'faulty', message: limit.message } };
  const { text: formatted, sound } = layOut(text);
  const changed = formatted !== text;
  if (changed && !check) {
    try {
      await replaceFile(path, formatted);
    } catch (error) {
      const reason = systemMessage(error);
      if (reason === undefined) throw error;
      return {
        changed: false,
        trouble: { kind: 'unreachable', message: `It cannot be written: ${reason}.` },
      };
    }
  }
  return sound ? { changed } : { changed, trouble: SYNTAX };
}

const SYNTAX: NonNullable<Outcome['trouble']> = {
  kind: 'faulty',
  message:
    'It has syntax errors, and the statements that have them stay as they are. "wireloft check" shows them.',
};
