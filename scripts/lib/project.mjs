/** Paths and child processes shared by the build scripts. Plain Node: nothing here needs an install. */
import { spawnSync } from 'node:child_process';
import { mkdirSync, readFileSync, readdirSync, renameSync, writeFileSync } from 'node:fs';
import { dirname, join, relative, sep } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The folder that holds package.json. */
export const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');

/**
 * An absolute path below the project's folder.
 * @param {...string} parts
 */
export const at = (...parts) => join(root, ...parts);

/**
 * Ends the script with a message on the error stream and exit status 1.
 * @param {string} message
 * @returns {never}
 */
export function fail(message) {
  process.stderr.write(`${message}\n`);
  process.exit(1);
}

/** @param {string} message */
export function say(message) {
  process.stdout.write(`${message}\n`);
}

/**
 * Runs a program of this project with the reader's terminal attached.
 * @param {string} program an absolute path to a JavaScript file, run with this very Node
 * @param {readonly string[]} args
 * @returns {number} its exit status
 */
export function runNode(program, args) {
  const result = spawnSync(process.execPath, [program, ...args], { cwd: root, stdio: 'inherit' });
  if (result.error) fail(`${relative(root, program)} could not be started: ${result.error.message}`);
  return result.status ?? 1;
}

/**
 * All files below a folder, as sorted paths with forward slashes relative to it; empty if there is none.
 * @param {string} folder
 * @returns {string[]}
 */
export function filesBelow(folder) {
  let entries;
  try {
    entries = readdirSync(folder, { recursive: true, withFileTypes: true });
  } catch (error) {
    if (error instanceof Error && 'code' in error && error.code === 'ENOENT') return [];
    throw error;
  }
  return entries
    .filter((entry) => entry.isFile())
    .map((entry) => relative(folder, join(entry.parentPath, entry.name)).split(sep).join('/'))
    .sort();
}

/**
 * Reads a text file, or gives undefined if it isn't there.
 * @param {string} path
 * @returns {string | undefined}
 */
export function readIfThere(path) {
  try {
    return readFileSync(path, 'utf8');
  } catch (error) {
    if (error instanceof Error && 'code' in error && error.code === 'ENOENT') return undefined;
    throw error;
  }
}

/**
 * Puts a file in place in one step and only if it differs, so that a reader never sees half of it and an
 * unchanged file keeps its time.
 * @param {string} path
 * @param {string | Uint8Array} content
 * @returns {boolean} whether the file changed
 */
export function writeIfChanged(path, content) {
  const bytes = Buffer.from(content);
  try {
    if (readFileSync(path).equals(bytes)) return false;
  } catch (error) {
    if (!(error instanceof Error && 'code' in error && error.code === 'ENOENT')) throw error;
  }
  mkdirSync(dirname(path), { recursive: true });
  const temporary = `${path}.${process.pid}.tmp`;
  writeFileSync(temporary, bytes);
  renameSync(temporary, path);
  return true;
}
