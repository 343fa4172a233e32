/** `npm run generate`: the parser, the syntax tree's types, the library module and the grammar page. */
import { ensureGenerated } from './lib/generated.mjs';
import { ensureInstalled } from './lib/install.mjs';

ensureInstalled();
ensureGenerated();
