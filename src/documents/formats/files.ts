/** A drawing set as the files that are handed over: one way to them, so that the terminal and the editor write the same bytes. */
import type { Scene } from '../scene/scene.js';
import type { Fonts } from './fonts.js';
import type { toPdf } from './pdf.js';
import type { toPng } from './png/png.js';
import { toSvg } from './svg.js';

export const DRAWING_FORMATS = ['svg', 'pdf', 'png'] as const;
export type DrawingFormat = (typeof DRAWING_FORMATS)[number];

/** Dots to the inch of a PNG where none are given. */
export const USUAL_DPI = 150;

export interface DrawingFile {
  readonly name: string;
  readonly content: string | Uint8Array;
}

export interface FileFacts {
  readonly vessel: string;
  /** The tool with its version. */
  readonly version: string | undefined;
  /** ISO date. */
  readonly date?: string | undefined;
  readonly dpi?: number | undefined;
}

/** What the heavier formats need: loaded when one is asked for. */
export interface HeavyWriters {
  readonly toPdf: typeof toPdf;
  readonly toPng: typeof toPng;
  readonly fonts: Fonts;
}

/** SVG and PNG are a file for each sheet; PDF is one for the set, or has the name of its only sheet where `only` says so. */
export async function filesOf(
  scenes: readonly Scene[],
  format: DrawingFormat,
  { vessel, version, date, dpi = USUAL_DPI }: FileFacts,
  load: () => Promise<HeavyWriters>,
  only = false,
): Promise<readonly DrawingFile[]> {
  switch (format) {
    case 'svg':
      return scenes.map((scene) => ({ name: `${scene.id}.svg`, content: toSvg(scene) }));
    case 'png': {
      const { toPng, fonts } = await load();
      return scenes.map((scene) => ({ name: `${scene.id}.png`, content: toPng(scene, dpi, fonts) }));
    }
    case 'pdf': {
      const { toPdf, fonts } = await load();
      const [first] = scenes;
      const title = only && first !== undefined ? first.title : `${vessel}: drawings`;
      const name = only && first !== undefined ? `${first.id}.pdf` : 'drawings.pdf';
      return [
        { name, content: await toPdf(scenes, fonts, { title, keywords: version ?? 'wireloft', date }) },
      ];
    }
  }
}
