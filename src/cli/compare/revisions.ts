/** Reads the specs of a revision from git's own objects into a folder that is thrown away. The work tree is neither read nor touched. */
import { execFileSync } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, realpathSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, relative, resolve, sep } from 'node:path';
import { quoted } from '../terminal/arguments.js';
import { printable } from '../terminal/printable.js';
import { UsageError } from '../terminal/world.js';

/** A file as it was in a revision. */
export interface Revision {
  readonly folder: string;
  readonly file: string;
}

/** The two ends of `A..B`. */
export function revisionRange(value: string): readonly [string, string] {
  const match = /^(.+?)\.\.([^.].*)$/.exec(value);
  const [, from, to] = match ?? [];
  if (from === undefined || to === undefined)
    throw new UsageError(`--rev wants two revisions, as main..HEAD, not ${quoted(value)}.`);
  return [from, to];
}

/**
 * Both revisions, with every spec of the repository; `use` is called with them, and then they are removed.
 * @throws UsageError where git is missing, a revision is none, or the file is not in it
 */
export async function withRevisions<T>(
  file: string,
  range: readonly [string, string],
  folder: string,
  use: (before: Revision, after: Revision) => Promise<T>,
): Promise<T> {
  const path = resolve(folder, file);
  const near = nearestFolder(dirname(path));
  const top = git(near, ['rev-parse', '--show-toplevel'], `${quoted(file)} is in no git repository.`)
    .toString()
    .trim();
  const inside = relative(realpathSync(top), join(realpathSync(near), relative(near, path)))
    .split(sep)
    .join('/');
  const scratch = mkdtempSync(join(tmpdir(), 'wireloft-'));
  try {
    const [before, after] = range.map((revision, index) => {
      const commit = git(
        top,
        ['rev-parse', '--verify', '--quiet', '--end-of-options', `${revision}^{commit}`],
        `${quoted(revision)} is no revision of the repository.`,
      )
        .toString()
        .trim();
      const target = join(scratch, String(index));
      const found = unpack(top, commit, target);
      if (!found.includes(inside))
        throw new UsageError(`${quoted(inside)} is not in revision ${quoted(revision)}.`);
      return { folder: target, file: join(target, inside) };
    });
    if (!before || !after) throw new UsageError('--rev wants two revisions.');
    return await use(before, after);
  } finally {
    rmSync(scratch, { recursive: true, force: true });
  }
}

/** Every spec of a commit, written below a folder; gives their paths. Links are left out: they could lead anywhere. */
function unpack(top: string, commit: string, target: string): readonly string[] {
  const listing = git(
    top,
    ['ls-tree', '-r', '-z', '--full-tree', '--end-of-options', commit],
    'git cannot list the revision.',
  );
  const entries = listing
    .toString('utf8')
    .split('\0')
    .flatMap((line) => {
      const match = /^100(?:644|755) blob ([0-9a-f]+)\t(.+\.loft)$/s.exec(line);
      return match?.[1] !== undefined && match[2] !== undefined ? [{ id: match[1], path: match[2] }] : [];
    });
  mkdirSync(target, { recursive: true });
  const blobs = readBlobs(
    top,
    entries.map(({ id }) => id),
  );
  const root = target + sep;
  for (const [index, { path }] of entries.entries()) {
    const place = resolve(target, path);
    if (!place.startsWith(root)) continue;
    mkdirSync(dirname(place), { recursive: true });
    writeFileSync(place, blobs[index] ?? Buffer.alloc(0));
  }
  return entries.map(({ path }) => path);
}

/** Contents by their ids, in one call: a line with the length before each. */
function readBlobs(top: string, ids: readonly string[]): readonly Buffer[] {
  if (ids.length === 0) return [];
  const out = git(top, ['cat-file', '--batch'], 'git cannot read the revision.', `${ids.join('\n')}\n`);
  const blobs: Buffer[] = [];
  let at = 0;
  while (blobs.length < ids.length) {
    const end = out.indexOf(10, at);
    const length = Number(out.subarray(at, end).toString().split(' ')[2] ?? 0);
    blobs.push(out.subarray(end + 1, end + 1 + length));
    at = end + 1 + length + 1;
  }
  return blobs;
}

function nearestFolder(folder: string): string {
  return existsSync(folder) || folder === dirname(folder) ? folder : nearestFolder(dirname(folder));
}

function git(folder: string, words: readonly string[], fault: string, input?: string): Buffer {
  try {
    return execFileSync('git', [...words], {
      cwd: folder,
      maxBuffer: 1 << 30,
      stdio: ['pipe', 'pipe', 'pipe'],
      // Its own words are quoted where it fails.
      env: { ...process.env, LC_ALL: 'C' },
      ...(input === undefined ? {} : { input }),
    });
  } catch (error) {
    if (error instanceof Error && 'code' in error && error.code === 'ENOENT')
      throw new UsageError(
        '--rev needs the program git, which is not there. Install git, or give two files.',
      );
    throw new UsageError(`${fault}${saidBy(error)}`);
  }
}

/** The first line of what git said, such as that a folder belongs to somebody else. */
function saidBy(error: unknown): string {
  const said = error instanceof Error && 'stderr' in error ? String(error.stderr) : '';
  const [line = ''] = said.split('\n');
  return line.trim() === '' ? '' : ` git says: ${printable(line.trim())}`;
}
