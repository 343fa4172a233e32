/** Which folder the uses of a check must stay inside, where nobody says. */
import { mkdirSync, mkdtempSync, realpathSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { findSpecs } from '../../src/language/project/open.js';

let folder = '';
beforeEach(() => {
  folder = realpathSync(mkdtempSync(join(tmpdir(), 'wireloft-root-')));
  for (const boat of ['one', 'two', 'two/more']) {
    mkdirSync(join(folder, boat));
    writeFileSync(join(folder, boat, 'boat.loft'), '');
  }
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const rootOf = (...paths: readonly string[]): string =>
  findSpecs(
    paths.map((path) => join(folder, path)),
    undefined,
  ).root;

it('is the folder that was asked for, with whatever boats are below', () => {
  expect(rootOf('.')).toBe(folder);
  expect(rootOf('two')).toBe(join(folder, 'two'));
});

it('is the folder of a file, and what several have in common', () => {
  expect(rootOf('one/boat.loft')).toBe(join(folder, 'one'));
  expect(rootOf('two/boat.loft', 'two/more/boat.loft')).toBe(join(folder, 'two'));
  expect(rootOf('one/boat.loft', 'two/more')).toBe(folder);
});

it('is the git root above all of them, and of none if they are in two', () => {
  mkdirSync(join(folder, 'two', '.git'));
  expect(rootOf('two/more/boat.loft')).toBe(join(folder, 'two'));
  expect(rootOf('one', 'two')).toBe(folder);
});
