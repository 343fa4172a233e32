/** The bundles that the two faces are made of. */
import { chmodSync, existsSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { relative, sep } from 'node:path';
import { keepCompiled } from './compiled.mjs';
import { at, filesBelow, root, say, writeIfChanged } from './project.mjs';
import { fingerprint, isFresh, markFresh } from './stamps.mjs';

/**
 * `banner` goes first in every file of the bundle and `footer` last; `mode` is the file's permissions; `name` is the variable
 * that holds what an `iife` exports; `compiled` is where the compiled code is kept.
 * @typedef {{
 *   entry: string, output: string, format: 'esm' | 'cjs' | 'iife', platform: 'node' | 'browser',
 *   external?: string[], banner?: string, footer?: string, mode?: number, name?: string, compiled?: string,
 * }} Bundle
 */

/** @type {readonly Bundle[]} */
const bundles = [
  {
    entry: 'src/cli/main.ts',
    output: 'dist/cli/main.mjs',
    format: 'esm',
    platform: 'node',
    banner: '#!/usr/bin/env node',
    mode: 0o755,
  },
  {
    entry: 'src/cli/worker.ts',
    output: 'dist/cli/worker.mjs',
    format: 'esm',
    platform: 'node',
  },
  {
    // Not a module but a script, since Node.js 20 keeps compiled code of scripts only: see src/cli/load.ts.
    entry: 'src/cli/program.ts',
    output: 'dist/cli/program.js',
    format: 'iife',
    platform: 'node',
    name: 'program',
    banner: '(function (require) {',
    footer: 'return program; })',
    compiled: 'dist/cli/program.compiled',
  },
  {
    entry: 'src/cli/draw/writers.ts',
    output: 'dist/cli/writers.mjs',
    format: 'esm',
    platform: 'node',
    // A package of the older kind asks for built-in modules by `require`.
    banner:
      "import { createRequire as requireFrom } from 'node:module';const require = requireFrom(import.meta.url);",
  },
  {
    entry: 'src/cli/suggest/highs.ts',
    output: 'dist/cli/solver.mjs',
    format: 'esm',
    platform: 'node',
  },
  {
    entry: 'src/extension/main.ts',
    output: 'dist/extension/main.cjs',
    format: 'cjs',
    platform: 'node',
    external: ['vscode'],
  },
  {
    entry: 'src/extension/server/main.ts',
    output: 'dist/extension/server.cjs',
    format: 'cjs',
    platform: 'node',
  },
  {
    entry: 'src/extension/server/drawing/artist/thread.ts',
    output: 'dist/extension/artist.cjs',
    format: 'cjs',
    platform: 'node',
  },
  {
    entry: 'src/extension/server/drawing/artist/webThread.ts',
    output: 'dist/extension/artist.js',
    format: 'iife',
    platform: 'browser',
  },
  {
    entry: 'src/extension/server/thinkerThread.ts',
    output: 'dist/extension/thinker.cjs',
    format: 'cjs',
    platform: 'node',
  },
  {
    entry: 'src/extension/web.ts',
    output: 'dist/extension/web.cjs',
    format: 'cjs',
    platform: 'browser',
    external: ['vscode'],
  },
  {
    entry: 'src/extension/server/worker.ts',
    output: 'dist/extension/worker.js',
    format: 'iife',
    platform: 'browser',
  },
  {
    entry: 'src/extension/page/main.ts',
    output: 'dist/extension/preview.js',
    format: 'iife',
    platform: 'browser',
  },
];

/**
 * The build of pdfkit for browsers serves everywhere: that for Node.js compresses by the machine's own library, whose bytes differ from
 * one release of Node.js to the next.
 */
const oneCode = { pdfkit: at('node_modules', 'pdfkit', 'js', 'pdfkit.browser.mjs') };

/** What a bundle reads beside itself: the fonts that drawings embed, and the solver's code. */
const copied = [
  ...['DejaVuSansCondensed.ttf', 'DejaVuSansCondensed-Bold.ttf'].flatMap((name) =>
    ['cli', 'extension'].map((face) => ({
      from: `node_modules/dejavu-fonts-ttf/ttf/${name}`,
      output: `dist/${face}/fonts/${name}`,
    })),
  ),
  ...['cli', 'extension'].map((face) => ({
    from: 'node_modules/highs/build/highs.wasm',
    output: `dist/${face}/highs.wasm`,
  })),
];

const notices = 'dist/THIRD-PARTY-NOTICES.txt';

/** Packages that are not bundled themselves, and whose data is: see pgn-table.mjs and the fonts. */
const derived = ['node_modules/@canboat/pgns', 'node_modules/dejavu-fonts-ttf'];

const inputs = () => [
  at('package-lock.json'),
  at('tsconfig.json'),
  ...filesBelow(at('src')).map((name) => at('src', name)),
  ...filesBelow(at('scripts')).map((name) => at('scripts', name)),
];
const outputs = () => filesBelow(at('dist')).map((name) => at('dist', name));

/** Bundles everything if a source file or a bundle changed since the last time. */
export async function ensureBuilt() {
  if (isFresh('build', fingerprint([...inputs(), ...outputs()]))) return;
  const before = fingerprint(inputs());
  const { build } = await import('esbuild');
  /** @type {Set<string>} */
  const written = new Set([notices]);
  /** @type {Set<string>} */
  const packages = new Set();
  for (const bundle of bundles) {
    if (!existsSync(at(bundle.entry))) {
      say(`${bundle.output} is not built: there is no ${bundle.entry} yet.`);
      continue;
    }
    const result = await build(buildOptions(bundle));
    for (const input of Object.keys(result.metafile.inputs)) {
      const name = packageOf(input);
      if (name !== undefined) packages.add(name);
    }
    for (const file of result.outputFiles) {
      const path = relative(root, file.path).split(sep).join('/');
      written.add(path);
      if (writeIfChanged(file.path, file.contents))
        say(`built ${path} (${String(Math.ceil(file.contents.length / 1024))} KB)`);
      if (bundle.mode !== undefined && path === bundle.output) chmodSync(file.path, bundle.mode);
    }
    if (bundle.compiled !== undefined) {
      written.add(bundle.compiled);
      keepCompiled(at(bundle.output), at(bundle.compiled));
    }
  }
  for (const { from, output } of copied) {
    written.add(output);
    if (writeIfChanged(at(output), readFileSync(at(from)))) say(`copied ${output}`);
  }
  writeIfChanged(at(notices), noticesText([...packages, ...derived].sort()));
  for (const path of filesBelow(at('dist')).map((name) => `dist/${name}`)) {
    if (!written.has(path) && !path.endsWith('.tmp')) rmSync(at(path));
  }
  // A source file saved during the build must be seen the next time.
  if (fingerprint(inputs()) === before) markFresh('build', fingerprint([...inputs(), ...outputs()]));
}

/**
 * @param {Bundle} bundle
 * @returns {import('esbuild').BuildOptions & { metafile: true, write: false }}
 */
function buildOptions(bundle) {
  const folder = bundle.output.slice(0, bundle.output.lastIndexOf('/'));
  const extension = bundle.output.slice(bundle.output.lastIndexOf('.'));
  const name = bundle.output.slice(folder.length + 1, -extension.length);
  return {
    absWorkingDir: root,
    entryPoints: [{ in: bundle.entry, out: name }],
    outdir: folder,
    outExtension: { '.js': extension },
    chunkNames: 'chunks/[name]-[hash]',
    bundle: true,
    // What a command does not need stays in a chunk of its own and is not loaded.
    splitting: bundle.format === 'esm',
    format: bundle.format,
    platform: bundle.platform,
    target: bundle.platform === 'node' ? 'node20.19' : 'es2022',
    // The module build of a package bundles smaller than its older one.
    mainFields: bundle.platform === 'node' ? ['module', 'main'] : ['browser', 'module', 'main'],
    inject: [at('src/language/polyfill.ts')],
    alias: oneCode,
    // A script has no address of its own; pdfkit wants one for a colour profile that it then does not read.
    ...(bundle.format === 'esm' ? {} : { define: { 'import.meta.url': '"file:///"' } }),
    ...(bundle.external ? { external: bundle.external } : {}),
    ...(bundle.banner ? { banner: { js: bundle.banner } } : {}),
    ...(bundle.footer ? { footer: { js: bundle.footer } } : {}),
    ...(bundle.name ? { globalName: bundle.name } : {}),
    minify: true,
    legalComments: 'none',
    metafile: true,
    write: false,
    logLevel: 'warning',
  };
}

/**
 * @param {string} input a path in the bundler's list of inputs
 * @returns {string | undefined} the folder of the package it belongs to, relative to the project
 */
function packageOf(input) {
  return /^(?:.*\/)?node_modules\/(?:@[^/]+\/)?[^/]+/.exec(input)?.[0];
}

/**
 * The licences of everything bundled, as those licences ask.
 * @param {readonly string[]} packages
 */
function noticesText(packages) {
  const sections = packages.map((path) => {
    const manifest = JSON.parse(readFileSync(at(path, 'package.json'), 'utf8'));
    const licence = readdirSync(at(path)).find((name) => /^(licen[cs]e|copying)/i.test(name));
    const text =
      licence === undefined ? licenceText(path, manifest) : readFileSync(at(path, licence), 'utf8').trim();
    return `${manifest.name} ${manifest.version}\n\n${text}\n`;
  });
  const rule = `\n${'-'.repeat(80)}\n\n`;
  return `The bundles of Wireloft contain the following packages.\n${rule}${sections.join(rule)}`;
}

/**
 * What stands for the licence of a package that brings no file of it: its copyright, and the text of the licence that it names.
 * @param {string} path
 * @param {{ license: string }} manifest
 */
function licenceText(path, manifest) {
  const full = at('scripts', 'licences', `${manifest.license}.txt`);
  const text = existsSync(full) ? readFileSync(full, 'utf8').trim() : `Licence: ${manifest.license}`;
  const table = at(path, 'canboat.json');
  const copyright = existsSync(table)
    ? `${JSON.parse(readFileSync(table, 'utf8')).Copyright.trim()}\n\n`
    : '';
  return `${copyright}${text}`;
}
