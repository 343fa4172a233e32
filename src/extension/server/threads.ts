/** Where the scripts of the threads lie that a server under Node.js starts. */
import { realpathSync } from 'node:fs';
import { dirname, join } from 'node:path';

/**
 * The folder of those scripts: the extension's server and the terminal program both lie in a folder beside it.
 * @param program the path of the running program's file
 */
export function threadsBeside(program: string): string {
  return join(dirname(realpathSync(program)), '..', 'extension');
}
