/**
 * A fake editor: a real language server at the other end of a pair of streams, and an in-memory folder. Texts may carry `$0`
 * for the cursor.
 */
import { PassThrough } from 'node:stream';
import {
  createProtocolConnection,
  StreamMessageReader,
  StreamMessageWriter,
} from 'vscode-languageserver/node';
import { createConnection } from 'vscode-languageserver/node';
import {
  DidChangeTextDocumentNotification,
  DidOpenTextDocumentNotification,
  InitializedNotification,
  InitializeRequest,
  PublishDiagnosticsNotification,
  type CompletionClientCapabilities,
  type Diagnostic,
  type Position,
  type ProtocolConnection,
  type PublishDiagnosticsParams,
  type Range,
} from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { startServer, type ServerOptions } from '../../src/extension/server/start.js';
import { memoryFiles } from './files.js';
import type { Thinker } from '../../src/language/editor/thoughts.js';
import type { EditorSharedServices } from '../../src/language/editor/module.js';

const FOLDER = 'file:///boats';

/** A text with its cursor taken out. */
export function cursorIn(text: string): { text: string; position: Position } {
  const offset = text.indexOf('$0');
  if (offset < 0) throw new Error('The text has no cursor $0.');
  const clean = text.slice(0, offset) + text.slice(offset + 2);
  return { text: clean, position: TextDocument.create('', '', 0, clean).positionAt(offset) };
}

export class FakeEditor {
  private readonly versions = new Map<string, number>();
  private readonly published = new Map<string, PublishDiagnosticsParams>();
  private readonly waiting: { uri: string; version: number; resolve: (diagnostics: Diagnostic[]) => void }[] =
    [];

  private constructor(
    readonly connection: ProtocolConnection,
    readonly shared: EditorSharedServices,
    private readonly texts: Map<string, string>,
  ) {
    connection.onNotification(PublishDiagnosticsNotification.type, (params) => {
      this.published.set(params.uri, params);
      for (const waiter of this.waiting.filter(
        (w) => w.uri === params.uri && params.version !== undefined && params.version >= w.version,
      )) {
        this.waiting.splice(this.waiting.indexOf(waiter), 1);
        waiter.resolve(params.diagnostics);
      }
    });
  }

  /**
   * Starts a server on a folder with these files (by path) and waits until it is initialised. `completion` is what the editor
   * says it can do with completions, and `more` what a face knows beside.
   */
  static async start(
    files: Readonly<Record<string, string>>,
    completion: CompletionClientCapabilities = { completionItem: { snippetSupport: true } },
    thinker?: Thinker,
    more: Partial<ServerOptions> = {},
  ): Promise<FakeEditor> {
    const up = new PassThrough();
    const down = new PassThrough();
    const texts = new Map(Object.entries(files).map(([path, text]) => [uriOf(path), text]));
    const shared = startServer(createConnection(up, down), {
      fileSystemProvider: () => memoryFiles(texts),
      rulePage: (rule) => `test:${rule}`,
      thinker,
      ...more,
    });
    const client = createProtocolConnection(new StreamMessageReader(down), new StreamMessageWriter(up));
    client.listen();
    const editor = new FakeEditor(client, shared, texts);
    await client.sendRequest(InitializeRequest.type, {
      processId: null,
      // eslint-disable-next-line @typescript-eslint/no-deprecated -- the protocol's type still asks for it
      rootUri: null,
      capabilities: { textDocument: { completion } },
      workspaceFolders: [{ uri: FOLDER, name: 'boats' }],
    });
    await client.sendNotification(InitializedNotification.type, {});
    await shared.workspace.WorkspaceManager.ready;
    return editor;
  }

  text(path: string): string {
    return this.texts.get(uriOf(path)) ?? '';
  }

  /** Opens a file and waits for its diagnostics. */
  async open(path: string, text = this.text(path)): Promise<Diagnostic[]> {
    this.texts.set(uriOf(path), text);
    this.versions.set(uriOf(path), 1);
    const done = this.diagnosticsAt(path, 1);
    await this.connection.sendNotification(DidOpenTextDocumentNotification.type, {
      textDocument: { uri: uriOf(path), languageId: 'wireloft', version: 1, text },
    });
    return done;
  }

  /** Changes a range (or the whole text) of an open file and waits for the diagnostics of the new version. */
  async change(path: string, text: string, range?: Range): Promise<Diagnostic[]> {
    const uri = uriOf(path);
    const version = (this.versions.get(uri) ?? 0) + 1;
    this.versions.set(uri, version);
    const document = TextDocument.create(uri, 'wireloft', version, this.text(path));
    const change = range ? { range, text } : { text };
    this.texts.set(uri, TextDocument.update(document, [change], version).getText());
    const done = this.diagnosticsAt(path, version);
    await this.connection.sendNotification(DidChangeTextDocumentNotification.type, {
      textDocument: { uri, version },
      contentChanges: [change],
    });
    return done;
  }

  /** Waits until everything that an edit touches has been checked, closed files included. */
  async settled(): Promise<void> {
    await this.shared.workspace.WorkspaceLock.read(() => Promise.resolve());
    await new Promise((resolve) => setTimeout(resolve, 20));
  }

  /** The last diagnostics of a file, open or not. */
  diagnostics(path: string): readonly Diagnostic[] {
    return this.published.get(uriOf(path))?.diagnostics ?? [];
  }

  request<R>(method: string, params: object): Promise<R> {
    return this.connection.sendRequest<R>(method, params);
  }

  /** A request about a position of a file. */
  at<R>(method: string, path: string, position: Position, more: object = {}): Promise<R> {
    return this.request<R>(method, { textDocument: { uri: uriOf(path) }, position, ...more });
  }

  stop(): void {
    this.connection.dispose();
  }

  private diagnosticsAt(path: string, version: number): Promise<Diagnostic[]> {
    return new Promise((resolve) => this.waiting.push({ uri: uriOf(path), version, resolve }));
  }
}

export const uriOf = (path: string): string => `${FOLDER}/${path}`;
