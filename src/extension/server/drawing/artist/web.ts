/** Starts the thread that draws from the server's own web worker. A browser that allows none there draws in the server, and only SVG. */
import { URI, type FileSystemProvider } from 'langium';
import type { Fonts } from '../../../../documents/formats/fonts.js';
import { isHeavy, type Artist } from './artist.js';
import { inlineArtist } from './inline.js';
import { remoteArtist, type Done, type Job, type Thread } from './remote.js';

/** Where the parts lie that only the editor can read; it says so when it starts the server. */
export interface ArtistParts {
  readonly script: string;
  readonly regular: string;
  readonly bold: string;
}

/** As much of a web worker as is used here; the project's types are those of Node, which has none. */
interface WebWorker {
  postMessage(message: Job | { readonly fonts: Fonts }): void;
  onmessage: ((event: { readonly data: Done }) => void) | null;
  onerror: ((event: unknown) => void) | null;
}
declare const Worker: (new (url: string) => WebWorker) | undefined;

export function webArtist(files: FileSystemProvider, parts: Promise<ArtistParts | undefined>): Artist {
  return remoteArtist(
    () => startThread(files, parts),
    inlineArtist(),
    (reason) => console.error(reason),
  );
}

/** What an editor said when it started the server; it may be another editor, and say something else. */
export function readArtistParts(value: unknown): ArtistParts | undefined {
  const given =
    typeof value === 'object' && value !== null ? (value as { readonly artist?: unknown }).artist : undefined;
  if (typeof given !== 'object' || given === null) return undefined;
  const { script, regular, bold } = given as Readonly<Record<string, unknown>>;
  if (typeof script !== 'string' || typeof regular !== 'string' || typeof bold !== 'string') return undefined;
  return { script, regular, bold };
}

async function startThread(
  files: FileSystemProvider,
  given: Promise<ArtistParts | undefined>,
): Promise<Thread> {
  const parts = await given;
  if (parts === undefined || typeof Worker === 'undefined') throw new Error('No thread can be had here.');
  const text = await files.readFile(URI.parse(parts.script));
  const worker = new Worker(URL.createObjectURL(new Blob([text], { type: 'text/javascript' })));
  const face = (uri: string): Promise<Uint8Array> => files.readBinary(URI.parse(uri));
  let fonts: Promise<void> | undefined;
  const sendFonts = async (): Promise<void> => {
    worker.postMessage({ fonts: { regular: await face(parts.regular), bold: await face(parts.bold) } });
  };
  let lose: (reason: Error) => void = () => undefined;
  return {
    send: (job) => {
      if (job.work.kind === 'write' && isHeavy(job.work.wanted.format))
        (fonts ??= sendFonts()).catch((error: unknown) => lose(new Error(String(error))));
      worker.postMessage(job);
    },
    listen: (done, lost) => {
      lose = lost;
      worker.onmessage = ({ data }) => done(data);
      worker.onerror = () => lost(new Error('The thread that draws has ended.'));
    },
  };
}
