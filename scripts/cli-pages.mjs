/** `node scripts/cli-pages.mjs`: writes docs/cli.md and docs/schemas from what the program says of itself. */
import { readdirSync, rmSync } from 'node:fs';
import { ensureInstalled } from './lib/install.mjs';
import { at, say, writeIfChanged } from './lib/project.mjs';

ensureInstalled();
const { layOutPages, producePages } = await import('./lib/cli-pages.mjs');
const pages = await layOutPages(await producePages());
for (const [path, text] of pages) if (writeIfChanged(at(path), text)) say(`written ${path}`);
for (const name of readdirSync(at('docs', 'schemas'))) {
  if (pages.has(`docs/schemas/${name}`)) continue;
  rmSync(at('docs', 'schemas', name));
  say(`removed docs/schemas/${name}: nothing makes it`);
}
