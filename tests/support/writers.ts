/** The writers of the heavier formats, with the fonts as the packages lie here. */
import { join } from 'node:path';
import type { Writers } from '../../src/cli/terminal/writers.js';

const fonts = join(import.meta.dirname, '..', '..', 'node_modules', 'dejavu-fonts-ttf', 'ttf');

export const FONT_FILES = {
  regular: join(fonts, 'DejaVuSansCondensed.ttf'),
  bold: join(fonts, 'DejaVuSansCondensed-Bold.ttf'),
} as const;

export const WRITERS: Writers = {
  load: () => import('../../src/cli/draw/writers.js'),
  fontFiles: FONT_FILES,
};
