/** `npm run package`: the extension as out/wireloft-VERSION.vsix, with everything it needs bundled. */
import { existsSync, mkdirSync, readFileSync } from 'node:fs';
import { ensureBuilt } from './lib/bundles.mjs';
import { ensureGenerated } from './lib/generated.mjs';
import { ensureInstalled } from './lib/install.mjs';
import { at, fail, say } from './lib/project.mjs';
import { zipNames } from './lib/zip.mjs';

// The solver of mixed-integer programs is more than a million of these.
const mostBytes = 4_500_000;

ensureInstalled();
ensureGenerated();
await ensureBuilt();

const manifest = JSON.parse(readFileSync(at('package.json'), 'utf8'));
const { contributes } = manifest;
/** @type {string[]} every file that the manifest promises, the servers that the clients start, and the script of their page */
const promised = [
  manifest.main,
  manifest.browser,
  manifest.icon,
  ...(contributes.languages ?? []).flatMap((/** @type {any} */ it) => [
    it.configuration,
    it.icon?.light,
    it.icon?.dark,
  ]),
  ...(contributes.grammars ?? []).map((/** @type {any} */ it) => it.path),
  ...(contributes.snippets ?? []).map((/** @type {any} */ it) => it.path),
  'dist/extension/server.cjs',
  'dist/extension/thinker.cjs',
  'dist/extension/highs.wasm',
  'dist/extension/worker.js',
  'dist/extension/preview.js',
  'dist/extension/artist.cjs',
  'dist/extension/artist.js',
  'dist/extension/fonts/DejaVuSansCondensed.ttf',
  'dist/extension/fonts/DejaVuSansCondensed-Bold.ttf',
  'dist/THIRD-PARTY-NOTICES.txt',
]
  .filter((path) => path !== undefined)
  .map((path) => path.replace(/^\.\//, ''));
const missing = promised.filter((path) => !existsSync(at(path)));
if (missing.length > 0) fail(`The extension cannot be packaged without ${missing.join(', ')}.`);

const { createVSIX } = await import('@vscode/vsce');
mkdirSync(at('out'), { recursive: true });
const name = `out/wireloft-${manifest.version}.vsix`;
await createVSIX({
  cwd: at(),
  packagePath: at(name),
  dependencies: false,
  allowMissingRepository: true,
  rewriteRelativeLinks: false,
});

const bytes = readFileSync(at(name));
const names = zipNames(bytes);
const lost = promised.filter(
  (path) => !names.some((entry) => entry.toLowerCase() === `extension/${path}`.toLowerCase()),
);
if (lost.length > 0) fail(`${name} lacks ${lost.join(', ')}: see .vscodeignore.`);
const stray = names.filter((entry) => /(?:^|\/)(?:node_modules|src|tests|scripts)\//.test(entry));
if (stray.length > 0) fail(`${name} holds files it does not need: ${stray.slice(0, 5).join(', ')}.`);
if (bytes.length > mostBytes)
  fail(`${name} has ${String(bytes.length)} bytes, more than ${String(mostBytes)}.`);
say(`${name}: ${String(names.length)} files, ${String(Math.ceil(bytes.length / 1024))} KB`);
