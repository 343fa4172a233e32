/**
 * `node scripts/pictures.mjs`: draws the pictures that README.md and docs/drawings.md show from the examples, by the program itself. Its test makes them again
 * and compares them byte for byte.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { ensureBuilt } from './lib/bundles.mjs';
import { at, fail, say, writeIfChanged } from './lib/project.mjs';
import { pictures } from './lib/pictures.mjs';

await ensureBuilt();
const scratch = mkdtempSync(join(tmpdir(), 'wireloft-pictures-'));
try {
  for (const { image, page, words } of pictures) {
    const folder = join(scratch, image);
    const program = at('dist', 'cli', 'main.mjs');
    const drawn = spawnSync(process.execPath, [program, ...words, '--out', folder], {
      cwd: at(),
      encoding: 'utf8',
    });
    if (drawn.status !== 0) fail(`${image} is not drawn:\n${drawn.stderr}`);
    const changed = writeIfChanged(at('docs', 'images', image), readFileSync(join(folder, page)));
    say(`docs/images/${image} ${changed ? 'is drawn' : 'is as it was'}.`);
  }
} finally {
  rmSync(scratch, { recursive: true, force: true });
}
