/**
 * `npm run test:editor`: the packaged extension in a real workbench, on a desktop's terms and in a browser's web
 * worker, and the server under a second, unrelated editor. Pictures of every step are left in out/editor.
 */
import { existsSync } from 'node:fs';
import { basename, join } from 'node:path';
import { at, fail, runNode } from '../../../scripts/lib/project.mjs';
import { here } from './paths.mjs';
import { prepare } from './prepare.mjs';

try {
  prepare();
} catch (error) {
  fail(error instanceof Error ? error.message : String(error));
}
if (runNode(at('scripts', 'package.mjs'), []) !== 0) fail('The extension could not be packaged.');
if (runNode(at('node_modules', 'typescript', 'bin', 'tsc'), ['-p', here]) !== 0)
  fail('The tests do not keep to their types.');
const tests = ['extension.test.mjs', 'drawing.test.mjs', 'neovim.test.mjs'].map((name) => join(here, name));
const missing = tests.filter((path) => !existsSync(path));
if (missing.length > 0) fail(`${missing.join(', ')} is missing.`);
/** @param {string} path */
const passes = (path) => runNode('--test', ['--test-reporter=spec', path]) === 0;
const failed = tests.filter((path) => {
  if (passes(path)) return false;
  // What a fault of the extension fails fails again; a browser that a busy machine starves does not, and then both runs are on record.
  console.error(`${basename(path)} failed. Once more, in a workbench of its own:`);
  return !passes(path);
});
if (failed.length > 0) fail(`${failed.map((path) => basename(path)).join(', ')} failed twice.`);
