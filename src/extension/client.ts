/** What the extension does in the editor, on a desktop and in a browser alike. */
import {
  commands,
  languages,
  LanguageStatusSeverity,
  Uri,
  window,
  workspace,
  type ExtensionContext,
  type LogOutputChannel,
} from 'vscode';
import { State, type BaseLanguageClient, type LanguageClientOptions } from 'vscode-languageclient';
import { DrawingPanels } from './drawing/panels.js';
import { serveFiles } from './files.js';
import { libraryScheme, showLibrary } from './library.js';
import type { ArtistParts } from './server/drawing/artist/web.js';

/** The language's id, and the prefix of the extension's settings and commands. */
export const languageId = 'wireloft';

/** Starts a client over and over: a client that was stopped can be started again. */
export interface Running {
  /** Ends the server and the client for good. */
  readonly stop: () => Promise<void>;
}

/**
 * Starts the language server and everything that goes with it.
 * @param create makes the client for this kind of editor, not started yet
 */
export async function run(
  context: ExtensionContext,
  create: (options: LanguageClientOptions) => BaseLanguageClient,
): Promise<Running> {
  const output = window.createOutputChannel('Wireloft', { log: true });
  const client = create(clientOptions(context, output));
  serveFiles(client);
  const drawings = new DrawingPanels(context, client);
  context.subscriptions.push(
    output,
    showLibrary(),
    drawings,
    commands.registerCommand('wireloft.openDrawing', (uri: unknown) => drawings.show(uri)),
    commands.registerCommand('wireloft.exportDrawing', (uri: unknown) => drawings.export(uri)),
    commands.registerCommand('wireloft.chooseDrawingOptions', () => drawings.choose()),
    commands.registerCommand('wireloft.layOutDrawingAnew', () => drawings.layAnew()),
    commands.registerCommand('wireloft.restartServer', () => restart(client)),
    commands.registerCommand('wireloft.showOutput', () => output.show()),
    ...status(client),
  );
  await client.start();
  return { stop: () => client.dispose() };
}

function clientOptions(
  { extensionUri }: ExtensionContext,
  outputChannel: LogOutputChannel,
): LanguageClientOptions {
  const part = (...path: readonly string[]): string =>
    Uri.joinPath(extensionUri, 'dist', 'extension', ...path).toString();
  // A server in a browser cannot find these by itself.
  const artist: ArtistParts = {
    script: part('artist.js'),
    regular: part('fonts', 'DejaVuSansCondensed.ttf'),
    bold: part('fonts', 'DejaVuSansCondensed-Bold.ttf'),
  };
  // The left side of a comparison and the like are of other schemes: nobody wants findings there.
  const schemes = new Set(['file', 'untitled', libraryScheme]);
  for (const folder of workspace.workspaceFolders ?? []) schemes.add(folder.uri.scheme);
  return {
    documentSelector: [...schemes].map((scheme) => ({ scheme, language: languageId })),
    outputChannel,
    initializationOptions: { artist },
    diagnosticCollectionName: languageId,
    markdown: { supportHtml: false, supportThemeIcons: false },
  };
}

async function restart(client: BaseLanguageClient): Promise<void> {
  if (client.needsStop()) await client.stop();
  await client.start();
}

/** A line in the language's status menu that says whether the checks are running. */
function status(client: BaseLanguageClient): readonly { dispose(): void }[] {
  const item = languages.createLanguageStatusItem('wireloft.server', { language: languageId });
  item.name = 'Wireloft';
  const show = (state: State): void => {
    item.busy = state === State.Starting;
    const stopped = state === State.Stopped;
    item.severity = stopped ? LanguageStatusSeverity.Error : LanguageStatusSeverity.Information;
    item.text = stopped ? 'The checks have stopped' : 'The checks are running';
    item.command = stopped
      ? { command: 'wireloft.restartServer', title: 'Restart' }
      : { command: 'wireloft.showOutput', title: 'Show Output' };
  };
  show(client.state);
  return [item, client.onDidChangeState((event) => show(event.newState))];
}
