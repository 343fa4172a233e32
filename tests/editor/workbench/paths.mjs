/** Where the pieces of the workbench lie. */
import { existsSync } from 'node:fs';
import { arch } from 'node:process';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** This folder. */
export const here = dirname(fileURLToPath(import.meta.url));

/** The project's folder. */
export const project = join(here, '..', '..', '..');

/** The Node.js that the workbench asks for; the project's own is older. */
export const nodeFolder = join(here, 'node_modules', `node-linux-${arch}`);
export const nodePath = join(nodeFolder, 'bin', 'node');

/** The folder of the workbench's server, which has packages of its own. */
export const serverFolder = join(here, 'node_modules', 'code-server', 'lib', 'vscode');
export const serverMain = join(serverFolder, 'out', 'server-main.js');

/** The browser that Debian installs. */
export function browserPath() {
  const found = ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome'].find((path) =>
    existsSync(path),
  );
  if (found === undefined) throw new Error('There is no Chromium: run prepare.mjs.');
  return found;
}
