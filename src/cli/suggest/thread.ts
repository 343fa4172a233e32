/** The search in a thread of its own, so that Ctrl-C is heard while the solver works; what crosses between the two is plain data. */
import { Worker } from 'node:worker_threads';
import type { Keep } from '../../checks/design/build.js';
import type { Design } from '../../checks/design/design.js';
import { search, type Nothing } from '../../checks/design/search.js';
import type { Solver } from '../../checks/design/solver.js';
import type { Vessel } from '../../vessel/model.js';

export interface SearchTask {
  readonly vessel: Vessel;
  readonly today: string;
  readonly best: number;
  readonly keep: Keep;
  /** Not nought once the reader has had enough. */
  readonly stop: Int32Array<SharedArrayBuffer>;
}

/** What was found, from the cheapest on. */
export interface Searched {
  readonly designs: readonly Design[];
  readonly nothing: Nothing | undefined;
  readonly stopped: boolean;
}

/** What the thread sends: each design as it is found, and in the end all of it. */
export type SearchTold = { readonly design: Design } | { readonly searched: Searched };

export function searchTask(
  { vessel, today, best, keep, stop }: SearchTask,
  solver: Solver,
  found: (design: Design) => void,
): Searched {
  const { offers, nothing, stopped } = search(vessel, solver, {
    today,
    best,
    keep,
    stopped: () => Atomics.load(stop, 0) !== 0,
    progress: (offer) => {
      found(offer.design);
    },
  });
  return { designs: offers.map(({ design }) => design), nothing, stopped };
}

/** So long, in ms, the solver has for its last word once it is told to stop. */
const LAST_WORD = 3_000;

/**
 * Runs the search in a thread. `interrupted` registers what to do when the reader has had enough, and gives what takes that back; the
 * first time the search is told to stop, the second time it is not waited for any more.
 */
export function searchInThread(
  task: Omit<SearchTask, 'stop'>,
  worker: URL,
  found: (count: number) => void,
  interrupted: (act: () => void) => () => void,
): Promise<Searched> {
  const stop = new Int32Array(new SharedArrayBuffer(Int32Array.BYTES_PER_ELEMENT));
  const thread = new Worker(worker, { workerData: { ...task, stop } satisfies SearchTask });
  const designs: Design[] = [];
  return new Promise<Searched>((resolve, reject) => {
    let timer: ReturnType<typeof setTimeout> | undefined;
    const giveUp = (): void => {
      resolve({ designs, nothing: undefined, stopped: true });
    };
    const free = interrupted(() => {
      if (Atomics.exchange(stop, 0, 1) !== 0) giveUp();
      else timer = setTimeout(giveUp, LAST_WORD);
    });
    thread.on('message', (told: SearchTold) => {
      if ('searched' in told) resolve(told.searched);
      else found(designs.push(told.design));
    });
    thread.on('error', reject);
    thread.on('exit', (code) => {
      reject(new Error(`the search ended with ${code} before it was done`));
    });
    thread.on('exit', free);
    thread.on('exit', () => clearTimeout(timer));
  }).finally(() => thread.terminate());
}
