import { describe, expect, it } from 'vitest';
import { folderWith, wireloft } from './program.js';

describe('a text that is broken all over', () => {
  it('with ten thousand syntax errors is capped, and counted', async () => {
    const folder = folderWith({ 'many.loft': `vessel A {}\n${'zone 5 5\n'.repeat(10_000)}` });
    const { status, out, error } = await wireloft(['check', 'many.loft'], { folder });
    expect({ status, error }).toEqual({ status: 1, error: '' });
    const limit = out.split('\n').filter((line) => line.includes('limit/findings'));
    expect(limit).toEqual([
      expect.stringContaining('after 500 syntax errors, of which the first 200 are listed'),
    ]);
  });

  it('of a megabyte of keywords is reported', async () => {
    const folder = folderWith({
      'words.loft': 'zone run link feed device model port need view '.repeat(21_000),
    });
    const { status, out, error } = await wireloft(['check', 'words.loft'], { folder });
    expect({ status, error }).toEqual({ status: 1, error: '' });
    expect(out).toMatch(/words\.loft:\d+:\d+ error (?:syntax|limit\/)/);
  });

  it('does not keep a fragment elsewhere from being checked', async () => {
    const folder = folderWith({
      'words.loft': 'zone run link feed device model port need view '.repeat(21_000),
      'part.loft': 'aboard Nobody\n',
    });
    const { status, out, error } = await wireloft(['check', 'part.loft', '--root', '.'], { folder });
    expect({ status, error }).toEqual({ status: 1, error: '' });
    expect(out).toContain('part.loft:1:8 error use/no-vessel');
  });

  it('in one line of three million letters is reported', async () => {
    const folder = folderWith({ 'long.loft': `vessel A "${'x'.repeat(3_000_000)}" { hull }` });
    const { status, out } = await wireloft(['check', 'long.loft'], { folder });
    expect(status).toBe(1);
    expect(out).toContain(' error syntax: ');
  });
});
