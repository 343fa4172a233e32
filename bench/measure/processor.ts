/** Time that a process spent on a core, which doesn't grow when the machine is busy with something else. */
import { readFileSync } from 'node:fs';

/** Milliseconds that the main thread of a process has run; undefined where the system (it must be Linux) doesn't tell. */
export function processorTime(pid: number | 'self'): number | undefined {
  try {
    // Nanoseconds on a core, nanoseconds waiting for one, number of turns.
    const nanoseconds = Number(readFileSync(`/proc/${pid}/schedstat`, 'utf8').split(' ')[0]);
    return Number.isFinite(nanoseconds) ? nanoseconds / 1e6 : undefined;
  } catch {
    return undefined;
  }
}
