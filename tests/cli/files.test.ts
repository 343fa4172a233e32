import {
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  realpathSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { findSpecs, readSpec } from '../../src/cli/files/find.js';
import { createFile, replaceFile, systemMessage } from '../../src/cli/files/write.js';
import { nameProblem, suggestName } from '../../src/cli/new/name.js';
import { displayPath } from '../../src/cli/terminal/paths.js';

let folder = '';
beforeEach(() => {
  folder = realpathSync(mkdtempSync(join(tmpdir(), 'wireloft-files-')));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

describe('replacing a file', () => {
  it('keeps its permissions and leaves nothing beside it', async () => {
    writeFileSync(join(folder, 'a.loft'), 'old', { mode: 0o640 });
    await replaceFile(join(folder, 'a.loft'), 'new');
    expect(readFileSync(join(folder, 'a.loft'), 'utf8')).toBe('new');
    expect(statSync(join(folder, 'a.loft')).mode & 0o777).toBe(0o640);
    expect(readdirSync(folder)).toEqual(['a.loft']);
  });

  it('through a link keeps the link', async () => {
    writeFileSync(join(folder, 'a.loft'), 'old');
    symlinkSync('a.loft', join(folder, 'b.loft'));
    await replaceFile(join(folder, 'b.loft'), 'new');
    expect(readFileSync(join(folder, 'a.loft'), 'utf8')).toBe('new');
    expect(readdirSync(folder)).toEqual(['a.loft', 'b.loft']);
  });

  it('that is not there fails and makes none', async () => {
    const failure: unknown = await replaceFile(join(folder, 'a.loft'), 'new').catch(
      (error: unknown) => error,
    );
    expect(systemMessage(failure)).toBe('no such file or directory');
    expect(readdirSync(folder)).toEqual([]);
  });
});

describe('creating a file', () => {
  it('never writes over one, nor over a link that leads nowhere', async () => {
    expect(await createFile(join(folder, 'a.loft'), 'one')).toBe(true);
    expect(await createFile(join(folder, 'a.loft'), 'two')).toBe(false);
    symlinkSync('nowhere', join(folder, 'b.loft'));
    expect(await createFile(join(folder, 'b.loft'), 'two')).toBe(false);
    expect(readFileSync(join(folder, 'a.loft'), 'utf8')).toBe('one');
    expect(readdirSync(folder)).toEqual(['a.loft', 'b.loft']);
  });

  it('in a folder that is not there fails in words', async () => {
    const failure: unknown = await createFile(join(folder, 'x', 'a.loft'), 'one').catch(
      (error: unknown) => error,
    );
    expect(systemMessage(failure)).toBe('no such file or directory');
  });

  it('at the same time succeeds once', async () => {
    const made = await Promise.all(
      Array.from({ length: 8 }, (_, index) => createFile(join(folder, 'a.loft'), String(index))),
    );
    expect(made.filter(Boolean)).toHaveLength(1);
    expect(readdirSync(folder)).toEqual(['a.loft']);
  });
});

describe('finding specs', () => {
  it('goes into folders, but not into hidden ones, packages and links', async () => {
    for (const path of ['b.loft', 'a.txt', 'sub/c.loft', '.git/d.loft', 'node_modules/x/e.loft']) {
      mkdirSync(join(folder, path, '..'), { recursive: true });
      writeFileSync(join(folder, path), '');
    }
    symlinkSync(folder, join(folder, 'loop'));
    const found = await findSpecs([
      folder,
      join(folder, 'b.loft'),
      join(folder, 'gone.loft'),
      join(folder, '.git', 'x'),
    ]);
    expect(found.files).toEqual([join(folder, 'b.loft'), join(folder, 'sub', 'c.loft')]);
    expect(found.unreadable.map((one) => one.message)).toEqual([
      'It cannot be read: no such file or directory.',
      'It cannot be read: no such file or directory.',
    ]);
    mkdirSync(join(folder, 'empty'));
    expect((await findSpecs([join(folder, 'empty')])).unreadable[0]?.message).toBe(
      'There is no .loft file in this folder or below.',
    );
  });

  it('reads UTF-8 and nothing else', async () => {
    writeFileSync(join(folder, 'a.loft'), '\ufeffvessel Mölle');
    writeFileSync(join(folder, 'b.loft'), Buffer.from([0x76, 0xf6, 0x76]));
    expect(await readSpec(join(folder, 'a.loft'))).toEqual({ text: '\ufeffvessel Mölle' });
    expect(await readSpec(join(folder, 'b.loft'))).toEqual({ message: 'It is not UTF-8. Save it as UTF-8.' });
    expect(await readSpec(join(folder, 'c.loft'))).toEqual({
      message: 'It cannot be read: no such file or directory.',
    });
  });
});

describe('names', () => {
  it.each(['Kittiwake', '_a', 'Mölle', '船', 'zone', 'Sula2'])('%s is one', (name) => {
    expect(nameProblem(name)).toBeUndefined();
  });

  it.each([
    ['my boat-2', 'myBoat2'],
    ['7seas', 'boat7seas'],
    ['at', 'boatAt'],
    ['', 'boat'],
    ['../../etc/passwd', 'etcPasswd'],
    ['---', 'boat'],
    ['Blue Fin II', 'BlueFinII'],
    ['x'.repeat(90), 'x'.repeat(60)],
  ])('%j is none, and %s is suggested', (name, suggestion) => {
    expect(nameProblem(name)).toMatch(/\.$/);
    expect(suggestName(name)).toBe(suggestion);
    expect(nameProblem(suggestName(name))).toBeUndefined();
  });
});

describe('what a file is called', () => {
  it.each([
    ['file:///boats/a.loft', 'a.loft'],
    ['file:///boats/sub/a%20b.loft', 'sub/a b.loft'],
    ['file:///other/a.loft', '/other/a.loft'],
    ['file:///boats', '/boats'],
    ['file:///boats/..a.loft', '..a.loft'],
    ['builtin:/signals.loft', 'builtin:/signals.loft'],
  ])('%s: %s', (uri, name) => {
    expect(displayPath(uri, '/boats')).toBe(name);
  });
});
