/**
 * Keeps the code that the engine compiled of the terminal program, with all that a check of a boat needs, so that the program does not
 * compile it at each start. src/cli/load.ts reads it.
 */
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { fileURLToPath } from 'node:url';
import { Script } from 'node:vm';
import { at, fail, writeIfChanged } from './project.mjs';

/**
 * In a process of its own, since the program is run for it.
 * @param {string} bundle
 * @param {string} compiled where the code goes
 */
export function keepCompiled(bundle, compiled) {
  const result = spawnSync(process.execPath, [fileURLToPath(import.meta.url), bundle, compiled], {
    encoding: 'utf8',
  });
  if (result.status !== 0)
    fail(`${bundle} could not be run to keep its compiled code:\n${result.stdout}${result.stderr}`);
}

/**
 * @param {string} bundle
 * @param {string} compiled
 */
async function run(bundle, compiled) {
  const source = readFileSync(bundle);
  const script = new Script(source.toString('utf8'), { filename: bundle });
  const program = script.runInThisContext()(createRequire(bundle));
  const sink = { write: () => undefined, terminal: false, columns: undefined };
  const world = { folder: at(), environment: {}, out: sink, error: sink, version: '0', today: '2026-01-01' };
  // What is found does not matter here: running is what has the code compiled.
  for (const format of ['text', 'json'])
    await program.run(['check', at('examples'), '--format', format], world);
  const digest = createHash('sha256').update(source).digest();
  writeIfChanged(compiled, Buffer.concat([digest, script.createCachedData()]));
}

const [, self, bundle, compiled] = process.argv;
if (self === fileURLToPath(import.meta.url) && bundle !== undefined && compiled !== undefined)
  await run(bundle, compiled);
