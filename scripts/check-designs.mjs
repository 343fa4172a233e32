/**
 * `npm run check-designs`: CBC, a solver of another make, finds the cheapest design of random boats in the very program that is solved
 * for "wireloft suggest", written out as a file. Installs Debian's coinor-cbc where it is missing, and fails where it cannot be had.
 */
import { spawnSync } from 'node:child_process';
import { ensureGenerated } from './lib/generated.mjs';
import { ensureInstalled } from './lib/install.mjs';
import { at, runNode } from './lib/project.mjs';
import { installPackages } from './lib/system.mjs';
import { bundleTools } from './lib/tools.mjs';

if (spawnSync('cbc', ['-quit'], { stdio: 'ignore' }).error !== undefined) installPackages('coinor-cbc');

ensureInstalled();
ensureGenerated();
await bundleTools('out/judge', [{ in: 'tests/checks/design/judge/main.ts', out: 'judge' }]);
process.exitCode = runNode(at('out', 'judge', 'judge.mjs'), []);
