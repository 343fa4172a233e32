/** A worker's entry: checks its share of the files, or searches for designs, with the very program that the terminal runs. */
import { parentPort, workerData } from 'node:worker_threads';
import type { ShareTask } from './check/share.js';
import type { Told } from './check/threads.js';
import { loadProgram } from './load.js';
import { bundledSolver } from './suggest/bundled.js';
import type { SearchTask, SearchTold } from './suggest/thread.js';

const tell = (told: Told | SearchTold): void => {
  parentPort?.postMessage(told);
};

const { checkShare, searchTask } = loadProgram(
  new URL('program.js', import.meta.url),
  new URL('program.compiled', import.meta.url),
);
const task = workerData as ShareTask | SearchTask;
if ('files' in task)
  tell({
    share: await checkShare(task, (checked) => {
      tell({ checked });
    }),
  });
else
  tell({
    searched: await searchTask(task, await bundledSolver(import.meta.url), (design) => {
      tell({ design });
    }),
  });
