/** The language server in a web worker, for an editor in a browser. */
import '../../language/polyfill.js';
import { BrowserMessageReader, BrowserMessageWriter, createConnection } from 'vscode-languageserver/browser';
import { readArtistParts, webArtist, type ArtistParts } from './drawing/artist/web.js';
import { EditorFiles } from './files.js';
import { startServer } from './start.js';

/** The worker's own end of its channel; the project's types are those of Node, which has none. */
declare const self: ConstructorParameters<typeof BrowserMessageReader>[0];

const connection = createConnection(new BrowserMessageReader(self), new BrowserMessageWriter(self));
const files = new EditorFiles(connection);
let told: (parts: ArtistParts | undefined) => void = () => undefined;
const parts = new Promise<ArtistParts | undefined>((resolve) => (told = resolve));
const shared = startServer(connection, {
  fileSystemProvider: () => files,
  artist: webArtist(files, parts),
});
shared.lsp.LanguageServer.onInitialize(({ initializationOptions }) =>
  told(readArtistParts(initializationOptions)),
);
