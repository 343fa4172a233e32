/** Every token of every example and of the bundled library is coloured as what the parser takes it for. */
import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import type { IGrammar } from 'vscode-textmate';
import { agreement } from './agreement.js';
import { loadColours } from './colours.js';

const root = join(import.meta.dirname, '..', '..');
const files = ['examples', 'src/language/library'].flatMap((folder) =>
  readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.loft'))
    .map((name) => `${folder}/${name}`),
);

describe('the colours', () => {
  let grammar: IGrammar;
  beforeAll(async () => {
    grammar = await loadColours();
  });

  it('have examples to be tried on', () => {
    expect(files.filter((name) => name.startsWith('examples/')).length).toBeGreaterThan(0);
  });

  it.each(files)('agree with the parser in %s', (name) => {
    const { errors, count, wrong } = agreement(grammar, readFileSync(join(root, name), 'utf8'));
    expect(errors).toEqual([]);
    expect(wrong).toEqual([]);
    expect(count).toBeGreaterThan(0);
  });
});
