/** What is generated from the grammar, the library and the words to colour, where it goes, and whether it is current. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { libraryInputs, libraryModule } from '../embed-library.mjs';
import { textMateGrammar } from '../syntax/textmate.mjs';
import { grammarPage } from './grammar-page.mjs';
import { pgnTable, pgnTablePath } from './pgn-table.mjs';
import { at, fail, filesBelow, readIfThere, say, writeIfChanged } from './project.mjs';
import { fingerprint, isFresh, markFresh } from './stamps.mjs';

/** The folder in which every file is generated; a file there that nothing generates is an error. */
export const generatedFolder = 'src/language/generated';
const pagePath = 'docs/grammar.md';
const coloursPath = 'syntaxes/wireloft.tmLanguage.json';

/** @typedef {Map<string, string>} Outputs paths relative to the project, with forward slashes, and their texts */

const inputs = () => [
  at('langium-config.json'),
  at('package-lock.json'),
  ...filesBelow(at('src', 'language'))
    .filter((name) => name.endsWith('.langium'))
    .map((name) => at('src', 'language', name)),
  ...libraryInputs(),
  ...filesBelow(at('scripts')).map((name) => at('scripts', name)),
];

const presentOutputs = () => [
  at(pagePath),
  at(coloursPath),
  at(pgnTablePath),
  ...filesBelow(at(generatedFolder)).map((name) => at(generatedFolder, name)),
];

/** Generates anew if the grammar, the library, the generators or any generated file changed since the last time. */
export function ensureGenerated() {
  if (isFresh('generate', fingerprint([...inputs(), ...presentOutputs()]))) return;
  const before = fingerprint(inputs());
  const outputs = produce();
  for (const [path, text] of outputs) {
    if (writeIfChanged(at(path), text)) say(`generated ${path}`);
  }
  for (const name of filesBelow(at(generatedFolder))) {
    const path = `${generatedFolder}/${name}`;
    if (!outputs.has(path) && !path.endsWith('.tmp')) {
      rmSync(at(path));
      say(`removed ${path}: nothing generates it`);
    }
  }
  // An input saved while the generator ran must be seen the next time.
  if (fingerprint(inputs()) === before)
    markFresh('generate', fingerprint([...inputs(), ...presentOutputs()]));
}

/**
 * Generates everything into memory.
 * @returns {Outputs}
 */
export function produce() {
  const outputs = new Map([
    [`${generatedFolder}/library.ts`, libraryModule()],
    [coloursPath, textMateGrammar()],
    [pgnTablePath, pgnTable()],
  ]);
  const scratch = mkdtempSync(join(tmpdir(), 'wireloft-generate-'));
  try {
    generateParser(scratch);
    for (const name of ['ast.ts', 'grammar.ts', 'module.ts']) {
      outputs.set(`${generatedFolder}/${name}`, readGenerated(join(scratch, 'out', name)));
    }
    outputs.set(pagePath, grammarPage(readGenerated(join(scratch, 'grammar.ebnf'))));
  } finally {
    rmSync(scratch, { recursive: true, force: true });
  }
  return outputs;
}

/**
 * Runs Langium's generator with all output below a scratch folder: in place it would ask before it deletes
 * the files that are not its own.
 * @param {string} scratch
 */
function generateParser(scratch) {
  const config = JSON.parse(readFileSync(at('langium-config.json'), 'utf8'));
  const [language] = config.languages;
  const grammar = at(language.grammar);
  if (readIfThere(grammar) === undefined)
    fail(`${language.grammar} is missing: there is no grammar to generate from.`);
  config.out = join(scratch, 'out');
  language.grammar = grammar;
  language.bnf = { out: join(scratch, 'grammar.ebnf'), dialect: 'EBNF', comment: 'skip' };
  const configPath = join(scratch, 'langium-config.json');
  writeFileSync(configPath, JSON.stringify(config));

  const generator = at('node_modules', 'langium-cli', 'bin', 'langium.js');
  const polyfill = pathToFileURL(at('scripts', 'group-by.mjs')).href;
  const result = spawnSync(
    process.execPath,
    ['--import', polyfill, generator, 'generate', '--file', configPath],
    {
      cwd: scratch,
      encoding: 'utf8',
      env: { ...process.env, FORCE_COLOR: '0' },
    },
  );
  if (result.error) fail(`The grammar generator could not be started: ${result.error.message}`);
  // Langium prints errors and warnings on the error stream, and ends well after a warning. Here both fail.
  const complaints = result.stderr.trim();
  const ambiguous = /ambiguous alternatives/i.test(result.stdout);
  if (result.status !== 0 || complaints !== '' || ambiguous) {
    fail(`The grammar generator found problems:\n${complaints}\n${result.stdout.trim()}`);
  }
  const hints = result.stdout.split('\n').filter((line) => /:\d+:\d+ - /.test(line));
  if (hints.length > 0) fail(`The grammar generator has hints; follow them:\n${hints.join('\n')}`);
}

/**
 * @param {string} path
 * @returns {string}
 */
function readGenerated(path) {
  return readFileSync(path, 'utf8').replaceAll('\r\n', '\n').replace(/\n*$/, '\n');
}
