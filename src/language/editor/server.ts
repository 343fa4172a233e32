/** Serves an editor: Langium's handlers, with versioned diagnostics and selection ranges of our own. */
import { URI } from 'langium';
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
  type ClientCapabilities,
  type Connection,
  type InitializeParams,
  type InitializeResult,
  type SelectionRange,
} from 'vscode-languageserver';
import { ACTION_KINDS } from './actions.js';
import { selectionRange } from './links.js';
import type { EditorSharedServices } from './module.js';
import { publishDiagnostics } from './publish.js';
import type { Thinker } from './thoughts.js';

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

/** Answers a connection until it ends. With a thinker, tells what it finds while nobody types. */
export function serve(connection: Connection, shared: EditorSharedServices, thinker?: Thinker): void {
  const { lsp, workspace } = shared;
  addDocumentUpdateHandler(connection, shared);
  let client: ClientCapabilities = {};
  publishDiagnostics(connection, shared, () => client, thinker);
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
  connection.onInitialize((params) => {
    client = params.capabilities;
    return lsp.LanguageServer.initialize(params);
  });
  connection.onInitialized((params) => {
    lsp.LanguageServer.initialized(params);
  });
  connection.onShutdown(() => thinker?.close());
  connection.onExit(() => thinker?.close());
  workspace.TextDocuments.listen(connection);
  connection.listen();
}
