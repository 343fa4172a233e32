/** Where a `use` leads. Pure reckoning with URIs; whether the file exists is found when it is read. */
import { type URI, UriUtils } from 'langium';

export type UseFault = 'absolute' | 'url' | 'outside-root' | 'extension' | 'empty';

export interface UseTarget {
  /** Undefined where the path may not be used. */
  readonly uri: URI | undefined;
  readonly fault: UseFault | undefined;
}

/** Resolves the path of a `use` in `file`; it must be relative and stay inside `root`. */
export function resolveUse(path: string, file: URI, root: URI): UseTarget {
  if (path.trim() === '') return { uri: undefined, fault: 'empty' };
  if (/^[a-z][a-z0-9+.-]+:/i.test(path)) return { uri: undefined, fault: 'url' };
  if (/^([/\\]|[a-z]:)/i.test(path)) return { uri: undefined, fault: 'absolute' };
  if (!path.endsWith('.loft')) return { uri: undefined, fault: 'extension' };
  const uri = UriUtils.joinPath(UriUtils.dirname(file), path.replaceAll('\\', '/'));
  if (file.scheme === 'file' && !isInside(uri, root)) return { uri: undefined, fault: 'outside-root' };
  return { uri, fault: undefined };
}

/** Whether a file lies in a folder or below. */
export function isInside(file: URI, folder: URI): boolean {
  const base = folder.path.endsWith('/') ? folder.path : `${folder.path}/`;
  return file.scheme === folder.scheme && file.authority === folder.authority && file.path.startsWith(base);
}

/** The path to write in a `use` of `from` to reach `to`. */
export function relativePath(from: URI, to: URI): string {
  return UriUtils.relative(UriUtils.dirname(from), to);
}
