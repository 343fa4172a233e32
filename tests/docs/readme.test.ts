/** What README.md shows of the tool is what the tool prints. `UPDATE_PAGES=1` writes it anew. */
import { cpSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { loadSolver } from '../../src/cli/suggest/highs.js';
import { run } from '../../src/cli/run.js';
import type { World } from '../../src/cli/terminal/world.js';
import { WRITERS } from '../support/writers.js';
import { readPage } from './support/snippets.js';

const root = join(import.meta.dirname, '..', '..');
const BLOCK = /^```(loft|diff|console)\n([\s\S]*?)^```$/gm;
const COLUMNS = 100;

/** A change of some lines, as a diff without places. */
function patch(text: string, diff: string): string {
  const lines = diff.split('\n').filter((line) => line !== '');
  const removed = lines.filter((line) => line.startsWith('-')).map((line) => line.slice(1));
  const added = lines.filter((line) => line.startsWith('+')).map((line) => line.slice(1));
  const before = `${removed.join('\n')}\n`;
  expect(removed.length + added.length, 'the change has lines of no other kind').toBe(lines.length);
  expect(text.split(before).length - 1, `"${before}" stands in the spec once`).toBe(1);
  return text.replace(before, `${added.join('\n')}\n`);
}

describe('README.md', () => {
  let folder: string;
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'wireloft-readme-'));
    cpSync(join(root, 'examples', 'catalogue'), join(folder, 'catalogue'), { recursive: true });
  });
  afterAll(() => rmSync(folder, { recursive: true }));

  async function printed(words: readonly string[]): Promise<string> {
    let out = '';
    let error = '';
    const sink = (put: (text: string) => void): World['out'] => ({
      write: put,
      terminal: false,
      columns: COLUMNS,
    });
    const world: World = {
      folder,
      environment: { NO_COLOR: '1' },
      out: sink((text) => (out += text)),
      error: sink((text) => (error += text)),
      version: 'test',
      today: '2026-11-25',
      writers: WRITERS,
      solver: loadSolver,
    };
    await run(words, world);
    expect(error).toBe('');
    return out;
  }

  it('shows what the tool prints', async () => {
    const page = readPage('README.md');
    const shown: string[] = [];
    let spec = '';
    let current = '';
    let taken = 0;
    for (const match of page.matchAll(BLOCK)) {
      const [, kind, text = ''] = match;
      if (kind === 'loft') spec = text;
      if (kind === 'diff') spec = patch(spec, text);
      if (kind !== 'console') continue;
      writeFileSync(join(folder, 'turnstone.loft'), spec);
      const [command = ''] = text.split('\n');
      const words = command.split(' ').slice(2);
      expect(command.startsWith('$ wireloft '), command).toBe(true);
      shown.push(command);
      const start = match.index + match[0].indexOf(text);
      current += `${page.slice(taken, start)}${command}\n${await printed(words)}`;
      taken = start + text.length;
    }
    current += page.slice(taken);
    expect(shown).toEqual([
      '$ wireloft check turnstone.loft',
      '$ wireloft list views turnstone.loft',
      '$ wireloft check turnstone.loft',
    ]);
    if (process.env['UPDATE_PAGES'] === '1') writeFileSync(join(root, 'README.md'), current);
    else expect(current).toBe(page);
  });
});
