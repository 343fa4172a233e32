/**
 * The drawings of the examples, compared whole. `UPDATE_GOLDEN=1 npx vitest run tests/golden` writes them anew, draws each twice, and
 * says so where the two differ. Look at what changed before it is committed, and say in the commit what was looked at.
 */
import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { drawSheets } from '../../src/documents/draw.js';
import { toSvg } from '../../src/documents/formats/svg.js';
import type { Scene } from '../../src/documents/scene/scene.js';
import { EXAMPLES, example } from '../documents/boats.js';
import { measure } from '../documents/measure.js';

const update = process.env['UPDATE_GOLDEN'] === '1';

async function drawn(name: string): Promise<ReadonlyMap<string, string>> {
  const sheets = drawSheets(await example(name), { paper: 'A3', date: '2026-05-01', file: `${basename(name)}.loft`, hash: '00000000', version: 'wireloft' });
  return new Map([
    ...sheets.map(({ scene }) => [`${scene.id}.svg`, toSvg(scene)] as const),
    ['measures.txt', sheets.map(({ scene }) => measuresOf(scene)).join('')],
  ]);
}

/** What is reported of a sheet: so that a change that makes it worse is seen. */
function measuresOf(scene: Scene): string {
  const { boxes, wires, crossings, bends, detour } = measure(scene);
  const each = (count: number): string => (wires === 0 ? '-' : (count / wires).toFixed(2));
  return `${scene.id}: ${boxes.size} boxes, ${wires} wires, ${each(crossings)} crossings and ${each(bends)} bends a wire, detour ${wires === 0 ? '-' : detour.toFixed(2)}\n`;
}

describe('the drawings of the examples', () => {
  it.each(EXAMPLES)('are as they were: %s', async (name) => {
    const folder = join(import.meta.dirname, basename(name));
    const now = await drawn(name);
    if (update) {
      const again = await drawn(name);
      for (const [file, svg] of now) if (again.get(file) !== svg) console.warn(`${name} ${file}: two runs differ`);
      rmSync(folder, { recursive: true, force: true });
      mkdirSync(folder, { recursive: true });
      for (const [file, svg] of now) writeFileSync(join(folder, file), svg);
    }
    const before = readdirSync(folder).sort();
    expect([...now.keys()].sort()).toEqual(before);
    for (const [file, svg] of now) expect(svg === readFileSync(join(folder, file), 'utf8'), `${name} ${file} has changed`).toBe(true);
  });
});
