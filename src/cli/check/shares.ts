/** Shares out the files of a check among threads, so that what belongs to one vessel stays together. */
import { dirname, resolve } from 'node:path';
import { createUnionFind } from '../../vessel/unionFind.js';

export interface SpecFile {
  readonly path: string;
  readonly text: string;
}

/** Gives the text of a file that was not asked for; undefined where it cannot be read. */
type Read = (path: string) => string | undefined;

/** What the tool would have to read to know for certain is guessed from the text; a wrong guess costs time and changes nothing. */
const COMMENT_OR_TEXT = /\/\*[\s\S]*?(?:\*\/|$)|\/\/[^\n]*|"[^"\n]*"?/g;
const ABOARD = /\b(?:vessel|aboard)\s+[\p{L}_]/u;
const USE = /\buse\s+"([^"\n]*)"/g;

const isAboard = (text: string): boolean => ABOARD.test(text.replace(COMMENT_OR_TEXT, ' '));

/**
 * Files of one vessel and its fragments, whether or not all of them were asked for; a catalogue, which many vessels share, is a group
 * of its own.
 */
function groupsOf(files: readonly SpecFile[], read: Read): readonly (readonly SpecFile[])[] {
  const texts = new Map(files.map(({ path, text }) => [path, text as string | undefined]));
  const known = new Map<string, boolean>();
  const aboard = (path: string): boolean => {
    let is = known.get(path);
    if (is !== undefined) return is;
    if (!texts.has(path)) texts.set(path, read(path));
    is = isAboard(texts.get(path) ?? '');
    known.set(path, is);
    return is;
  };
  const sets = createUnionFind<string>();
  const queue = files.map(({ path }) => path).filter(aboard);
  const seen = new Set(queue);
  for (const path of queue) {
    for (const [, used = ''] of (texts.get(path) ?? '').matchAll(USE)) {
      const target = resolve(dirname(path), used);
      if (!aboard(target)) continue;
      sets.join(path, target);
      if (!seen.has(target)) queue.push(target);
      seen.add(target);
    }
  }
  const groups = new Map<string, SpecFile[]>();
  for (const file of files) {
    const root = sets.find(file.path);
    const group = groups.get(root);
    if (group === undefined) groups.set(root, [file]);
    else group.push(file);
  }
  return [...groups.values()];
}

/** At most so many shares of about the same size, none of them empty. Within a share the files keep their order. */
export function shareOut(
  files: readonly SpecFile[],
  most: number,
  read: Read,
): readonly (readonly string[])[] {
  const size = (group: readonly SpecFile[]): number =>
    group.reduce((sum, file) => sum + file.text.length + 1, 0);
  const groups = groupsOf(files, read).map((group) => ({ group, size: size(group) }));
  const shares = Array.from({ length: Math.max(1, Math.min(most, groups.length)) }, () => ({
    size: 0,
    files: new Set<string>(),
  }));
  // The largest first, each to whoever has least.
  for (const { group, size: weight } of groups.sort((x, y) => y.size - x.size)) {
    const least = shares.reduce((best, one) => (one.size < best.size ? one : best));
    least.size += weight;
    for (const file of group) least.files.add(file.path);
  }
  const order = files.map((file) => file.path);
  return shares.map((share) => [...new Set(order.filter((path) => share.files.has(path)))]);
}
