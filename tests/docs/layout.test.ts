/** What the pages show is laid out as the formatter does it. `UPDATE_PAGES=1` lays it out. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { EmptyFileSystem } from 'langium';
import { expect, it } from 'vitest';
import { rulePages } from '../../scripts/lib/rule-pages.mjs';
import { format } from '../../src/language/formatting/format.js';
import { createCoreServices } from '../../src/language/module.js';
import { readPage } from './support/snippets.js';

const root = join(import.meta.dirname, '..', '..');
const { Wireloft } = createCoreServices(EmptyFileSystem);

it.each(['README.md', 'docs/language.md', ...rulePages()])('%s', (path) => {
  const page = readPage(path);
  const laidOut = page.replace(
    /^(```loft[^\n]*\n)([\s\S]*?)^```$/gm,
    (_, fence: string, text: string) => `${fence}${format(text, Wireloft)}\`\`\``,
  );
  if (laidOut !== page && process.env['UPDATE_PAGES'] === '1') writeFileSync(join(root, path), laidOut);
  else expect(laidOut).toBe(page);
});
