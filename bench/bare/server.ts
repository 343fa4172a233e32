/** A language server of bare Langium as a process. Without validation it has nothing to publish, so it says when it has linked. */
import '../../src/language/polyfill.js';
import { DocumentState } from 'langium';
import { startLanguageServer } from 'langium/lsp';
import { NodeFileSystem } from 'langium/node';
import { createConnection, ProposedFeatures } from 'vscode-languageserver/node';
import { LINKED } from './protocol.js';
import { createBareServer } from './services.js';

const connection = createConnection(ProposedFeatures.all);
const shared = createBareServer(connection, NodeFileSystem.fileSystemProvider);
shared.workspace.DocumentBuilder.updateBuildOptions = { validation: false };
shared.workspace.DocumentBuilder.onBuildPhase(DocumentState.IndexedReferences, async (documents) => {
  for (const { uri, textDocument } of documents)
    await connection.sendNotification(LINKED, { uri: uri.toString(), version: textDocument.version });
});
startLanguageServer(shared);
