/** Finds the specs that paths stand for, and reads them. */
import { readdir, readFile, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { systemMessage } from './write.js';

const EXTENSION = '.loft';

export interface Found {
  /** Sorted, each once. */
  readonly files: readonly string[];
  readonly unreadable: readonly { readonly path: string; readonly message: string }[];
}

/**
 * The files that paths stand for: a file itself, a folder every spec in it and below. Hidden folders, installed packages and links
 * are not gone into.
 */
export async function findSpecs(paths: readonly string[]): Promise<Found> {
  const files = new Set<string>();
  const unreadable: { path: string; message: string }[] = [];
  for (const path of paths) {
    try {
      if (!(await stat(path)).isDirectory()) {
        files.add(path);
        continue;
      }
      const below = await specsBelow(path);
      for (const file of below) files.add(file);
      if (below.length === 0)
        unreadable.push({ path, message: `There is no ${EXTENSION} file in this folder or below.` });
    } catch (error) {
      unreadable.push({ path, message: messageFor(error) });
    }
  }
  return { files: [...files].sort(), unreadable };
}

async function specsBelow(folder: string): Promise<string[]> {
  const entries = await readdir(folder, { withFileTypes: true });
  const found: string[] = [];
  for (const entry of entries) {
    const path = join(folder, entry.name);
    if (entry.isDirectory() && !entry.name.startsWith('.') && entry.name !== 'node_modules')
      found.push(...(await specsBelow(path)));
    else if (entry.isFile() && entry.name.endsWith(EXTENSION)) found.push(path);
  }
  return found;
}

/** A file's text, or a sentence that says why it cannot be read. */
export async function readSpec(
  path: string,
): Promise<{ readonly text: string } | { readonly message: string }> {
  try {
    return { text: new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(await readFile(path)) };
  } catch (error) {
    if (error instanceof TypeError) return { message: 'It is not UTF-8. Save it as UTF-8.' };
    return { message: messageFor(error) };
  }
}

function messageFor(error: unknown): string {
  const message = systemMessage(error);
  if (message === undefined) throw error;
  return `It cannot be read: ${message}.`;
}
