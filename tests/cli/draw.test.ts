import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { folderWith, ROOT, wireloft } from './program.js';

const BOAT = join(ROOT, 'examples', 'openboat', 'dunlin.loft');
const draw = (folder: string, ...words: readonly string[]): ReturnType<typeof wireloft> =>
  wireloft(['draw', BOAT, ...words], { folder });

describe('wireloft draw', () => {
  it('writes a file for each sheet and names it', async () => {
    const folder = folderWith({});
    const { status, out, error } = await draw(folder, '--out', 'drawings');
    expect({ status, error }).toEqual({
      status: 0,
      error: expect.stringContaining('sheets of Dunlin drawn') as string,
    });
    const files = readdirSync(join(folder, 'drawings')).sort();
    expect(out.trim().split('\n').sort()).toEqual(files.map((name) => `drawings/${name}`));
    expect(files.filter((name) => !/^(?:network|bus|power|plan)-\d+\.svg$/.test(name))).toEqual([]);
    expect(readFileSync(join(folder, 'drawings', 'network-1.svg'), 'utf8')).toContain('</svg>');
  });

  it('writes one PDF for the set, and PNG for one kind of sheet', async () => {
    const folder = folderWith({});
    expect(
      (await draw(folder, '--out', 'a', '--format', 'pdf', '--paper', 'A4', '--date', '2026-05-01')).status,
    ).toBe(0);
    expect(
      readFileSync(join(folder, 'a', 'drawings.pdf'))
        .subarray(0, 5)
        .toString(),
    ).toBe('%PDF-');
    expect(
      (await draw(folder, '--out', 'b', '--format', 'png', '--sheet', 'network', '--dpi', '50')).status,
    ).toBe(0);
    expect(readdirSync(join(folder, 'b'))).toEqual(['network-1.png']);
    expect([...readFileSync(join(folder, 'b', 'network-1.png')).subarray(1, 4)]).toEqual([80, 78, 71]);
  });

  it('says on paper with which options she is drawn', async () => {
    const folder = folderWith({});
    await draw(folder, '--out', 'a', '--sheet', 'network', '--with', 'noSwitch');
    await draw(folder, '--out', 'b', '--sheet', 'network');
    const [chosen, base] = ['a', 'b'].map((out) => readFileSync(join(folder, out, 'network-1.svg'), 'utf8'));
    expect(chosen).toContain('>Network, with noSwitch<');
    expect(base).not.toContain('with noSwitch');
  });

  it('gives the same bytes with the places that it wrote itself', async () => {
    const folder = folderWith({});
    await draw(folder, '--out', 'a', '--places', 'places.json');
    const places = readFileSync(join(folder, 'places.json'), 'utf8');
    const { status } = await draw(folder, '--out', 'b', '--places', 'places.json');
    expect(status).toBe(0);
    expect(readFileSync(join(folder, 'places.json'), 'utf8')).toBe(places);
    for (const name of readdirSync(join(folder, 'a')))
      expect(readFileSync(join(folder, 'b', name), 'utf8')).toBe(
        readFileSync(join(folder, 'a', name), 'utf8'),
      );
  });

  it('says where the places cost a sheet, and lays out anew when that is asked for', async () => {
    const folder = folderWith({});
    const { error: first } = await draw(folder, '--out', 'a', '--places', 'places.json');
    expect(first).not.toContain('--anew');
    const places = readFileSync(join(folder, 'places.json'), 'utf8');
    const spread = places.replace(/("id":"bowScreen".*?"page":)0/g, '$11');
    expect(spread).not.toBe(places);
    writeFileSync(join(folder, 'places.json'), spread);
    const { error } = await draw(folder, '--out', 'b', '--places', 'places.json', '--sheet', 'power');
    expect(error).toContain(
      'the power diagram takes 2 sheets with its boxes where they stand, and 1 laid out anew: --anew does that.',
    );
    const { error: last } = await draw(folder, '--out', 'b', '--places', 'places.json', '--anew');
    expect(last).not.toContain('--anew');
    expect(readFileSync(join(folder, 'places.json'), 'utf8')).toBe(places);
    for (const name of readdirSync(join(folder, 'a')))
      expect(readFileSync(join(folder, 'b', name), 'utf8')).toBe(
        readFileSync(join(folder, 'a', name), 'utf8'),
      );
  });

  it.each([
    [['--out', 'x', '--dpi', '5'], '--dpi is from 36 to 1200, not "5"'],
    [['--out', 'x', '--date', 'May'], '--date wants a date'],
    [['--out', 'x', '--paper', 'A5'], '--paper is A4, A3, letter or tabloid'],
    [[], 'draw needs --out DIR'],
    [['--out', 'x', '--anew'], '--anew needs --places FILE'],
    [['--out', 'taken'], '--out "taken" cannot be written to'],
    [['--out', 'x', '--places', 'taken'], '--places "taken" holds no places'],
  ])('refuses %j', async (words, message) => {
    const folder = folderWith({
      taken: '{"format":"1.0","diagrams":{"network":{"paper":"A3","scale":1,"nodes":[{"id":"a","x":1e9}]}}}',
    });
    const { status, out, error } = await draw(folder, ...words);
    expect({ status, out }).toEqual({ status: 2, out: '' });
    expect(error).toContain(message);
  });

  it('leaves other files of the folder alone', async () => {
    const folder = folderWith({});
    mkdirSync(join(folder, 'a'));
    writeFileSync(join(folder, 'a', 'mine.txt'), 'mine');
    await draw(folder, '--out', 'a', '--sheet', 'bus');
    expect(readFileSync(join(folder, 'a', 'mine.txt'), 'utf8')).toBe('mine');
  });
});
