/**
 * Remembers what a step was last run on, so that running it again is quick. Content decides, never a file's
 * time: a fresh clone gives every file the same time.
 */
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { at, readIfThere, writeIfChanged } from './project.mjs';

/**
 * @param {readonly string[]} paths absolute paths; a missing file counts as a state of its own
 * @returns {string} a hash of their names and contents
 */
export function fingerprint(paths) {
  const hash = createHash('sha256');
  for (const path of [...paths].sort()) {
    hash.update(path).update('\0');
    try {
      hash.update(readFileSync(path));
    } catch {
      hash.update('missing');
    }
    hash.update('\0');
  }
  return hash.digest('hex');
}

/** @param {string} step */
const stampPath = (step) => at('node_modules', '.cache', 'wireloft', `${step}.stamp`);

/**
 * @param {string} step
 * @param {string} state
 */
export const isFresh = (step, state) => readIfThere(stampPath(step)) === state;

/**
 * @param {string} step
 * @param {string} state
 */
export const markFresh = (step, state) => writeIfChanged(stampPath(step), state);
