/** The file beside a boat that says where her boxes stand: written by an export, and read when she is drawn for the first time. */
import { UriUtils, URI, type FileSystemProvider } from 'langium';
import { placesIn, placesName } from '../../../documents/places.js';
import type { Standing } from './artist/artist.js';
import { pack } from './artist/packed.js';

/** Where the file beside a boat says that boxes stand; undefined where it is not there, or, which is told, holds something else. */
export async function placesBeside(
  files: FileSystemProvider,
  root: string,
  tell: (text: string) => void,
): Promise<Standing> {
  const boat = URI.parse(root);
  const name = placesName(UriUtils.basename(boat));
  const uri = UriUtils.joinPath(UriUtils.dirname(boat), name);
  try {
    if (!(await files.exists(uri))) return undefined;
    const places = placesIn(await files.readFile(uri));
    if (places !== undefined) return pack(places);
    tell(
      `${name} is passed over: it holds no places that were exported, or written by "wireloft draw --places".`,
    );
  } catch (error) {
    tell(
      `${name} cannot be read, and is passed over: ${error instanceof Error ? error.message : String(error)}`,
    );
  }
  return undefined;
}
