/** The extension on a desktop or a remote machine: the server is a process of its own. */
import { Uri, type ExtensionContext } from 'vscode';
import { LanguageClient, TransportKind } from 'vscode-languageclient/node';
import { languageId, run, type Running } from './client.js';
import { offerTasks } from './tasks.js';

let running: Running | undefined;

/** Called by the editor when the first .loft file is opened, or a task of this kind is asked for. */
export async function activate(context: ExtensionContext): Promise<void> {
  context.subscriptions.push(offerTasks());
  const module = Uri.joinPath(context.extensionUri, 'dist', 'extension', 'server.cjs').fsPath;
  const server = { module, transport: TransportKind.ipc };
  const debug = { ...server, options: { execArgv: ['--nolazy', '--inspect=6009'] } };
  running = await run(
    context,
    (options) => new LanguageClient(languageId, 'Wireloft', { run: server, debug }, options),
  );
}

/** Called by the editor when it closes or the extension is switched off. */
export async function deactivate(): Promise<void> {
  await running?.stop();
}
