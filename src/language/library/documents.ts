/** The bundled library as documents under the `builtin:` scheme. */
import { URI, type LangiumDocument, type LangiumSharedCoreServices } from 'langium';
import { libraryFiles } from '../generated/library.js';

const LIBRARY_SCHEME = 'builtin';

const libraryUri = (name: string): URI => URI.from({ scheme: LIBRARY_SCHEME, path: `/${name}` });

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
