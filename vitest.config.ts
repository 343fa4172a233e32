import { defineConfig, type Plugin } from 'vitest/config';

/**
 * Lets the tests run the parser with its own checks on: the generated module switches them off, and with them
 * the report of ambiguous alternatives that tests/setup.ts waits for.
 */
const parserChecksOn: Plugin = {
  name: 'wireloft-parser-checks-on',
  enforce: 'pre',
  transform(code: string, id: string): string | undefined {
    if (!id.endsWith('/src/language/generated/module.ts')) return undefined;
    const changed = code.replace("mode: 'production'", "mode: 'development'");
    if (changed === code) throw new Error(`${id} does not set its mode as expected`);
    return changed;
  },
};

export default defineConfig({
  plugins: [parserChecksOn],
  // As in the bundles: see scripts/lib/bundles.mjs.
  resolve: {
    alias: { pdfkit: new URL('node_modules/pdfkit/js/pdfkit.browser.mjs', import.meta.url).pathname },
  },
  test: {
    include: ['tests/**/*.test.ts'],
    exclude: ['tests/editor/workbench/**'],
    setupFiles: ['tests/setup.ts'],
    // Child processes and random tests on a slow machine; a hang still ends.
    testTimeout: 120_000,
    // Worker threads start faster than processes, and no test changes the process.
    pool: 'threads',
    // One of two processors would stand idle otherwise.
    maxWorkers: '100%',
  },
});
