/** `npm run bench`: builds what is measured, then measures it. `--json` prints figures for a program; `--sizes 50,200` fewer, `--only boats|power|bus|design|fleet|drawing|preview` one part. */
import { spawnSync } from 'node:child_process';
import { at, fail, root } from './lib/project.mjs';
import { bundleTools } from './lib/tools.mjs';

/**
 * @param {readonly string[]} args
 * @param {import('node:child_process').StdioOptions} stdio
 */
function node(args, stdio) {
  const result = spawnSync(process.execPath, args, { cwd: root, stdio });
  if (result.error) fail(`${args.join(' ')} could not be started: ${result.error.message}`);
  if (result.status !== 0) process.exit(result.status ?? 1);
}

// The figures have the output stream to themselves.
node([at('scripts', 'build.mjs')], ['inherit', 2, 'inherit']);

await bundleTools(
  'out/bench',
  [
    { in: 'bench/main.ts', out: 'main' },
    { in: 'bench/bare/server.ts', out: 'bare' },
    { in: 'bench/power/once.ts', out: 'once' },
  ],
  { splitting: true, minify: true },
);
node(['--expose-gc', at('out', 'bench', 'main.mjs'), ...process.argv.slice(2)], 'inherit');
