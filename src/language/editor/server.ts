/** Serves an editor: Langium's handlers, with versioned diagnostics and selection ranges of our own. */
import { DocumentState, URI, type LangiumDocument } from 'langium';
import {
  addCodeActionHandler,
  addCodeLensHandler,
  addCompletionHandler,
  addConfigurationChangeHandler,
  addDocumentHighlightHandler,
  addDocumentLinkHandler,
  addDocumentSymbolHandler,
  addDocumentUpdateHandler,
  addFindReferencesHandler,
  addFoldingRangeHandler,
  addFormattingHandler,
  addGotoDefinitionHandler,
  addHoverHandler,
  addInlayHintHandler,
  addRenameHandler,
  addSemanticTokenHandler,
  addWorkspaceSymbolHandler,
  DefaultLanguageServer,
  WorkspaceState,
} from 'langium/lsp';
import {
  type Connection,
  type Diagnostic,
  type InitializeParams,
  type InitializeResult,
  type SelectionRange,
} from 'vscode-languageserver';
import { ACTION_KINDS } from './actions.js';
import { selectionRange } from './links.js';
import type { EditorSharedServices } from './module.js';

export class WireloftLanguageServer extends DefaultLanguageServer {
  protected override buildInitializeResult(params: InitializeParams): InitializeResult {
    const result = super.buildInitializeResult(params);
    result.serverInfo = { name: 'wireloft' };
    result.capabilities.selectionRangeProvider = true;
    if (result.capabilities.codeActionProvider)
      result.capabilities.codeActionProvider = { codeActionKinds: [...ACTION_KINDS] };
    return result;
  }
}

/** Answers a connection until it ends. */
export function serve(connection: Connection, shared: EditorSharedServices): void {
  const { lsp, workspace } = shared;
  addDocumentUpdateHandler(connection, shared);
  publishDiagnostics(connection, shared);
  addCompletionHandler(connection, shared, WorkspaceState.Linked);
  addFindReferencesHandler(connection, shared, WorkspaceState.Linked);
  addDocumentSymbolHandler(connection, shared);
  addGotoDefinitionHandler(connection, shared);
  addDocumentHighlightHandler(connection, shared, WorkspaceState.Linked);
  addFoldingRangeHandler(connection, shared);
  addFormattingHandler(connection, shared);
  addCodeActionHandler(connection, shared);
  addRenameHandler(connection, shared, WorkspaceState.Linked);
  addHoverHandler(connection, shared, WorkspaceState.Linked);
  addInlayHintHandler(connection, shared, WorkspaceState.Linked);
  addSemanticTokenHandler(connection, shared);
  addCodeLensHandler(connection, shared, WorkspaceState.Linked);
  addDocumentLinkHandler(connection, shared);
  addConfigurationChangeHandler(connection, shared);
  addWorkspaceSymbolHandler(connection, shared);
  connection.onSelectionRanges(async (params): Promise<SelectionRange[] | null> => {
    await workspace.WorkspaceLock.read(() => Promise.resolve());
    const document = workspace.LangiumDocuments.getDocument(URI.parse(params.textDocument.uri));
    return document ? params.positions.map((position) => selectionRange(document, position)) : null;
  });
  connection.onInitialize((params) => lsp.LanguageServer.initialize(params));
  connection.onInitialized((params) => {
    lsp.LanguageServer.initialized(params);
  });
  workspace.TextDocuments.listen(connection);
  connection.listen();
}

/**
 * Sends diagnostics with the version they belong to; for a file that is not open, only when they change. The bundled library
 * has none.
 */
function publishDiagnostics(connection: Connection, shared: EditorSharedServices): void {
  const { DocumentBuilder: builder, TextDocuments: open } = shared.workspace;
  const sent = new Map<string, string>();
  const send = (uri: string, diagnostics: Diagnostic[], version?: number): Promise<void> =>
    connection.sendDiagnostics(version === undefined ? { uri, diagnostics } : { uri, version, diagnostics });
  builder.onUpdate(async (_, deleted) => {
    for (const uri of deleted.map(String)) {
      sent.delete(uri);
      await send(uri, []);
    }
  });
  builder.onDocumentPhase(DocumentState.Validated, async (document: LangiumDocument) => {
    if (!document.diagnostics || document.uri.scheme === 'builtin') return;
    const uri = document.uri.toString();
    const version = open.get(document.uri)?.version;
    const key = `${version ?? ''} ${JSON.stringify(document.diagnostics)}`;
    if (sent.get(uri) === key) return;
    sent.set(uri, key);
    await send(uri, document.diagnostics, version);
  });
}
