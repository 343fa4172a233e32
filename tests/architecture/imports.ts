/** Finds imports that go against the direction of the architecture, and files that have grown too long. */
import { builtinModules } from 'node:module';
import { posix } from 'node:path';
import ts from 'typescript';

/** A source file by its path relative to the project, with forward slashes. */
export interface SourceFile {
  readonly path: string;
  readonly text: string;
}

const longestFile = 500;
const generated = 'src/language/generated/';

/** What each folder of src may import from: itself and the floors below. */
const floors: Readonly<Record<string, readonly string[]>> = {
  vessel: ['vessel'],
  checks: ['checks', 'vessel'],
  language: ['language', 'checks', 'vessel'],
  documents: ['documents', 'checks', 'vessel'],
  cli: ['cli', 'language', 'documents', 'checks', 'vessel'],
  extension: ['extension', 'language', 'documents', 'checks', 'vessel'],
};

/** The one module that both faces start: a terminal serves any editor with the extension's own server. */
const sharedByFaces = 'src/extension/server/';

/** The floors that know nothing of the parser, the editor, files or processes. */
const pure = new Set(['vessel', 'checks', 'documents']);
const parserOrEditor = /^(?:langium|chevrotain|vscode|@chevrotain|@vscode)(?:$|[-/])/;
const builtins = new Set(builtinModules);

/** Every module that a file imports or re-exports, types included, static or not. */
export function importsOf(text: string): readonly string[] {
  return ts.preProcessFile(text, true, true).importedFiles.map((file) => file.fileName);
}

/** One sentence for each import of `file` that the architecture does not allow. */
export function importProblems(file: SourceFile): readonly string[] {
  const floor = floorOf(file.path);
  if (floor === undefined) return [];
  const allowed = floors[floor];
  if (allowed === undefined) return [`${file.path}: src/${floor} is no folder of the architecture`];
  return importsOf(file.text).flatMap((name) => {
    const reason = name.startsWith('.')
      ? relativeProblem(file.path, name, allowed)
      : packageProblem(file.path, name);
    return reason === undefined ? [] : [`${file.path} imports ${name}: ${reason}`];
  });
}

function relativeProblem(path: string, name: string, allowed: readonly string[]): string | undefined {
  const target = posix.normalize(posix.join(posix.dirname(path), name));
  const floor = floorOf(target);
  if (floor === undefined) return 'src imports only from src';
  if (allowed.includes(floor)) return undefined;
  if (floorOf(path) === 'cli' && target.startsWith(sharedByFaces)) return undefined;
  return `src/${floorOf(path) ?? ''} may import from ${allowed.map((folder) => `src/${folder}`).join(', ')} only`;
}

function packageProblem(path: string, name: string): string | undefined {
  const floor = floorOf(path) ?? '';
  if (name === 'vscode' || name.startsWith('vscode-languageclient')) {
    const client = path.startsWith('src/extension/') && !path.startsWith(sharedByFaces);
    return client ? undefined : 'only the client part of src/extension runs inside the editor';
  }
  if (!pure.has(floor)) return undefined;
  if (parserOrEditor.test(name)) return `src/${floor} knows neither the parser nor the editor`;
  if (name.startsWith('node:') || builtins.has(name)) return `src/${floor} knows neither files nor processes`;
  return undefined;
}

/** The folder of src that a path is in, or undefined outside src. */
function floorOf(path: string): string | undefined {
  const [top, folder] = path.split('/');
  return top === 'src' ? folder : undefined;
}

/** A sentence if the file is longer than a reader can hold in mind; generated files are not read. */
export function lengthProblem(file: SourceFile): string | undefined {
  if (file.path.startsWith(generated)) return undefined;
  const lines = file.text.replace(/\n$/, '').split('\n').length;
  if (lines <= longestFile) return undefined;
  return `${file.path} has ${String(lines)} lines; split it (at most ${String(longestFile)})`;
}
