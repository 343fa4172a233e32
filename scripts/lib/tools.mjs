/** Bundles programs of this project that are run once and not shipped: the benchmark, a judge. */
import { at, root } from './project.mjs';

/**
 * @param {string} outdir a folder of the project, with forward slashes
 * @param {{ in: string, out: string }[]} entryPoints
 * @param {import('esbuild').BuildOptions} [more]
 */
export async function bundleTools(outdir, entryPoints, more) {
  const { build } = await import('esbuild');
  await build({
    absWorkingDir: root,
    entryPoints,
    outdir,
    outExtension: { '.js': '.mjs' },
    bundle: true,
    format: 'esm',
    platform: 'node',
    target: 'node20.19',
    mainFields: ['module', 'main'],
    inject: [at('src/language/polyfill.ts')],
    banner: {
      js: "import { createRequire as __createRequire } from 'node:module'; const require = __createRequire(import.meta.url);",
    },
    logLevel: 'warning',
    ...more,
  });
}
