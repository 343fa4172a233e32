/** The side file with the places of boxes, which is kept beside the spec so that the next drawing leaves them where they are. */
import { readFile } from 'node:fs/promises';
import { resolve } from 'node:path';
import type { PaperName } from '../documents/frame/paper.js';
import { placesIn } from '../documents/places.js';
import type { KeptPlaces } from '../documents/sheet.js';
import { systemMessage } from './files/write.js';
import { quoted } from './terminal/arguments.js';
import type { Invocation, Option } from './terminal/command.js';
import { printable } from './terminal/printable.js';
import { UsageError, type World } from './terminal/world.js';

/** For what draws the boat beside something else: only `draw` writes places. */
export const PLACES_OPTION: Option = {
  name: 'places',
  value: 'FILE',
  text: 'Draws boxes where this file says that they stand, as "wireloft draw --places" wrote it, so that they are where they are on the drawings that are aboard. The file is not changed.',
};

/**
 * The places that were given; undefined where none were.
 * @throws UsageError where the file is not there or holds something else
 */
export async function givenPlaces(
  invocation: Invocation,
  paper: PaperName,
  world: World,
): Promise<KeptPlaces | undefined> {
  const written = invocation.value('places');
  if (written === undefined) return undefined;
  const places = await readPlaces(resolve(world.folder, written), written);
  if (places === undefined)
    throw new UsageError(
      `--places ${quoted(written)} is not there. "wireloft draw --places ${printable(written)}" writes it.`,
    );
  const papers = [...new Set(Object.values(places).map((kept) => kept.paper))];
  if (papers.length > 0 && !papers.includes(paper))
    world.error.write(
      `wireloft: the places in ${quoted(written)} are for ${papers.map(printable).join(' and ')}, so what is drawn on ${paper} is laid out anew.\n`,
    );
  return places;
}

/**
 * Reads places; none where the file is not there yet.
 * @throws UsageError where it holds something else
 */
export async function readPlaces(path: string, written: string): Promise<KeptPlaces | undefined> {
  let text: string;
  try {
    text = await readFile(path, 'utf8');
  } catch (error) {
    if (error instanceof Error && 'code' in error && error.code === 'ENOENT') return undefined;
    const reason = systemMessage(error);
    if (reason === undefined) throw error;
    throw new UsageError(`--places ${quoted(written)} cannot be read: ${reason}.`);
  }
  const places = placesIn(text);
  if (places === undefined)
    throw new UsageError(
      `--places ${quoted(written)} holds no places that "wireloft draw" wrote. Give another file, or remove it to begin anew.`,
    );
  return places;
}
