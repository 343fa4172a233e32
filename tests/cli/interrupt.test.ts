/** Ctrl-C at a terminal while `wireloft suggest` searches: `script` (of Debian's bsdutils) is the terminal. */
import { spawn } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, expect, it } from 'vitest';
import { choosingBoat } from '../../bench/boats/choosing.js';
import { ensureBuilt } from '../../scripts/lib/bundles.mjs';
import { folderWith, ROOT } from './program.js';

beforeAll(() => ensureBuilt(), 60_000);

const CTRL_C = '\u0003';
const PROGRESS = /Looking for the cheapest design \.\.\. [1-9]\d* found/;

it('prints the best design so far, writes nothing, and says by its status that it was stopped', async () => {
  const boat = choosingBoat({ screens: 6, boxes: 4, hubs: 2, zones: 4, open: 3 });
  const folder = folderWith({ 'boat.loft': boat });
  const program = `'${process.execPath}' '${join(ROOT, 'dist', 'cli', 'main.mjs')}'`;
  const line = `${program} suggest boat.loft --best 20 --apply 1 > result.txt`;
  const terminal = spawn('script', ['-qec', line, '/dev/null'], {
    cwd: folder,
    env: { ...process.env, NO_COLOR: '1', SHELL: '/bin/sh', TERM: 'xterm' },
  });
  let shown = '';
  let pressed = false;
  terminal.stdout.setEncoding('utf8').on('data', (text: string) => {
    shown += text;
    if (pressed || !PROGRESS.test(shown)) return;
    pressed = true;
    terminal.stdin.write(CTRL_C);
  });
  const status = await new Promise<number | null>((resolve, reject) => {
    terminal.on('error', reject).on('close', resolve);
  });
  expect([pressed, status], shown).toEqual([true, 130]);
  const result = readFileSync(join(folder, 'result.txt'), 'utf8');
  expect(result).toMatch(/^Boat as written: 12029 USD\.\n\n1\. [\d.]+ USD, saves /);
  expect(result).toMatch(/\n\nStopped; there may be better ones\.\n$/);
  expect(shown).toContain('stopped, so nothing is written into the spec');
  expect(readFileSync(join(folder, 'boat.loft'), 'utf8')).toBe(boat);
}, 90_000);
