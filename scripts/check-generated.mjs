/** `npm run check-generated`: fails unless git has exactly what the generators make from the sources. */
import { spawnSync } from 'node:child_process';
import { generatedFolder, produce } from './lib/generated.mjs';
import { ensureInstalled } from './lib/install.mjs';
import { fail, root, say } from './lib/project.mjs';

/** @param {readonly string[]} args */
function git(args) {
  const result = spawnSync('git', args, { cwd: root, encoding: 'utf8', maxBuffer: 64 * 1024 * 1024 });
  if (result.error) fail(`git could not be started: ${result.error.message}`);
  return result;
}

ensureInstalled();
const expected = produce();
const problems = [];
for (const [path, text] of expected) {
  // The staged text, not the file on disk: a test run may just have brought that one up to date.
  const staged = git(['show', `:${path}`]);
  if (staged.status !== 0) problems.push(`${path} is not in git`);
  else if (staged.stdout !== text) problems.push(`${path} is not current`);
}
for (const path of git(['ls-files', '--', generatedFolder]).stdout.split('\n').filter(Boolean)) {
  if (!expected.has(path)) problems.push(`${path} is in git, but nothing generates it`);
}
if (problems.length > 0) fail(`${problems.join('\n')}\nRun "npm run generate" and commit what it changes.`);
say(`${expected.size} generated files are current.`);
