/** What the tests in a workbench share: the packaged extension, the boat that they open, and how a step is taken. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { it } from 'node:test';
import { project } from './paths.mjs';
import { patience } from './workbench.mjs';

const manifest = JSON.parse(readFileSync(join(project, 'package.json'), 'utf8'));

/** The packaged extension, and what an editor knows it by. */
export const vsix = join(project, 'out', `wireloft-${manifest.version}.vsix`);
export const id = `${manifest.publisher}.${manifest.name}`;

/**
 * Steps on the boat Kittiwake in a workbench, which is asked for when a step begins.
 * @param {() => import('./workbench.mjs').Workbench} bench
 */
export function stepsOn(bench) {
  const text = readFileSync(join(project, 'examples', 'kittiwake', 'kittiwake.loft'), 'utf8').split('\n');

  /**
   * The first line, counted from one, that a pattern matches.
   * @param {RegExp} pattern
   */
  const lineOf = (pattern) => {
    const index = text.findIndex((line) => pattern.test(line));
    assert.notEqual(index, -1, `no line matches ${String(pattern)}`);
    return index + 1;
  };

  /**
   * Puts the cursor into a word of the first line that a pattern matches.
   * @param {RegExp} pattern
   * @param {string} word
   */
  const goTo = (pattern, word) => {
    const line = lineOf(pattern);
    return bench().go(line, (text[line - 1] ?? '').indexOf(word) + 2);
  };

  /** @type {string | undefined} */
  let failed;

  /**
   * A step, with a picture of what went wrong. It works on what those before it left, so after one that failed it is not tried.
   * @param {string} name
   * @param {() => Promise<void>} body
   */
  const step = (name, body) =>
    it(name, { timeout: 5 * patience }, async () => {
      assert.equal(failed, undefined, 'a step before it failed');
      try {
        await body();
      } catch (error) {
        failed = name;
        await bench().picture(`failed-${name.replace(/\W+/g, '-')}`);
        throw error;
      }
    });

  return { lineOf, goTo, step };
}
