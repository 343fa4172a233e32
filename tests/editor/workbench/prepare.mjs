/**
 * Installs what the workbench tests need: Debian's browser and second editor, and the workbench with its own packages.
 * No package's install script runs and nothing is compiled: the workbench does without its native helpers.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, rmSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { installPackages } from '../../../scripts/lib/system.mjs';
import { fingerprint, isFresh, markFresh } from '../../../scripts/lib/stamps.mjs';
import { here, nodePath, serverFolder, serverMain } from './paths.mjs';

/** What Debian calls a program, and the programs that any one of will do. */
const programs = [
  { name: 'chromium', paths: ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome'] },
  { name: 'neovim', paths: ['/usr/bin/nvim'] },
];

/** Installs what is missing; throws an error that says what could not be had. */
export function prepare() {
  installPrograms();
  installWorkbench();
}

function installPrograms() {
  const missing = programs.filter(({ paths }) => !paths.some((path) => existsSync(path)));
  if (missing.length === 0) return;
  const names = missing.map(({ name }) => name);
  installPackages(...names, 'fonts-dejavu-core');
}

function installWorkbench() {
  const state = fingerprint([join(here, 'package-lock.json'), join(here, 'prepare.mjs')]);
  const linked = join(serverFolder, 'node_modules.asar');
  if (isFresh('workbench', state) && [nodePath, serverMain, linked].every((path) => existsSync(path))) return;
  console.log('Installing the workbench ...');
  // It asks for a newer Node.js than the project's, which it is run with.
  const quiet = ['--ignore-scripts', '--no-audit', '--no-fund', '--loglevel=error'];
  run('npm', ['ci', ...quiet], { cwd: here });
  // Not `npm ci`: the list of versions that comes with the server is not quite in step with its manifest.
  run('npm', ['install', '--omit=dev', ...quiet], { cwd: serverFolder });
  // Where the workbench looks for its packages when it is not run from its sources.
  rmSync(linked, { force: true });
  symlinkSync('node_modules', linked);
  markFresh('workbench', state);
}

/**
 * @param {string} program
 * @param {readonly string[]} args
 * @param {import('node:child_process').SpawnSyncOptions} options
 */
function run(program, args, options) {
  const result = spawnSync(program, args, { stdio: 'inherit', ...options });
  if (result.error) throw new Error(`${program} could not be started: ${result.error.message}`);
  if (result.status !== 0)
    throw new Error(`${program} ${args.join(' ')} ended with status ${String(result.status)}.`);
}
