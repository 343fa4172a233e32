/** The pictures that the pages show are what the tool draws. `node scripts/pictures.mjs` draws them anew. */
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { pictures } from '../../scripts/lib/pictures.mjs';
import { ROOT, wireloft } from '../cli/program.js';

const pages = ['README.md', 'docs/drawings.md']
  .map((page) => readFileSync(join(ROOT, page), 'utf8'))
  .join('');

describe('a picture of a page', () => {
  const scratch = mkdtempSync(join(tmpdir(), 'wireloft-pictures-'));
  afterAll(() => rmSync(scratch, { recursive: true }));

  it.each(pictures)('$image is what the tool draws', async ({ image, page, words }) => {
    const { status, error } = await wireloft([...words, '--out', join(scratch, image)], { folder: ROOT });
    expect(status, error).toBe(0);
    const drawn = readFileSync(join(scratch, image, page));
    const shown = readFileSync(join(ROOT, 'docs', 'images', image));
    expect(drawn.equals(shown), 'draw it anew: node scripts/pictures.mjs').toBe(true);
    expect(pages).toContain(`images/${image})`);
  });
});
