/** How long the terminal's program takes from its start to its end. */
import { spawnSync } from 'node:child_process';
import { median } from './figures.js';

/**
 * The median of several runs of `check` on a file or folder, in milliseconds.
 * @throws Error if the program finds errors or fails: a figure of something else would mislead
 */
export function measureCheck(program: string, path: string, runs: number): number {
  const times: number[] = [];
  // The first run brings the files into the disk's cache and is not counted.
  for (let run = 0; run <= runs; run++) {
    const start = performance.now();
    const { status, stderr } = spawnSync(process.execPath, [program, 'check', path], { encoding: 'utf8' });
    if (run > 0) times.push(performance.now() - start);
    if (status !== 0) throw new Error(`check ${path} ended with status ${String(status)}: ${stderr}`);
  }
  return median(times);
}
