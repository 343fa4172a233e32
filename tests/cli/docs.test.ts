import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { layOutPages } from '../../scripts/lib/cli-pages.mjs';
import { pages } from '../../src/cli/documentation/pages.js';
import { ROOT } from './program.js';

it('has pages in docs that are what the program says of itself', async () => {
  const current = await layOutPages(pages());
  for (const [path, text] of current)
    expect(
      readFileSync(join(ROOT, path), 'utf8'),
      `${path} is not current: run "node scripts/cli-pages.mjs".`,
    ).toBe(text);
  const schemas = [...current.keys()]
    .filter((path) => path.startsWith('docs/schemas/'))
    .map((path) => path.slice('docs/schemas/'.length));
  expect(readdirSync(join(ROOT, 'docs', 'schemas')).sort()).toEqual(schemas.sort());
});
