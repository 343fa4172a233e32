/** The commit that a boat is drawn from, for who finds her drawing without its spec. */
import { execFile } from 'node:child_process';
import { createHash } from 'node:crypto';
import { realpathSync } from 'node:fs';
import { dirname, join, relative, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Closure } from '../naming/closures.js';

/** So much of a commit's name tells it from the others, and is always as long: how short git makes it depends on the repository. */
const LENGTH = 7;
/** Stands behind a commit of which some file of the boat has been changed since. */
const CHANGED = '+';
/** Milliseconds after which git is not waited for. */
const PATIENCE = 10_000;

/** The files of a boat with their texts; what the tool brings itself is no file. */
export function filesOfBoat({ root, documents }: Pick<Closure, 'root' | 'documents'>): BoatFiles | undefined {
  if (!root.startsWith('file:')) return undefined;
  const own = documents.filter(({ uri }) => uri.scheme === 'file');
  return {
    root: fileURLToPath(root),
    texts: own.map(({ uri, textDocument }) => [uri.fsPath, textDocument.getText()]),
  };
}

export interface BoatFiles {
  /** The path of the file that declares the vessel. */
  readonly root: string;
  readonly texts: readonly (readonly [path: string, text: string])[];
}

/**
 * The commit that is checked out, as `1a2b3c4`, with `+` behind it if some file of the boat says something else there. Undefined
 * without git, outside a repository, and where the boat's own file is not in the commit. It only reads objects: nothing that a
 * repository's settings name is run, and git may fetch nothing.
 */
export async function commitOf(
  { root, texts }: BoatFiles,
  environment: Readonly<Record<string, string | undefined>>,
): Promise<string | undefined> {
  try {
    const folder = realpathSync(dirname(root));
    const git = (words: readonly string[]): Promise<string> => asked(folder, words, environment);
    const top = realpathSync((await git(['rev-parse', '--show-toplevel'])).replace(/\r?\n$/, ''));
    const commit = (await git(['rev-parse', '--verify', '--quiet', 'HEAD^{commit}'])).trim();
    const paths = texts.map(([path, text]) => ({ path: inside(top, path), text }));
    const there = paths.filter(({ path }) => path !== undefined).map(({ path }) => path ?? '');
    const listing = await git(['ls-tree', '-r', '-z', '--full-tree', commit, '--', ...there]);
    const ids = new Map(
      listing.split('\0').flatMap((line): [string, string][] => {
        const [, id, path] = /^\d+ blob ([0-9a-f]+)\t(.+)$/s.exec(line) ?? [];
        return id === undefined || path === undefined ? [] : [[path, id]];
      }),
    );
    if (!ids.has(inside(top, root) ?? '')) return undefined;
    const same = paths.every(({ path, text }) => isBlob(ids.get(path ?? ''), text));
    return `${commit.slice(0, LENGTH)}${same ? '' : CHANGED}`;
  } catch {
    return undefined;
  }
}

/** A path as git names it; undefined for one outside. */
function inside(top: string, path: string): string | undefined {
  let folder: string;
  try {
    folder = realpathSync(dirname(path));
  } catch {
    return undefined;
  }
  const from = relative(top, join(folder, path.slice(dirname(path).length)));
  return from === '' || from.startsWith('..') ? undefined : from.split(sep).join('/');
}

/** Whether a blob holds a text; its line ends may be those of another system. */
function isBlob(id: string | undefined, text: string): boolean {
  if (id === undefined) return false;
  return [text, text.replaceAll('\r\n', '\n')].some((one) => {
    const bytes = Buffer.from(one, 'utf8');
    const hash = createHash(id.length === 64 ? 'sha256' : 'sha1');
    return hash.update(`blob ${bytes.length}\0`).update(bytes).digest('hex') === id;
  });
}

function asked(
  folder: string,
  words: readonly string[],
  environment: Readonly<Record<string, string | undefined>>,
): Promise<string> {
  // A missing object would be fetched by a program that the repository's settings name.
  const env = {
    ...environment,
    LC_ALL: 'C',
    GIT_NO_LAZY_FETCH: '1',
    GIT_ALLOW_PROTOCOL: 'none',
    GIT_OPTIONAL_LOCKS: '0',
  };
  const options = { env, timeout: PATIENCE, maxBuffer: 1 << 26, windowsHide: true };
  return new Promise((resolve, reject) => {
    execFile('git', ['-C', folder, ...words], options, (error, out) => {
      if (error) reject(error instanceof Error ? error : new Error('git failed'));
      else resolve(out);
    });
  });
}
