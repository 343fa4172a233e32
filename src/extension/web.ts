/** The extension in a browser: the server is a web worker. */
import { Uri, workspace, type ExtensionContext } from 'vscode';
import {
  BrowserMessageReader,
  BrowserMessageWriter,
  LanguageClient,
  type MessageTransports,
} from 'vscode-languageclient/browser';
import { languageId, run, type Running } from './client.js';

/** As much of a web worker as is used here; the project's types are those of Node, which has none. */
interface WebWorker {
  postMessage(message: unknown): void;
  terminate(): void;
}
declare const Worker: new (url: string) => WebWorker;

let running: Running | undefined;

/** Called by the editor when the first .loft file is opened. */
export async function activate(context: ExtensionContext): Promise<void> {
  const script = await scriptUrl(context);
  let worker: WebWorker | undefined;
  const start = (): Promise<MessageTransports> => {
    // The server does not end its own worker when it is restarted.
    worker?.terminate();
    worker = new Worker(script);
    return Promise.resolve({
      reader: new BrowserMessageReader(worker),
      writer: new BrowserMessageWriter(worker),
    });
  };
  running = await run(context, (options) => new LanguageClient(languageId, 'Wireloft', start, options));
}

/** A worker cannot be started from a file of an extension that is installed on a remote machine, so it gets the text. */
async function scriptUrl(context: ExtensionContext): Promise<string> {
  const script = Uri.joinPath(context.extensionUri, 'dist', 'extension', 'worker.js');
  const text = await workspace.fs.readFile(script);
  return URL.createObjectURL(new Blob([new Uint8Array(text)], { type: 'text/javascript' }));
}

/** Called by the editor when it closes or the extension is switched off. */
export async function deactivate(): Promise<void> {
  await running?.stop();
}
