/** Outlines of texts, from the very fonts that they were measured by. */
import { create, type Font } from 'fontkit';
import type { Point, TextItem } from '../../scene/scene.js';
import { CAPITAL, widthOf } from '../../text/measure.js';
import type { Fonts } from '../fonts.js';
import { curve, type Ring } from './outline.js';

/** Stands for what the font has no glyph for. */
const MISSING = 0xfffd;

interface Glyph {
  /** Rings of points in ems, upwards. */
  readonly rings: readonly (readonly Point[])[];
  readonly advance: number;
}

/** Gives the rings of a text, in pixels. */
export type Writer = (item: TextItem, scale: number) => readonly Ring[];

/** Reads the fonts; every glyph is read once. */
export function createWriter(fonts: Fonts): Writer {
  const faces = { regular: faceOf(fonts.regular), bold: faceOf(fonts.bold) };
  return (item, scale) => {
    const face = item.bold === true ? 'bold' : 'regular';
    const size = (item.height / CAPITAL) * scale;
    const width = widthOf(item.text, item.height, face) * scale;
    let along = item.anchor === 'start' ? 0 : item.anchor === 'middle' ? -width / 2 : -width;
    const [x, y] = [item.x * scale, item.y * scale];
    const rings: Ring[] = [];
    for (const character of item.text) {
      const glyph = faces[face](character.codePointAt(0) ?? MISSING);
      for (const ring of glyph.rings)
        rings.push(
          ring.flatMap((point) => {
            const [right, up] = [along + point.x * size, point.y * size];
            // Upright, it reads from below.
            return item.upright === true ? [x - up, y - right] : [x + right, y - up];
          }),
        );
      along += glyph.advance * size;
    }
    return rings;
  };
}

function faceOf(bytes: Uint8Array): (code: number) => Glyph {
  // The reader makes views of its own of the bytes, and says in its types that it wants those of Node.js.
  const font = create(bytes as Parameters<typeof create>[0]);
  if (!('glyphForCodePoint' in font)) throw new Error('A font of drawings is a collection of fonts.');
  const known = new Map<number, Glyph>();
  return (code) => {
    let glyph = known.get(code);
    if (glyph === undefined) known.set(code, (glyph = glyphOf(font, code)));
    return glyph;
  };
}

/** Curves are cut as finely as a text of this height in pixels wants: large enough for every title. */
const FINE = 100;

function glyphOf(font: Font, code: number): Glyph {
  const { path, advanceWidth } = font.glyphForCodePoint(font.hasGlyphForCodePoint(code) ? code : MISSING);
  const em = font.unitsPerEm;
  const rings: Point[][] = [];
  let ring: Point[] = [];
  for (const { command, args } of path.commands) {
    const points: Point[] = [];
    for (let index = 0; index + 1 < args.length; index += 2)
      points.push({ x: ((args[index] ?? 0) / em) * FINE, y: ((args[index + 1] ?? 0) / em) * FINE });
    const [point] = points;
    const last = ring.at(-1);
    if (command === 'moveTo' && point !== undefined) rings.push((ring = [point]));
    else if (command === 'lineTo' && point !== undefined) ring.push(point);
    else if (last !== undefined && points.length > 1) ring.push(...curve([last, ...points]));
  }
  return {
    rings: rings.map((one) => one.map(({ x, y }) => ({ x: x / FINE, y: y / FINE }))),
    advance: advanceWidth / em,
  };
}
