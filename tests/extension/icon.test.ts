/** The committed icon is the drawing of its source. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Resvg } from '@resvg/resvg-js';
import { describe, expect, it } from 'vitest';

const icons = join(import.meta.dirname, '..', '..', 'icons');
const side = 256;

describe('the icon', () => {
  const png = readFileSync(join(icons, 'wireloft.png'));

  it('has the size that the marketplace asks for', () => {
    expect([png.readUInt32BE(16), png.readUInt32BE(20)]).toEqual([side, side]);
  });

  it('shows what its source says', () => {
    const drawn = new Resvg(readFileSync(join(icons, 'wireloft.svg'), 'utf8')).render().pixels;
    const frame = `<svg xmlns="http://www.w3.org/2000/svg" width="${String(side)}" height="${String(side)}">`;
    const image = `<image width="${String(side)}" height="${String(side)}" href="data:image/png;base64,${png.toString('base64')}"/>`;
    const committed = new Resvg(`${frame}${image}</svg>`).render().pixels;
    expect(drawn.length).toBe(side * side * 4);
    // Another processor may round a shade differently.
    const off = drawn.filter((value, index) => Math.abs(value - (committed[index] ?? 0)) > 3).length;
    expect(off).toBe(0);
    // And it is no empty square.
    expect(new Set(drawn).size).toBeGreaterThan(50);
  });

  it.each(['file-light.svg', 'file-dark.svg'])('has a small sister %s that draws', (name) => {
    const image = new Resvg(readFileSync(join(icons, name), 'utf8')).render();
    expect([image.width, image.height]).toEqual([16, 16]);
    expect(image.pixels.some((value) => value > 0)).toBe(true);
  });
});
