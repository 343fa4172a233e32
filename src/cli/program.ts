/** All of the program but its process. It is a bundle of its own, which main.ts and worker.ts load. */
import '../language/polyfill.js';
import type { checkShare as Share } from './check/share.js';
import type { searchTask as Task } from './suggest/thread.js';

export { run } from './run.js';

/** What a worker of a check does. Loaded when it is called, so that no other command waits for it. */
export const checkShare: typeof Share = async (...given) =>
  (await import('./check/share.js')).checkShare(...given);

/** What the thread of a search does. */
export const searchTask: (...given: Parameters<typeof Task>) => Promise<ReturnType<typeof Task>> = async (
  ...given
) => (await import('./suggest/thread.js')).searchTask(...given);
