/** The map of folders has every folder. */
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { readPage } from './support/snippets.js';

const root = join(import.meta.dirname, '..', '..');
const foldersOf = (path: string): readonly string[] =>
  readdirSync(join(root, path), { withFileTypes: true })
    .filter((entry) => entry.isDirectory())
    .map((entry) => `${path}/${entry.name}`);

it('docs/architecture.md names every folder of the source down to its concerns', () => {
  const page = readPage('docs/architecture.md');
  // The floors are the page's own subject; a concern's folders below it are its own affair.
  const folders = foldersOf('src').flatMap(foldersOf);
  expect(folders.length).toBeGreaterThan(20);
  expect(folders.filter((folder) => !page.includes(`\`${folder}\``))).toEqual([]);
});
