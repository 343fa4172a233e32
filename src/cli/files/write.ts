/** Writes files whole or not at all. */
import { randomUUID } from 'node:crypto';
import { link, lstat, realpath, rename, rm, stat, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { getSystemErrorMap } from 'node:util';

/** A name beside `path` that no other run of the program uses. */
const beside = (path: string): string => join(dirname(path), `.wireloft-${randomUUID()}.tmp`);

/**
 * Puts a text in place of a file's content in one step, so that a reader sees the old or the new and an interruption leaves the old. A
 * link stays a link: the file behind it is replaced.
 * @throws an error of the file system; the old file is then as it was
 */
export async function replaceFile(path: string, text: string): Promise<void> {
  const target = await realpath(path);
  const { mode } = await stat(target);
  await throughTemporary(target, text, mode & 0o777, (temporary) => rename(temporary, target));
}

/**
 * Makes a new file with the text, and never writes over one that is there.
 * @returns whether it was made; false where something of that name exists already
 * @throws an error of the file system; no file is then left behind
 */
export async function createFile(path: string, text: string): Promise<boolean> {
  if (await exists(path)) return false;
  try {
    // A link, unlike a renaming, fails where another program made the file in the meantime.
    await throughTemporary(path, text, 0o666, (temporary) => link(temporary, path));
    return true;
  } catch (error) {
    const code = codeOf(error);
    if (code === 'EEXIST') return false;
    if (code !== 'EPERM' && code !== 'ENOTSUP' && code !== 'EOPNOTSUPP' && code !== 'ENOSYS') throw error;
  }
  // This file system has no links; what is left is to create and write, and to clean up if that fails.
  try {
    await writeFile(path, text, { flag: 'wx' });
    return true;
  } catch (error) {
    if (codeOf(error) === 'EEXIST') return false;
    await rm(path, { force: true });
    throw error;
  }
}

/**
 * Puts a file in its place in one step, whether or not there was one.
 * @throws an error of the file system; what was there is then as it was
 */
export async function putFile(path: string, content: string | Uint8Array): Promise<void> {
  await throughTemporary(path, content, 0o666, (temporary) => rename(temporary, path));
}

async function throughTemporary(
  path: string,
  text: string | Uint8Array,
  mode: number,
  place: (temporary: string) => Promise<void>,
): Promise<void> {
  const temporary = beside(path);
  try {
    await writeFile(temporary, text, { flag: 'wx', mode, flush: true });
    await place(temporary);
  } finally {
    await rm(temporary, { force: true });
  }
}

async function exists(path: string): Promise<boolean> {
  try {
    await lstat(path);
    return true;
  } catch (error) {
    if (codeOf(error) === 'ENOENT') return false;
    throw error;
  }
}

const codeOf = (error: unknown): string | undefined =>
  error instanceof Error && 'code' in error && typeof error.code === 'string' ? error.code : undefined;

/** What the operating system says of a failure, in its words; undefined where it was none of the file system. */
export function systemMessage(error: unknown): string | undefined {
  if (!(error instanceof Error && 'errno' in error && typeof error.errno === 'number')) return undefined;
  return getSystemErrorMap().get(error.errno)?.[1] ?? codeOf(error);
}
