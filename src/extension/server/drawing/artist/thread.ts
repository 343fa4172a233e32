/** The thread that draws, under Node.js. The fonts lie beside its bundle. */
import '../../../../language/polyfill.js';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { parentPort, workerData } from 'node:worker_threads';
import type { Job } from './remote.js';
import { serveArtist } from './serve.js';

const folder: unknown = workerData;
const face = (name: string): Promise<Uint8Array> =>
  readFile(join(typeof folder === 'string' ? folder : '.', 'fonts', `${name}.ttf`));
const take = serveArtist(
  (done, bytes) => parentPort?.postMessage(done, bytes),
  async () => ({
    regular: await face('DejaVuSansCondensed'),
    bold: await face('DejaVuSansCondensed-Bold'),
  }),
);
parentPort?.on('message', (job: Job) => void take(job));
