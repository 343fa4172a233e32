/** Starts the thread that draws, under Node.js. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import { threadsBeside } from '../../threads.js';
import type { Artist } from './artist.js';
import { inlineArtist } from './inline.js';
import { remoteArtist, type Done, type Thread } from './remote.js';

/**
 * @param program - The path of the running program: the extension's server and the terminal program both lie in a folder beside that
 * of the thread.
 */
export function threadedArtist(program: string): Artist {
  const folder = threadsBeside(program);
  const file = join(folder, 'artist.cjs');
  return existsSync(file)
    ? remoteArtist(
        () => Promise.resolve(startThread(file, folder)),
        inlineArtist(),
        (reason) => console.error(reason),
      )
    : inlineArtist();
}

function startThread(file: string, folder: string): Thread {
  const worker = new Worker(file, { workerData: folder });
  // The server ends when its editor does, whatever is being drawn.
  worker.unref();
  return {
    send: (job) => worker.postMessage(job),
    listen: (done, lost) => {
      worker.on('message', (answer: Done) => done(answer));
      worker.on('error', (error) => lost(error instanceof Error ? error : new Error(String(error))));
      worker.on('exit', () => lost(new Error('The thread that draws has ended.')));
    },
  };
}
