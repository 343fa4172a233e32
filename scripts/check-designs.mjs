/**
 * `npm run check-designs`: CBC, a solver of another make, finds the cheapest design of random boats in the very program that is solved
 * for "wireloft suggest", written out as a file. Installs Debian's coinor-cbc where it is missing, and fails where it cannot be had.
 */
import { spawnSync } from 'node:child_process';
import { ensureGenerated } from './lib/generated.mjs';
import { ensureInstalled } from './lib/install.mjs';
import { at, fail, root } from './lib/project.mjs';

/**
 * @param {string} program
 * @param {readonly string[]} args
 */
function run(program, args) {
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  const result = spawnSync(program, args, { cwd: root, env, stdio: 'inherit' });
  if (result.error) fail(`${program} could not be started: ${result.error.message}`);
  if (result.status !== 0) fail(`${program} ${args.join(' ')} failed.`);
}

if (spawnSync('cbc', ['-quit'], { stdio: 'ignore' }).error !== undefined) {
  run('apt-get', ['update', '-qq']);
  run('apt-get', ['install', '-y', '-qq', '--no-install-recommends', 'coinor-cbc']);
}

ensureInstalled();
ensureGenerated();
const { build } = await import('esbuild');
await build({
  absWorkingDir: root,
  entryPoints: [{ in: 'tests/checks/design/judge/main.ts', out: 'judge' }],
  outdir: 'out/judge',
  outExtension: { '.js': '.mjs' },
  bundle: true,
  format: 'esm',
  platform: 'node',
  target: 'node20.19',
  mainFields: ['module', 'main'],
  inject: [at('src/language/polyfill.ts')],
  banner: {
    js: "import { createRequire as __createRequire } from 'node:module'; const require = __createRequire(import.meta.url);",
  },
  logLevel: 'warning',
});
run(process.execPath, [at('out', 'judge', 'judge.mjs')]);
