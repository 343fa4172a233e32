/**
 * A scene as PNG (ISO/IEC 15948), with its resolution, so that it prints in its true size. It is painted here and not by a library: those
 * that are kept up are native code, which an extension cannot bring for every machine, and the WebAssembly build of resvg has had no stable
 * release since 2024. So every face writes the same bytes, and tests judge them by resvg.
 */
import { zlibSync } from 'fflate';
import type { Item, Point, Scene, Stroke } from '../../scene/scene.js';
import type { Fonts } from '../fonts.js';
import { createWriter, type Writer } from './glyphs.js';
import { circle, rectangle, ringOf, stroked, type Ring } from './outline.js';
import { Band, type Shape } from './paint.js';
import { numberedColours } from './palette.js';

const INCH = 25.4;
const METRE = 1000;
/** Painted at a time, so that what edges leave does not have to be held for the whole picture. */
const ROWS = 128;
/** What a pixel is: red, green and blue, or the number of a colour. */
const [COLOURS, NUMBERS] = [2, 3];
const SIGNATURE = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];

/** Write a scene. The same scene gives the same bytes. */
export function toPng(scene: Scene, dpi: number, fonts: Fonts): Uint8Array {
  const scale = dpi / INCH;
  const width = Math.max(1, Math.round(scene.width * scale));
  const height = Math.max(1, Math.round(scene.height * scale));
  const shapes = [...shapesOf(scene.items, scale, createWriter(fonts))];
  const band = new Band(width, Math.min(ROWS, height));
  const rows = new Uint8Array((width * 3 + 1) * height);
  let above = new Uint8Array(width * 3);
  for (let top = 0; top < height; top += band.height) {
    band.begin(top);
    for (const shape of shapes) band.paint(shape);
    for (let row = top; row < Math.min(top + band.height, height); row += 1) {
      const own = band.row(row - top);
      writeRow(rows, row, own, above);
      above = own.slice();
    }
  }
  const numbered = numberedColours(rows, width);
  return joined([
    Uint8Array.from(SIGNATURE),
    header(width, height, numbered === undefined ? COLOURS : NUMBERS),
    resolution(dpi),
    ...(numbered === undefined ? [] : [chunk('PLTE', numbered.colours)]),
    chunk('IDAT', zlibSync(numbered?.rows ?? rows, { level: 9 })),
    chunk('IEND', new Uint8Array(0)),
  ]);
}

/** What is painted, in its order. */
function* shapesOf(items: readonly Item[], scale: number, write: Writer): Generator<Shape> {
  for (const item of items) {
    if (item.kind === 'group') {
      yield* shapesOf(item.items, scale, write);
      continue;
    }
    if (item.kind === 'text') {
      yield* shapeOf(write(item, scale), item.colour ?? '#000000');
      continue;
    }
    const points = pointsOf(item, scale);
    const closed = item.kind !== 'line' || item.closed === true;
    if (item.fill !== undefined) yield* shapeOf([ringOf(points)], item.fill);
    if (item.stroke !== undefined)
      yield* shapeOf(stroked(points, closed, scaled(item.stroke, scale)), item.stroke.colour);
  }
}

function pointsOf(item: Exclude<Item, { readonly kind: 'group' | 'text' }>, scale: number): readonly Point[] {
  switch (item.kind) {
    case 'rect':
      return rectangle(
        item.x * scale,
        item.y * scale,
        item.width * scale,
        item.height * scale,
        (item.radius ?? 0) * scale,
      );
    case 'disc':
      return circle(item.x * scale, item.y * scale, item.radius * scale);
    case 'line':
      return item.points.map(({ x, y }) => ({ x: x * scale, y: y * scale }));
  }
}

const scaled = ({ width, dash }: Stroke, scale: number): Omit<Stroke, 'colour'> => ({
  width: width * scale,
  dash: dash?.map((length) => length * scale),
});

function* shapeOf(outline: readonly Ring[], colour: string): Generator<Shape> {
  const rings = outline.filter((ring) => ring.every(Number.isFinite));
  let [top, bottom] = [Infinity, -Infinity];
  for (const ring of rings)
    for (let index = 1; index < ring.length; index += 2) {
      top = Math.min(top, ring[index] ?? top);
      bottom = Math.max(bottom, ring[index] ?? bottom);
    }
  if (top < bottom) yield { rings, colour: rgb(colour), top, bottom };
}

/** `#1a2b3c`, as every colour of a scene is written. */
function rgb(colour: string): readonly [number, number, number] {
  const value = Number.parseInt(colour.slice(1), 16);
  return [(value >> 16) & 255, (value >> 8) & 255, value & 255];
}

/** A row as it is packed: one that is like the row above it is written as nothing but noughts. */
function writeRow(rows: Uint8Array, row: number, own: Uint8Array, above: Uint8Array): void {
  const at = row * (own.length + 1);
  if (own.every((value, index) => value === above[index])) rows[at] = 2;
  else rows.set(own, at + 1);
}

function header(width: number, height: number, kind: number): Uint8Array {
  const data = new DataView(new ArrayBuffer(13));
  data.setUint32(0, width);
  data.setUint32(4, height);
  data.setUint8(8, 8);
  data.setUint8(9, kind);
  return chunk('IHDR', new Uint8Array(data.buffer));
}

/** Dots to the metre. */
function resolution(dpi: number): Uint8Array {
  const data = new DataView(new ArrayBuffer(9));
  const perMetre = Math.round((dpi / INCH) * METRE);
  data.setUint32(0, perMetre);
  data.setUint32(4, perMetre);
  data.setUint8(8, 1);
  return chunk('pHYs', new Uint8Array(data.buffer));
}

function chunk(name: string, content: Uint8Array): Uint8Array {
  const whole = new Uint8Array(12 + content.length);
  const view = new DataView(whole.buffer);
  view.setUint32(0, content.length);
  for (let index = 0; index < 4; index += 1) whole[4 + index] = name.charCodeAt(index);
  whole.set(content, 8);
  view.setUint32(8 + content.length, crc(whole.subarray(4, 8 + content.length)));
  return whole;
}

/** The check sum that every chunk ends with (ISO/IEC 15948, annex D). */
const SUMS = Uint32Array.from({ length: 256 }, (_, byte) => {
  let sum = byte;
  for (let bit = 0; bit < 8; bit += 1) sum = (sum & 1) === 1 ? 0xedb88320 ^ (sum >>> 1) : sum >>> 1;
  return sum;
});

function crc(bytes: Uint8Array): number {
  let sum = 0xffffffff;
  for (const byte of bytes) sum = (SUMS[(sum ^ byte) & 255] ?? 0) ^ (sum >>> 8);
  return (sum ^ 0xffffffff) >>> 0;
}

function joined(pieces: readonly Uint8Array[]): Uint8Array {
  const whole = new Uint8Array(pieces.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const piece of pieces) {
    whole.set(piece, at);
    at += piece.length;
  }
  return whole;
}
