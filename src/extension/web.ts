/** The extension in a browser: the server is a web worker. */
import { Uri, type ExtensionContext } from 'vscode';
import { LanguageClient, type ServerOptions } from 'vscode-languageclient/browser';
import { languageId, run, type Running } from './client.js';

/** The project's types are those of Node, which has no web workers. */
declare const Worker: new (url: string) => Extract<ServerOptions, { postMessage: unknown }>;

let running: Running | undefined;

/** Called by the editor when the first .loft file is opened. */
export async function activate(context: ExtensionContext): Promise<void> {
  const module = Uri.joinPath(context.extensionUri, 'dist', 'extension', 'worker.js').toString(true);
  running = await run(
    context,
    (options) => new LanguageClient(languageId, 'Wireloft', new Worker(module), options),
  );
}

/** Called by the editor when it closes or the extension is switched off. */
export async function deactivate(): Promise<void> {
  await running?.stop();
}
