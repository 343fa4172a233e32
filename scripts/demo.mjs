/** `npm run demo`: from a fresh clone to the checked example, and what to look at next. */
import { existsSync } from 'node:fs';
import { ensureBuilt } from './lib/bundles.mjs';
import { ensureGenerated } from './lib/generated.mjs';
import { ensureInstalled } from './lib/install.mjs';
import { at, fail, runNode, say } from './lib/project.mjs';

const example = 'examples/kittiwake/kittiwake.loft';
const program = 'dist/cli/main.mjs';

ensureInstalled();
ensureGenerated();
await ensureBuilt();
for (const needed of [program, example]) {
  if (!existsSync(at(needed))) fail(`${needed} is missing, so there is nothing to show.`);
}

/** @param {readonly string[]} args */
function show(args) {
  say(`\n$ wireloft ${args.join(' ')}\n`);
  const status = runNode(at(program), args);
  // Status 1 says that the boat has errors, which is a result; above that, something went wrong.
  if (status > 1) fail(`wireloft ${args[0] ?? ''} ended with status ${String(status)}.`);
}

show(['check', example]);
show(['list', 'views', example]);
say(`
Open next:
  ${example}   the boat you have just seen checked; break a link and run this again
  docs/language.md                     the language, construct by construct
  docs/rules/                          what is checked, and why
  README.md                            how to use it in the terminal and in an editor`);
