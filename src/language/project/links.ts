/** Refuses what a `use` may not read on the disk of Node.js: links that lead out of the root, and folders. */
import { existsSync, realpathSync, statSync } from 'node:fs';
import { sep } from 'node:path';
import type { URI } from 'langium';

/** Why a file that is there may not be used, or undefined. `root` bounds what may be used. */
export function refusalOnDisk(uri: URI, root: URI): string | undefined {
  if (uri.scheme !== 'file' || !existsSync(uri.fsPath)) return undefined;
  const inside = (path: string, folder: string): boolean =>
    (path + sep).startsWith(folder.endsWith(sep) ? folder : folder + sep);
  const target = realpathSync(uri.fsPath);
  const bounds = existsSync(root.fsPath) ? realpathSync(root.fsPath) : root.fsPath;
  if (!inside(target, bounds) && target !== uri.fsPath)
    return 'is a link that leads out of the root folder. Copy what it points at into the root';
  if (statSync(target).isDirectory()) return 'is a folder. Name a file in it';
  return undefined;
}
