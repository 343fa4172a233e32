/** Pictures of scenes as PNG, with their resolution, so that they print in their true size. */
import { crc32 } from 'node:zlib';
import { Resvg } from '@resvg/resvg-js';
import { FONT_FAMILY } from '../../documents/formats/svg.js';

const INCH = 25.4;
/** Signature and header of a PNG (ISO/IEC 15948): the chunk for the resolution may follow them. */
const HEADER = 8 + 25;

/**
 * @param svg - A scene as SVG.
 * @param widthMm - Its width.
 * @param fontFiles - Paths of the fonts that it is written in.
 */
export function toPng(svg: string, widthMm: number, dpi: number, fontFiles: readonly string[]): Uint8Array {
  const picture = new Resvg(svg, {
    fitTo: { mode: 'width', value: Math.max(1, Math.round((widthMm / INCH) * dpi)) },
    font: { loadSystemFonts: false, fontFiles: [...fontFiles], defaultFontFamily: FONT_FAMILY },
  });
  return withResolution(picture.render().asPng(), dpi);
}

/** Put in a chunk `pHYs`: dots to the metre. */
function withResolution(png: Uint8Array, dpi: number): Uint8Array {
  const chunk = new DataView(new ArrayBuffer(21));
  const perMetre = Math.round((dpi / INCH) * 1000);
  chunk.setUint32(0, 9);
  [0x70, 0x48, 0x59, 0x73].forEach((byte, index) => chunk.setUint8(4 + index, byte));
  chunk.setUint32(8, perMetre);
  chunk.setUint32(12, perMetre);
  chunk.setUint8(16, 1);
  chunk.setUint32(17, crc32(new Uint8Array(chunk.buffer, 4, 13)));
  const whole = new Uint8Array(png.length + 21);
  whole.set(png.subarray(0, HEADER));
  whole.set(new Uint8Array(chunk.buffer), HEADER);
  whole.set(png.subarray(HEADER), HEADER + 21);
  return whole;
}
