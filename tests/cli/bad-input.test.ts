/** What is wrong with the input is said in one clear message, with the right exit status, and nothing hangs or crashes. */
import { mkdirSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { folderWith, wireloft, type Ended } from './program.js';

const check = (folder: string, ...words: string[]): Promise<Ended> =>
  wireloft(['check', ...words], { folder });

/** The first lines of the findings, without the lines that quote and relate. */
const findings = (out: string): string[] =>
  out.split('\n').filter((line) => /^\S.*:\d+:\d+ (?:error|warning|information) /.test(line));

/** Bytes that look random and are the same each time (a linear congruential generator, Numerical Recipes). */
function noise(length: number): Uint8Array {
  const bytes = new Uint8Array(length);
  let state = 1;
  for (let index = 0; index < length; index++) {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    bytes[index] = state >>> 24;
  }
  return bytes;
}

describe('input that cannot be read', () => {
  it('a missing file', async () => {
    const { status, out, error } = await check(folderWith({}), 'gone.loft');
    expect({ status, out, error }).toEqual({
      status: 2,
      out: '',
      error: 'wireloft: gone.loft: there is no such file or folder\n',
    });
  });

  it('a folder without specs', async () => {
    const { status, out, error } = await check(folderWith({ 'sub/readme.txt': 'x' }), 'sub');
    expect({ status, out }).toEqual({ status: 2, out: '' });
    expect(error).toBe('wireloft: sub: the folder holds no spec (a file that ends in .loft)\n');
  });

  it('a file of another kind', async () => {
    const { status, out, error } = await check(folderWith({ 'boat.txt': 'vessel A {}' }), 'boat.txt');
    expect({ status, out }).toEqual({ status: 2, out: '' });
    expect(error).toBe('wireloft: boat.txt: a spec is a file that ends in .loft\n');
  });

  it('beside input that can: the one is reported, the other named, and the status says that it is not whole', async () => {
    const folder = folderWith({ 'a.loft': 'vessel A {}' });
    const { status, out, error } = await check(folder, 'a.loft', 'gone.loft', '--format', 'json');
    expect(status).toBe(2);
    expect((JSON.parse(out) as { vessels: { name: string }[] }).vessels.map((vessel) => vessel.name)).toEqual(
      ['A'],
    );
    expect(error).toBe('wireloft: gone.loft: there is no such file or folder\n');
  });

  it.each([
    ['list', 'views', 'gone.loft'],
    ['format', 'gone.loft'],
  ])('for %s as well', async (...words) => {
    const { status, out, error } = await wireloft(words, { folder: folderWith({}) });
    expect({ status, out }).toEqual({ status: 2, out: '' });
    expect(error).toContain('wireloft: gone.loft: ');
  });
});

describe('a file that is no spec', () => {
  it('ten megabytes of noise', async () => {
    const { status, out, error } = await check(folderWith({ 'noise.loft': noise(10_000_000) }), 'noise.loft');
    expect({ status, error }).toEqual({ status: 1, error: '' });
    expect(findings(out)).toEqual([
      expect.stringMatching(/^noise\.loft:1:1 error limit\/file-size: .* at most /),
    ]);
    expect(out.length).toBeLessThan(2000);
    // eslint-disable-next-line no-control-regex -- whatever a terminal acts upon, line ends aside
    expect(out).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f]/);
  });

  it('not UTF-8', async () => {
    const latin = Buffer.from('vessel M\xf6lle {\n}\n', 'latin1');
    const { status, out, error } = await check(folderWith({ 'latin.loft': latin }), 'latin.loft');
    expect({ status, error }).toEqual({ status: 1, error: '' });
    expect(findings(out)).toEqual([expect.stringMatching(/^latin\.loft:1:9 error encoding: .*UTF-8/)]);
  });

  it('nested a hundred thousand deep', async () => {
    const deep = `vessel A ${'{'.repeat(100_000)}${'}'.repeat(100_000)}`;
    const { status, out } = await check(folderWith({ 'deep.loft': deep }), 'deep.loft');
    expect(status).toBe(1);
    expect(findings(out)).toEqual([
      expect.stringMatching(/^deep\.loft:1:1 error limit\/nesting: .*100000 deep/),
    ]);
  });

  it('of one line of three million letters', async () => {
    const long = `vessel A "${'x'.repeat(3_000_000)}" {} device d : M`;
    const { status, out } = await check(folderWith({ 'long.loft': long }), 'long.loft');
    expect(status).toBe(1);
    expect(findings(out)).toHaveLength(1);
    expect(out.length).toBeLessThan(1000);
  });
});

describe('a use', () => {
  const boat = (path: string): string => `use "${path}"\nvessel A {}\n`;

  it.each([
    ['out of the root', '../away.loft', 'leads out of the root folder'],
    ['by an absolute path', '/away.loft', 'is an absolute path'],
    ['by an address', 'https://a.example/away.loft', 'is an address'],
  ])('%s', async (_how, path, message) => {
    const folder = folderWith({ 'away.loft': 'family F\n', 'root/boat.loft': boat(path) });
    const { status, out } = await check(join(folder, 'root'), 'boat.loft', '--root', '.');
    expect(status).toBe(1);
    expect(findings(out)).toEqual([
      expect.stringMatching(new RegExp(`^boat\\.loft:1:5 error use/outside-root: .*${message}`)),
    ]);
  });

  it('through a link that leads out of the root', async () => {
    const folder = folderWith({
      'away/away.loft': 'family F\n',
      'root/boat.loft': boat('in.loft'),
      'root/other.loft': boat('sub/away.loft'),
    });
    symlinkSync('../away/away.loft', join(folder, 'root', 'in.loft'));
    symlinkSync('../away', join(folder, 'root', 'sub'));
    for (const file of ['boat.loft', 'other.loft']) {
      const { status, out } = await check(join(folder, 'root'), file, '--root', '.');
      expect(status).toBe(1);
      expect(findings(out), file).toEqual([expect.stringMatching(/:1:5 error use\/outside-root: .*link/)]);
    }
  });

  it('of a file that is not there, or is a folder', async () => {
    const folder = folderWith({ 'boat.loft': `use "gone.loft"\nuse "dir.loft"\nvessel A {}\n` });
    mkdirSync(join(folder, 'dir.loft'));
    const { status, out } = await check(folder, 'boat.loft');
    expect(status).toBe(1);
    expect(findings(out)).toEqual([
      expect.stringMatching(/^boat\.loft:1:5 error use\/not-found: /),
      expect.stringMatching(/^boat\.loft:2:5 error use\/not-found: .*folder/),
    ]);
  });

  it('in a cycle is harmless', async () => {
    const folder = folderWith({
      'boat.loft': boat('a.loft'),
      'a.loft': 'use "b.loft"\nfamily A\n',
      'b.loft': 'use "c.loft"\nfamily B\n',
      'c.loft': 'use "a.loft"\nfamily C\n',
    });
    const { status, out, error } = await check(folder, '.');
    expect({ status, error, findings: findings(out) }).toEqual({ status: 0, error: '', findings: [] });
    expect(out).toMatch(/Checked 1 vessel and 3 other files: /);
  });
});

describe('too much of something', () => {
  it('ten thousand errors are capped, and counted', async () => {
    const links = Array.from({ length: 5000 }, (_, index) => `link a${index} -- b${index}\n`).join('');
    const { status, out } = await check(folderWith({ 'many.loft': `vessel A {}\n${links}` }), 'many.loft');
    expect(status).toBe(1);
    expect(findings(out)).toHaveLength(201);
    expect(findings(out).filter((line) => line.includes('limit/findings'))).toEqual([
      expect.stringContaining('9,800 more errors in this file are not listed (10,000 in all)'),
    ]);
  });

  it('a billion ports in one range', async () => {
    const model = 'model M : switch { port 1..1000000000 : ethernet  bridges ethernet }\n';
    const { status, out } = await check(
      folderWith({ 'range.loft': `vessel A {}\n${model}device m : M\n` }),
      'range.loft',
    );
    expect(status).toBe(1);
    expect(findings(out).filter((line) => line.includes('limit/'))).toEqual([
      expect.stringMatching(/^range\.loft:2:25 error limit\/port-range: .*1,000,000,000 ports; at most 256/),
    ]);
  });
});
