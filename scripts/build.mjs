/** `npm run build`: bundles the command line program, the extension and the language server. */
import { ensureBuilt } from './lib/bundles.mjs';
import { ensureGenerated } from './lib/generated.mjs';
import { ensureInstalled } from './lib/install.mjs';

ensureInstalled();
ensureGenerated();
await ensureBuilt();
