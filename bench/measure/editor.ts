/** How long an editor waits: from a change of the text to the diagnostics for it, through a language server as a process. */
import { spawn } from 'node:child_process';
import { pathToFileURL } from 'node:url';
import { join } from 'node:path';
import {
  createProtocolConnection,
  DidChangeTextDocumentNotification,
  DidOpenTextDocumentNotification,
  ExitNotification,
  InitializedNotification,
  InitializeRequest,
  PublishDiagnosticsNotification,
  ShutdownRequest,
  StreamMessageReader,
  StreamMessageWriter,
  type ProtocolConnection,
} from 'vscode-languageserver/node';
import { LINKED } from '../bare/protocol.js';
import type { Boat, BoatFile } from '../boats/boat.js';
import { editsOf, KINDS, type Edit, type Kind } from '../edits.js';
import { percentileOf, startWatch, type Span } from './figures.js';

export interface EditFigures {
  /** Edits before the engine had compiled what they run: the first that somebody makes after the start. */
  readonly first: { readonly count: number; readonly p95: Span };
  /** Edits after those; the figures below are of these alone. */
  readonly count: number;
  readonly p50: Span;
  readonly p95: Span;
  readonly p50ByKind: Readonly<Record<Kind, Span>>;
}

interface Answer {
  readonly uri: string;
  readonly version?: number | undefined;
}

/** A server that takes longer than this for one change has hung. */
const LONGEST_WAIT = 120_000;
/** No further round begins after this: where one edit takes ten seconds, few of them say enough. */
const LONG_ENOUGH = 60_000;

/** A server on its own process, and what it last said it had done. */
export class Editor {
  private waiting: { readonly uri: string; readonly version: number; readonly done: () => void } | undefined;
  private version = 1;

  private constructor(
    private readonly connection: ProtocolConnection,
    private readonly process: number,
    private readonly ended: Promise<void>,
  ) {
    const heard = ({ uri, version }: Answer): void => {
      const { waiting } = this;
      if (uri !== waiting?.uri || (version ?? -1) < waiting.version) return;
      this.waiting = undefined;
      waiting.done();
    };
    connection.onNotification(PublishDiagnosticsNotification.type, heard);
    connection.onNotification(LINKED, heard);
  }

  /** Starts a server on a folder; the server is a JavaScript file that talks on its standard streams. */
  static async start(server: string, folder: string): Promise<Editor> {
    const child = spawn(process.execPath, [server, '--stdio'], { stdio: ['pipe', 'pipe', 'inherit'] });
    const connection = createProtocolConnection(
      new StreamMessageReader(child.stdout),
      new StreamMessageWriter(child.stdin),
    );
    const ended = new Promise<void>((resolve) => child.once('exit', () => resolve()));
    const editor = new Editor(connection, child.pid ?? -1, ended);
    connection.listen();
    await connection.sendRequest(InitializeRequest.type, {
      processId: process.pid,
      // eslint-disable-next-line @typescript-eslint/no-deprecated -- its type still asks for it
      rootUri: null,
      workspaceFolders: [{ uri: pathToFileURL(folder).href, name: 'boat' }],
      capabilities: {
        textDocument: { publishDiagnostics: { versionSupport: true, relatedInformation: true } },
      },
    });
    await connection.sendNotification(InitializedNotification.type, {});
    return editor;
  }

  /** Opens a file, and waits for the first word about it. */
  async open(path: string, text: string): Promise<string> {
    const uri = pathToFileURL(path).href;
    const answered = this.answer(uri, this.version);
    await this.connection.sendNotification(DidOpenTextDocumentNotification.type, {
      textDocument: { uri, languageId: 'wireloft', version: this.version, text },
    });
    await answered;
    return uri;
  }

  /** Replaces a piece of a line. Tells how long the server took to answer. */
  async change(uri: string, edit: Edit, before: string, after: string): Promise<Span> {
    this.version += 1;
    const start = { line: edit.line, character: edit.character };
    const range = { start, end: { ...start, character: start.character + before.length } };
    const answered = this.answer(uri, this.version);
    const stop = startWatch(this.process);
    await this.connection.sendNotification(DidChangeTextDocumentNotification.type, {
      textDocument: { uri, version: this.version },
      contentChanges: [{ range, text: after }],
    });
    await answered;
    return stop();
  }

  /** Starts a stopwatch on the server. */
  watch(): () => Span {
    return startWatch(this.process);
  }

  request<R>(method: string, params: object): Promise<R> {
    return this.connection.sendRequest<R>(method, params);
  }

  async stop(): Promise<void> {
    await this.connection.sendRequest(ShutdownRequest.type);
    await this.connection.sendNotification(ExitNotification.type);
    await this.ended;
    this.connection.dispose();
  }

  private answer(uri: string, version: number): Promise<void> {
    return new Promise((resolve, reject) => {
      const timer = setTimeout(() => {
        reject(new Error(`The server did not answer version ${version} of ${uri}.`));
      }, LONGEST_WAIT);
      this.waiting = {
        uri,
        version,
        done: () => {
          clearTimeout(timer);
          resolve();
        },
      };
    });
  }
}

/** Rounds of every kind of edit. */
export interface Rounds {
  readonly first: number;
  readonly warm: number;
}

/** Types into the vessel's file or the fragment in the middle of a boat that lies in a folder. */
export async function measureEdits(
  server: string,
  boat: Boat,
  folder: string,
  rounds: Rounds,
): Promise<EditFigures> {
  const file = editedFile(boat);
  const editor = await Editor.start(server, folder);
  const uri = await editor.open(join(folder, file.path), file.text);
  const times = new Map<Kind, Span[]>(KINDS.map((kind) => [kind, []]));
  const first: Span[] = [];
  const started = performance.now();
  for (let round = 0; round < rounds.first + rounds.warm; round++) {
    if (round > rounds.first && performance.now() - started > LONG_ENOUGH) break;
    for (const edit of editsOf(file, round)) {
      const done = await editor.change(uri, edit, edit.before, edit.after);
      const undone = await editor.change(uri, edit, edit.after, edit.before);
      const list = round < rounds.first ? first : times.get(edit.kind);
      list?.push(done, undone);
    }
  }
  await editor.stop();
  const all = [...times.values()].flat();
  const of = (kind: Kind): Span => percentileOf(times.get(kind) ?? [], 0.5);
  return {
    first: { count: first.length, p95: percentileOf(first, 0.95) },
    count: all.length,
    p50: percentileOf(all, 0.5),
    p95: percentileOf(all, 0.95),
    p50ByKind: {
      'white space': of('white space'),
      value: of('value'),
      'name half typed': of('name half typed'),
      'broken line': of('broken line'),
    },
  };
}

/** The vessel's file, or the fragment in the middle. */
function editedFile(boat: Boat): BoatFile {
  if (boat.layout === 'one file') return boat.main;
  const fragments = boat.files.filter((file) => file.path.startsWith('station-'));
  return fragments[Math.floor(fragments.length / 2)] ?? boat.main;
}
