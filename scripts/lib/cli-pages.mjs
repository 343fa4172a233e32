/** The pages about the terminal program, as they must stand in docs: made by the program's own code, laid out by the formatter. */
import { build } from 'esbuild';
import { format, resolveConfig } from 'prettier';
import { at } from './project.mjs';

/** @typedef {ReadonlyMap<string, string>} Pages paths relative to the project, and texts */

/**
 * What the program says of itself.
 * @returns {Promise<Pages>}
 */
export async function producePages() {
  const bundled = await build({
    entryPoints: [at('src', 'cli', 'documentation', 'pages.ts')],
    bundle: true,
    platform: 'node',
    format: 'esm',
    // What the commands load when they run is not needed to read their help.
    packages: 'external',
    external: ['./run.js'],
    write: false,
    logLevel: 'warning',
  });
  const source = bundled.outputFiles[0]?.contents ?? new Uint8Array();
  const module = await import(`data:text/javascript;base64,${Buffer.from(source).toString('base64')}`);
  return module.pages();
}

/**
 * The pages in the layout that the formatter of this repository gives them.
 * @param {Pages} pages
 * @returns {Promise<Pages>}
 */
export async function layOutPages(pages) {
  /** @type {Map<string, string>} */
  const laidOut = new Map();
  for (const [path, text] of pages) {
    const config = await resolveConfig(at(path));
    laidOut.set(path, await format(text, { ...config, filepath: at(path) }));
  }
  return laidOut;
}
