/** `npm test`: installs, generates and builds what is missing or stale, then runs every test that needs no browser. */
import { ensureBuilt } from './lib/bundles.mjs';
import { ensureGenerated } from './lib/generated.mjs';
import { ensureInstalled } from './lib/install.mjs';
import { at, runNode } from './lib/project.mjs';

ensureInstalled();
ensureGenerated();
await ensureBuilt();
process.exitCode = runNode(at('node_modules', 'vitest', 'vitest.mjs'), ['run', ...process.argv.slice(2)]);
