/** The bundled library as documents under the `builtin:` scheme. */
import { URI, type LangiumDocument, type LangiumSharedCoreServices } from 'langium';
import { libraryFiles } from '../generated/library.js';

export const LIBRARY_SCHEME = 'builtin';

export const libraryUri = (name: string): URI => URI.from({ scheme: LIBRARY_SCHEME, path: `/${name}` });

/** Adds the library's files to the workspace, once, and returns those that were added. */
export function loadLibrary(shared: LangiumSharedCoreServices): LangiumDocument[] {
  const { LangiumDocuments: documents, LangiumDocumentFactory: factory } = shared.workspace;
  return libraryFiles.flatMap(({ name, text }) => {
    const uri = libraryUri(name);
    if (documents.hasDocument(uri)) return [];
    const document = factory.fromString(text, uri);
    documents.addDocument(document);
    return [document];
  });
}

/** The text of a library file, for an editor that opens it. */
export function libraryText(uri: string): string | undefined {
  const name = URI.parse(uri).path.replace(/^\//, '');
  return libraryFiles.find((file) => file.name === name)?.text;
}
