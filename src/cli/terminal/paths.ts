/** How files are called in what the program prints. */
import { isAbsolute, relative, sep } from 'node:path';
import { fileURLToPath } from 'node:url';

/**
 * A file's URI as a path relative to `folder` with forward slashes; as an absolute path where it lies outside; as it is where it is
 * no file (the bundled library).
 */
export function displayPath(uri: string, folder: string): string {
  const path = pathOf(uri);
  if (path === undefined) return uri;
  const way = relative(folder, path);
  const inside = way !== '' && !isAbsolute(way) && way.split(sep)[0] !== '..';
  return (inside ? way : path).split(sep).join('/');
}

/** The path of a `file:` URI on this machine; undefined for any other. */
function pathOf(uri: string): string | undefined {
  if (!uri.startsWith('file:')) return undefined;
  try {
    return fileURLToPath(uri);
  } catch {
    // A file URI with a host has no path here; it is shown as it is.
    return undefined;
  }
}
