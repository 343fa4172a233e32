/** The entry of the thread that thinks of vessels: one after the other, each until it is done or dropped. */
import '../../language/polyfill.js';
import { parentPort, workerData } from 'node:worker_threads';
import highs, { type Highs } from 'highs';
import { solverOf } from '../../checks/design/highs.js';
import { thoughtOf } from '../../checks/design/thought.js';
import type { Answered, Asked } from './thinker.js';

/** The package's types describe its older build, where the loader is a member; the module that is loaded is the loader. */
const load = highs as unknown as (options: { readonly locateFile: () => string }) => Promise<Highs>;
/** A design that takes longer than this, in ms, is not worth a processor; "wireloft suggest" has the time. */
const LONGEST = 30_000;

const { wasm } = workerData as { readonly wasm: string };
const solver = load({ locateFile: () => wasm }).then(solverOf);

parentPort?.on('message', ({ id, vessel, today, dropped }: Asked) => {
  void answer();
  async function answer(): Promise<void> {
    const isDropped = (): boolean => Atomics.load(dropped, 0) !== 0;
    const tell = (answered: Answered): void => parentPort?.postMessage(answered);
    try {
      const solve = await solver;
      const until = Date.now() + LONGEST;
      const stopped = (): boolean => isDropped() || Date.now() > until;
      tell({ id, thought: isDropped() ? undefined : thoughtOf(vessel, solve, today, stopped) });
    } catch {
      // What cannot be thought of is not told; the checks themselves are another thread's.
      tell({ id, thought: undefined });
    }
  }
});
