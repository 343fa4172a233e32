import { readFile } from 'node:fs/promises';
import type { Fonts } from '../../documents/formats/fonts.js';
import type { World } from '../terminal/world.js';

/** The two faces that drawings are written in. */
export async function fontsOf({ writers: { fontFiles } }: Pick<World, 'writers'>): Promise<Fonts> {
  const [regular, bold] = await Promise.all([readFile(fontFiles.regular), readFile(fontFiles.bold)]);
  return { regular, bold };
}
