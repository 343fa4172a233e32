/** Puts the language on a connection. */
import type { FileSystemProvider, URI } from 'langium';
import type { Connection } from 'vscode-languageserver';
import { createEditorServices, type EditorSharedServices } from '../../language/editor/module.js';
import { serve } from '../../language/editor/server.js';
import type { Closure } from '../../language/naming/closures.js';
import type { Artist } from './drawing/artist/artist.js';
import { inlineArtist } from './drawing/artist/inline.js';
import type { Thinker } from '../../language/editor/thoughts.js';
import { serveDrawings } from './drawing/serve.js';

export interface ServerOptions {
  readonly fileSystemProvider: () => FileSystemProvider;
  /** Address of a rule's page, where the face has the pages. */
  readonly rulePage?: (rule: string) => string | undefined;
  /** Where the face can start threads. */
  readonly thinker?: Thinker | undefined;
  /** Why a file that is there may not be used within a root, where the face has a disk. */
  readonly refusal?: (uri: URI, root: URI) => string | undefined;
  /** The revision of a boat that names none, where the face knows it. */
  readonly revision?: (closure: Closure) => Promise<string | undefined>;
  /** Who draws; the server itself, where the face knows nobody better. */
  readonly artist?: Artist;
}

/** Serves an editor until the connection ends. Waivers expire by this machine's date. */
export function startServer(connection: Connection, options: ServerOptions): EditorSharedServices {
  const { shared } = createEditorServices(
    { connection, fileSystemProvider: options.fileSystemProvider },
    { today, rulePage: options.rulePage ?? (() => undefined), refusal: options.refusal },
  );
  serveDrawings(
    connection,
    shared,
    options.artist ?? inlineArtist(),
    options.revision ?? (() => Promise.resolve(undefined)),
  );
  serve(connection, shared, options.thinker);
  return shared;
}

/** The local date, ISO 8601. */
function today(): string {
  const now = new Date();
  const two = (value: number): string => String(value).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}
