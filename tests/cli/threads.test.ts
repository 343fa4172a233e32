/** A check by several threads: the same answer as by one, shares that keep a vessel together, and threads that fail. */
import { cpSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { together, type CheckedShare } from '../../src/cli/check/checked.js';
import { shareOut, type SpecFile } from '../../src/cli/check/shares.js';
import { run } from '../../src/cli/run.js';
import type { Sink, World } from '../../src/cli/terminal/world.js';
import { WRITERS } from '../support/writers.js';
import { folderWith, ROOT, wireloft } from './program.js';

const boat = (name: string, more = ''): string =>
  `use "gear.loft"\nvessel ${name} { slack 0.5 m }\nzone cabin interior\n${more}`;
const GEAR = `// A vessel has gear, and vessel Nobody is a comment.
family Tern
model One : display { families Tern  port net : ethernet sealed  shows chart  shares chart  wants depth }
model Hub : switch { port 1..3 : ethernet  bridges ethernet }
`;
const LOOP =
  'device a : Hub at cabin\ndevice b : Hub at cabin\nlink a.1 -- b.1\nlink a.2 -- b.2\nneed a show radar\n';

/** Boats with all that a check has to tell of. */
function fleet(): string {
  const folder = folderWith({
    'gear.loft': GEAR,
    ...Object.fromEntries(
      Array.from({ length: 9 }, (_, n) => [`plain${n}.loft`, boat(`Plain${n}`, `device a : One at cabin\n`)]),
    ),
    'aLoop.loft': boat('Loop', LOOP),
    'bSlip.loft': boat('Slip', 'device : One at\ndevice x : Nothing at cabin\n'),
    'cOption.loft': boat('Opt', 'device a : Hub at cabin\noption two { add device b : Hub at cabin }\n'),
    'dWaived.loft': boat(
      'Waived',
      'device a : One at cabin allow unused/device because "spare" until 2020-01-01\n',
    ),
    'eWhole.loft': `use "part.loft"\nuse "gear.loft"\nvessel Whole\nzone cabin interior\n`,
    'part.loft': `aboard Whole\nuse "gear.loft"\ndevice far : One at cabin\n`,
    'zAlso.loft': `use "part.loft"\nvessel Also\nzone cabin interior\n`,
    'lost.loft': `aboard Nobody\ndevice x : One\n`,
    'odd.loft': new Uint8Array([0x76, 0xff, 0xfe, 0x0a]),
    '.git/keep': '',
  });
  for (const name of ['catalogue', 'openboat'])
    cpSync(join(ROOT, 'examples', name), join(folder, 'examples', name), { recursive: true });
  return folder;
}

describe('a check by several threads', () => {
  it.each(['text', 'json', 'sarif'])(
    'says what one says in %s, on the error stream and by its status',
    async (format) => {
      const folder = fleet();
      const ask = (jobs: string): ReturnType<typeof wireloft> =>
        wireloft(['check', '.', 'missing', '--format', format, '--today', '2026-05-01', '--jobs', jobs], {
          folder,
        });
      const one = await ask('1');
      expect(one.status).toBe(2);
      expect(one.error).toContain('missing: there is no such file or folder');
      expect(one.out.length).toBeGreaterThan(5000);
      expect(await ask('4')).toEqual(one);
    },
    // Seconds, but of a machine that others use as well.
    60_000,
  );

  it('refuses to be done by none', async () => {
    const { status, error } = await wireloft(['check', '.', '--jobs', '0'], { folder: ROOT });
    expect(status).toBe(2);
    expect(error).toContain('--jobs');
  });
});

describe('a thread that fails', () => {
  /** A check in this process, whose workers run the given code. */
  const withWorker = async (
    code: string,
    terminal = false,
  ): Promise<{ status: number; out: string; error: string }> => {
    const folder = folderWith({
      'gear.loft': GEAR,
      'a.loft': boat('A'),
      'b.loft': boat('B'),
      '.git/keep': '',
    });
    const texts = { out: '', error: '' };
    const sink = (name: 'out' | 'error'): Sink => ({
      write: (text) => (texts[name] += text),
      terminal,
      columns: 200,
    });
    const world: World = {
      folder,
      environment: {},
      out: sink('out'),
      error: sink('error'),
      version: '1.2.3',
      today: '2026-05-01',
      writers: WRITERS,
      solver: () => Promise.reject(new Error('no command here asks for it')),
      worker: new URL(`data:text/javascript,${encodeURIComponent(code)}`),
    };
    return { status: await run(['check', '.', '--jobs', '2'], world), ...texts };
  };

  it.each([
    ['throws', 'throw new TypeError("the hold is full")', 'TypeError: the hold is full'],
    ['ends before it is done', 'process.exit(7)', 'ended with 7 before it was done'],
    ['ends without a word', '', 'ended with 0 before it was done'],
  ])(
    'because it %s is reported as a fault, and nothing is printed as if it were whole',
    async (_, code, told) => {
      const { status, out, error } = await withWorker(code);
      expect(status).toBe(3);
      expect(error).toContain(told);
      expect(error).not.toContain('\n    at ');
      expect(out).toBe('');
    },
  );

  const GOOD = `import { parentPort } from 'node:worker_threads';
    parentPort.postMessage({ checked: 41 });
    parentPort.postMessage({ share: { vessels: [], files: [], texts: new Map(), unreadable: [] } });`;

  it('does not stand for one that is well, which tells a terminal how far it is, and nobody else', async () => {
    const quiet = await withWorker(GOOD);
    expect(quiet.error).toBe('');
    const shown = await withWorker(GOOD, true);
    expect(shown.error).toMatch(/4[12] vessels done/);
    expect(shown.error.endsWith('\r\u001b[K')).toBe(true);
    expect(quiet.status).toBe(shown.status);
  });
});

describe('what several threads found', () => {
  const share = (unreadable: readonly string[], vessels: readonly string[]): CheckedShare => ({
    vessels: vessels.map((file) => ({
      name: file,
      file,
      option: null,
      options: [],
      counts: { error: 0, warning: 0, information: 0, waived: 0, unknown: 0 },
      rulesRun: 1,
      problems: [],
      unknowns: [],
    })),
    files: [{ file: 'gear', problems: [] }],
    texts: new Map(),
    unreadable: unreadable.map((path) => ({ path, message: 'no' })),
  });

  it('is in the order of one thread: unreadable files as they were asked for, vessels by file, shared files once', () => {
    const whole = together([share(['c', 'a'], ['y', 'x']), share(['b'], ['x', 'w'])], ['a', 'b', 'c']);
    expect(whole.unreadable.map((one) => one.path)).toEqual(['a', 'b', 'c']);
    expect(whole.vessels.map((one) => one.file)).toEqual(['w', 'x', 'y']);
    expect(whole.files).toHaveLength(1);
  });
});

describe('shares', () => {
  const file = (path: string, text: string): SpecFile => ({ path: `/b/${path}`, text });
  const nothing = (): undefined => undefined;

  it('keep a vessel, its fragments and another that uses one of them together, and leave catalogues apart', () => {
    const files = [
      file('also.loft', 'use "part.loft"\nvessel Also'),
      file('gear.loft', '/* vessel Nobody */ family Tern "vessel Nobody"'),
      file('other.loft', 'use "gear.loft"\nvessel Other'),
      file('part.loft', 'aboard Whole'),
      file('whole.loft', 'use "part.loft" use "gear.loft"\nvessel Whole'),
    ];
    const shares = shareOut(files, 9, nothing).map((share) => share.map((path) => path.slice(3)));
    expect(shares).toContainEqual(['also.loft', 'part.loft', 'whole.loft']);
    expect(shares).toContainEqual(['other.loft']);
    expect(shares).toContainEqual(['gear.loft']);
  });

  it('keep two vessels together that use a fragment that was not asked for, and not those that use a catalogue', () => {
    const files = ['a', 'b', 'c', 'd'].map((name, n) =>
      file(`${name}.loft`, `use "../${n < 2 ? 'part' : 'gear'}.loft"\nvessel V${n}`),
    );
    const read = (path: string): string => (path === '/part.loft' ? 'aboard V0' : 'family Tern');
    const shares = shareOut(files, 9, read);
    expect(shares).toContainEqual(['/b/a.loft', '/b/b.loft']);
    expect(shares).toHaveLength(3);
  });

  it('hold every file once, in its order, and are about even', () => {
    let several = 0;
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.integer({ min: 0, max: 400 }), fc.nat(8)), { minLength: 1, maxLength: 40 }),
        fc.integer({ min: 1, max: 6 }),
        (boats, most) => {
          const files = boats.map(([length, uses], n) =>
            file(
              `f${String(n).padStart(2, '0')}.loft`,
              `use "f${String(uses).padStart(2, '0')}.loft" vessel V${' '.repeat(length)}`,
            ),
          );
          const shares = shareOut(files, most, nothing);
          if (shares.length > 1) several += 1;
          expect(shares.length).toBeLessThanOrEqual(most);
          expect(shares.every((share) => share.length > 0)).toBe(true);
          expect(shares.flat().sort()).toEqual(files.map((one) => one.path).sort());
          for (const share of shares) expect(share).toEqual([...share].sort());
          const shareOf = (path: string): number => shares.findIndex((share) => share.includes(path));
          boats.forEach(([, uses], n) => {
            const used = files[uses]?.path;
            if (used !== undefined) expect(shareOf(files[n]?.path ?? '')).toBe(shareOf(used));
          });
        },
      ),
    );
    expect(several).toBeGreaterThan(20);
  });
});
