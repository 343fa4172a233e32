/**
 * The bundled library as a TypeScript module: the bundles, the tests and the type checker can all import that,
 * and no face has to find files beside itself.
 */
import { readFileSync } from 'node:fs';
import { at, filesBelow } from './lib/project.mjs';

const folder = at('src', 'language', 'library');

/** @returns {string[]} absolute paths of the library's files */
export const libraryInputs = () =>
  filesBelow(folder)
    .filter((name) => name.endsWith('.loft'))
    .map((name) => at('src', 'language', 'library', name));

/** @returns {string} the text of src/language/generated/library.ts */
export function libraryModule() {
  const names = filesBelow(folder).filter((name) => name.endsWith('.loft'));
  const files = names.map((name) => {
    const text = readFileSync(at('src', 'language', 'library', name), 'utf8').replaceAll('\r\n', '\n');
    const escaped = text.replace(/[\\`]|\$\{/g, '\\$&');
    return `  { name: ${JSON.stringify(name)}, text: \`${escaped}\` },\n`;
  });
  return [
    '// Generated from src/language/library by scripts/embed-library.mjs. Do not edit.\n',
    '\n',
    '/** The bundled library: each file by its path below src/language/library, with its text. */\n',
    'export const libraryFiles: readonly { readonly name: string; readonly text: string }[] = [\n',
    ...files,
    '];\n',
  ].join('');
}
