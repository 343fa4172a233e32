/** A worker's entry: checks its share of the files with the very program that the terminal runs. */
import { parentPort, workerData } from 'node:worker_threads';
import type { ShareTask } from './check/share.js';
import type { Told } from './check/threads.js';
import { loadProgram } from './load.js';

const tell = (told: Told): void => {
  parentPort?.postMessage(told);
};

const { checkShare } = loadProgram(
  new URL('program.js', import.meta.url),
  new URL('program.compiled', import.meta.url),
);
const share = await checkShare(workerData as ShareTask, (checked) => {
  tell({ checked });
});
tell({ share });
