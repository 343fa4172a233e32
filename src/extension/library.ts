/** Shows the bundled library: the read-only documents of the `builtin:` scheme. */
import { workspace, type Disposable } from 'vscode';
import { libraryFiles } from '../language/generated/library.js';

/** The scheme of the library's documents. */
export const libraryScheme = 'builtin';

/** The text of a library file by the path of its URI, or undefined if the library has no such file. */
function libraryText(path: string): string | undefined {
  return libraryFiles.find((file) => path === `/${file.name}`)?.text;
}

/** Lets the editor open the library's files, as a definition or by a link. */
export function showLibrary(): Disposable {
  return workspace.registerTextDocumentContentProvider(libraryScheme, {
    provideTextDocumentContent: (uri) =>
      libraryText(uri.path) ?? `// The bundled library has no file ${uri.path}.\n`,
  });
}
