/** Debian's packages for the checks that another program makes. */
import { spawnSync } from 'node:child_process';
import { root, say } from './project.mjs';

/**
 * Installs packages of Debian. A check without its program must not pass, so what fails throws.
 * @param {...string} names
 */
export function installPackages(...names) {
  say(`Installing ${names.join(', ')} ...`);
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  for (const args of [
    ['update', '-qq'],
    ['install', '-y', '-qq', '--no-install-recommends', ...names],
  ]) {
    const { error, status } = spawnSync('apt-get', args, {
      cwd: root,
      env,
      stdio: ['ignore', 'ignore', 'inherit'],
    });
    if (error) throw new Error(`apt-get could not be started: ${error.message}`);
    if (status !== 0) throw new Error(`apt-get ${args.join(' ')} failed.`);
  }
}
