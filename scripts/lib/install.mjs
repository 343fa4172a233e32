/** Installs the pinned packages if they are missing or not the ones that the lockfile names. */
import { spawnSync } from 'node:child_process';
import { at, fail, readIfThere, root, say } from './project.mjs';

const oldestNode = [20, 19];

/**
 * @typedef {{ version?: string, integrity?: string, optional?: boolean, link?: boolean }} LockEntry
 * @typedef {{ packages: Record<string, LockEntry & Record<string, unknown>> }} Lock
 */

/** Runs `npm ci` unless node_modules already holds exactly what package-lock.json names. */
export function ensureInstalled() {
  const [major = 0, minor = 0] = process.versions.node.split('.').map(Number);
  if (major < (oldestNode[0] ?? 0) || (major === oldestNode[0] && minor < (oldestNode[1] ?? 0))) {
    fail(`Node.js ${oldestNode.join('.')} or newer is needed; this is ${process.versions.node}.`);
  }
  const reason = staleReason();
  if (reason === undefined) return;
  say(`Installing packages (${reason}) ...`);
  const npm = process.env['npm_execpath'];
  const args = ['ci', '--loglevel=error'];
  const options = /** @type {const} */ ({ cwd: root, stdio: 'inherit' });
  const result = npm?.endsWith('.js')
    ? spawnSync(process.execPath, [npm, ...args], options)
    : spawnSync('npm', args, { ...options, shell: process.platform === 'win32' });
  if (result.status !== 0) fail('npm ci failed: see its message above.');
}

/** @returns {string | undefined} why an install is needed, or undefined if it isn't */
function staleReason() {
  const lockText = readIfThere(at('package-lock.json'));
  const manifestText = readIfThere(at('package.json'));
  if (lockText === undefined || manifestText === undefined)
    fail('package.json or package-lock.json is missing.');
  const installedText = readIfThere(at('node_modules', '.package-lock.json'));
  if (installedText === undefined) return 'none are installed yet';
  const wanted = /** @type {Lock} */ (JSON.parse(lockText)).packages;
  const installed = /** @type {Lock} */ (JSON.parse(installedText)).packages;
  const manifest = /** @type {Record<string, unknown>} */ (JSON.parse(manifestText));
  for (const section of ['dependencies', 'devDependencies']) {
    if (JSON.stringify(manifest[section]) !== JSON.stringify(wanted['']?.[section])) {
      return `package.json changed its ${section}`;
    }
  }
  for (const [path, entry] of Object.entries(wanted)) {
    if (path === '' || entry.link === true) continue;
    const present = installed[path];
    if (present === undefined) {
      // Packages for other machines are optional and rightly absent.
      if (entry.optional !== true) return `${path} is missing`;
    } else if (present.version !== entry.version || present.integrity !== entry.integrity) {
      return `${path} is not the pinned version`;
    }
  }
  return undefined;
}
