/** One check by several threads: this one does a share, and a worker does each of the others. */
import { Worker } from 'node:worker_threads';
import type { CheckedShare } from './checked.js';
import { checkShare, type ShareTask } from './share.js';

/** What a worker sends: how far it is, and in the end what it found. */
export type Told = { readonly checked: number } | { readonly share: CheckedShare };

/** Check each share in a thread of its own, the first in this one. `checked` is told how many vessels are done in all. */
export async function checkInThreads(
  tasks: readonly ShareTask[],
  worker: URL,
  checked: (vessels: number) => void,
): Promise<readonly CheckedShare[]> {
  const done = tasks.map(() => 0);
  const note = (at: number, vessels: number): void => {
    done[at] = vessels;
    checked(done.reduce((sum, one) => sum + one, 0));
  };
  const [own, ...others] = tasks;
  const threads: Worker[] = [];
  try {
    const found = others.map((task, index) => {
      const thread = new Worker(worker, { workerData: task });
      threads.push(thread);
      return resultOf(thread, (vessels) => {
        note(index + 1, vessels);
      });
    });
    const mine =
      own === undefined
        ? []
        : [
            checkShare(own, (vessels) => {
              note(0, vessels);
            }),
          ];
    return await Promise.all([...mine, ...found]);
  } finally {
    // Where one failed, the others have nothing to work for.
    await Promise.all(threads.map((thread) => thread.terminate()));
  }
}

/** What a worker finds; its error where it fails, so that it is reported like one of this thread's. */
function resultOf(thread: Worker, checked: (vessels: number) => void): Promise<CheckedShare> {
  return new Promise((resolve, reject) => {
    thread.on('message', (told: Told) => {
      if ('share' in told) resolve(told.share);
      else checked(told.checked);
    });
    thread.on('error', reject);
    thread.on('exit', (code) => {
      reject(new Error(`a thread of the check ended with ${code} before it was done`));
    });
  });
}
