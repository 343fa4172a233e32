/** The drawings that are open beside their texts: each follows its boat, and leads back to the lines. */
import {
  CancellationTokenSource,
  Range,
  Selection,
  Uri,
  ViewColumn,
  window,
  type ExtensionContext,
  type TextEditor,
  type WebviewPanel,
} from 'vscode';
import { State, type BaseLanguageClient } from 'vscode-languageclient';
import type { Place } from '../../vessel/origin.js';
import {
  drawingChanged,
  drawingRequest,
  exportRequest,
  reachRequest,
  type Drawing,
  type DrawingAnswer,
  type DrawingParams,
  type DrawnSheet,
  type ExportAnswer,
  type ExportParams,
  type Reach,
  type ReachParams,
} from '../server/drawing/protocol.js';
import { elementAt } from './cursor.js';
import { exportDrawing } from './export.js';
import { newNonce, pageHtml } from './html.js';
import { readFromPage, readPageState, type PageState, type ToPage } from './messages.js';
import { chooseOptions } from './options.js';

/** The kind of the panels; an editor finds them again by it. */
const panelType = 'wireloft.drawing';

const languageId = 'wireloft';

interface Open {
  readonly panel: WebviewPanel;
  readonly uri: string;
  /** Names of the options that the boat is drawn with. */
  options: readonly string[];
  /** The last sheets that were sent to the page. */
  sheets: readonly DrawnSheet[];
  /** The last answer; its sheets may have gone to the page with one before. */
  drawing: Drawing | undefined;
  /** Ends the question that is being asked. */
  asking: CancellationTokenSource | undefined;
}

export class DrawingPanels {
  private readonly open = new Set<Open>();
  private readonly listening: readonly { dispose(): unknown }[];
  private readonly version: string;

  constructor(
    private readonly context: ExtensionContext,
    private readonly client: BaseLanguageClient,
  ) {
    const manifest = context.extension.packageJSON as { readonly version?: unknown };
    this.version = typeof manifest.version === 'string' ? `wireloft ${manifest.version}` : 'wireloft';
    this.listening = [
      client.onNotification(drawingChanged, () => this.refreshAll()),
      client.onDidChangeState(({ newState }) => {
        if (newState === State.Running) this.refreshAll();
      }),
      window.onDidChangeTextEditorSelection(({ textEditor }) => this.follow(textEditor)),
      window.registerWebviewPanelSerializer(panelType, {
        deserializeWebviewPanel: (panel, state: unknown) => {
          const kept = readPageState(state);
          if (kept === undefined) panel.dispose();
          else this.add(panel, kept);
          return Promise.resolve();
        },
      }),
    ];
  }

  /** Opens the drawing of the boat that a file belongs to, or shows the one that is open. */
  show(given: unknown): void {
    const uri = uriOf(given);
    if (uri === undefined) {
      void window.showInformationMessage(
        'Open a file of a boat first: a drawing is of the boat in the editor.',
      );
      return;
    }
    const file = uri.toString();
    const one = [...this.open].find(
      ({ uri: own, drawing }) => own === file || drawing?.files.some((other) => same(other, uri)) === true,
    );
    if (one !== undefined) {
      one.panel.reveal(undefined, true);
      return;
    }
    const panel = window.createWebviewPanel(
      panelType,
      'Drawing',
      { viewColumn: ViewColumn.Beside, preserveFocus: true },
      this.webviewOptions(),
    );
    this.add(panel, { uri: file, options: [] });
  }

  /** Writes the drawing in front, or that of the boat in the editor. */
  async export(given: unknown, shown: string | null = null, active = this.active()): Promise<void> {
    const uri = active === undefined ? uriOf(given)?.toString() : active.uri;
    if (uri === undefined) return;
    const sheet = active?.sheets.find(({ id }) => id === shown);
    await exportDrawing(sheet, ({ format, sheet: only }) => {
      const params = { uri, options: active?.options, version: this.version, format, sheet: only };
      return this.request<ExportAnswer>(exportRequest, params);
    });
  }

  /** Asks with which options the boat of the drawing in front is drawn. */
  async choose(one = this.active()): Promise<void> {
    if (one === undefined) return;
    const options = await chooseOptions(one.drawing?.options ?? []);
    if (options === undefined) return;
    one.options = options;
    await this.refresh(one);
  }

  dispose(): void {
    for (const { panel } of [...this.open]) panel.dispose();
    for (const one of this.listening) one.dispose();
  }

  private webviewOptions(): { enableScripts: boolean; localResourceRoots: Uri[]; enableCommandUris: false } {
    return { enableScripts: true, localResourceRoots: [this.scripts], enableCommandUris: false };
  }

  private get scripts(): Uri {
    return Uri.joinPath(this.context.extensionUri, 'dist', 'extension');
  }

  private active(): Open | undefined {
    return [...this.open].find(({ panel }) => panel.active);
  }

  private add(panel: WebviewPanel, { uri, options }: PageState): void {
    const one: Open = { panel, uri, options, sheets: [], drawing: undefined, asking: undefined };
    this.open.add(one);
    panel.onDidDispose(() => {
      one.asking?.cancel();
      this.open.delete(one);
    });
    panel.onDidChangeViewState(() => {
      if (panel.visible) void this.refresh(one);
    });
    panel.webview.onDidReceiveMessage((value: unknown) => this.receive(one, value));
    panel.webview.options = this.webviewOptions();
    const script = panel.webview.asWebviewUri(Uri.joinPath(this.scripts, 'preview.js')).toString();
    panel.webview.html = pageHtml({ script, nonce: newNonce(), uri });
  }

  private receive(one: Open, value: unknown): void {
    const message = readFromPage(value);
    if (message === undefined) return;
    switch (message.type) {
      case 'ready':
        // A page that was hidden begins anew, and has nothing.
        one.drawing = undefined;
        void this.refresh(one);
        return;
      case 'select':
        void this.select(one, message.origin, message.end);
        return;
      case 'export':
        void this.export(undefined, message.sheet, one);
        return;
      case 'options':
        void this.choose(one);
        return;
      case 'reach':
        void this.reach(one, message.origin);
    }
  }

  private refreshAll(): void {
    for (const one of this.open) if (one.panel.visible) void this.refresh(one);
  }

  private async refresh(one: Open): Promise<void> {
    one.asking?.cancel();
    const asking = new CancellationTokenSource();
    one.asking = asking;
    const known = one.drawing?.key;
    const { uri, options } = one;
    const answer = await this.ask({ uri, options, known, version: this.version }, asking);
    // Another question has been asked since, or the panel is shut.
    if (answer === undefined || one.asking !== asking || !this.open.has(one)) return;
    one.asking = undefined;
    if (answer.kind === 'none') {
      one.drawing = undefined;
      send(one, { type: 'none', reason: answer.reason });
      return;
    }
    one.drawing = answer;
    one.sheets = answer.sheets ?? one.sheets;
    const chosen = answer.options.filter((option) => option.chosen).map(({ name }) => name);
    one.panel.title = `Drawing: ${[answer.vessel, ...(chosen.length === 0 ? [] : [chosen.join(', ')])].join(' with ')}`;
    send(one, {
      type: 'drawing',
      vessel: answer.vessel,
      sheets: answer.sheets ?? null,
      origins: answer.elements.map(({ origin }) => origin),
      optional: answer.options.length > 0,
      chosen,
      note: answer.old ?? '',
    });
    // While the page has the keyboard, no text is active.
    for (const editor of window.activeTextEditor ? [window.activeTextEditor] : window.visibleTextEditors)
      this.follow(editor);
  }

  private async reach(one: Open, origin: string): Promise<void> {
    const key = one.drawing?.key;
    if (key === undefined) return;
    const params = { uri: one.uri, options: one.options, key, origin };
    const reach = await this.request<Reach>(reachRequest, params);
    // What is drawn by now may reach otherwise.
    if (one.drawing?.key === key) send(one, { type: 'reach', origin, reach: reach ?? null });
  }

  private ask(params: DrawingParams, asking: CancellationTokenSource): Promise<DrawingAnswer | undefined> {
    return this.request<DrawingAnswer>(drawingRequest, params, asking);
  }

  /** Undefined where the server does not answer. */
  private async request<A>(
    method: string,
    params: DrawingParams | ExportParams | ReachParams,
    asking = new CancellationTokenSource(),
  ): Promise<A | undefined> {
    try {
      return (await this.client.sendRequest<A | null>(method, params, asking.token)) ?? undefined;
    } catch (error) {
      if (!asking.token.isCancellationRequested)
        this.client.debug(`The drawing was not answered: ${String(error)}`);
      return undefined;
    }
  }

  private follow({ document, selection }: TextEditor): void {
    if (document.languageId !== languageId) return;
    for (const one of this.open) {
      const { drawing } = one;
      const file = drawing?.files.find((other) => same(other, document.uri));
      if (drawing === undefined || file === undefined) continue;
      send(one, {
        type: 'cursor',
        origin: elementAt(drawing.elements, file, selection.active)?.origin ?? null,
      });
    }
  }

  private async select(one: Open, origin: string, end: 'a' | 'b' | null): Promise<void> {
    const element = one.drawing?.elements.find((other) => other.origin === origin);
    if (element === undefined) return;
    const place = (end === null ? undefined : element[end]) ?? element.place;
    await reveal(place, one.panel.viewColumn);
  }
}

/** Selects a place in the editor that shows the file already, or in the first column that is not the drawing's. */
async function reveal({ file, range }: Place, drawn: ViewColumn | undefined): Promise<void> {
  const uri = Uri.parse(file, true);
  const shown = window.visibleTextEditors.find(({ document }) => same(file, document.uri));
  const column = shown?.viewColumn ?? (drawn === ViewColumn.One ? ViewColumn.Beside : ViewColumn.One);
  const at = new Range(range.start.line, range.start.character, range.end.line, range.end.character);
  try {
    const editor = await window.showTextDocument(uri, { viewColumn: column, selection: at });
    editor.selection = new Selection(at.start, at.end);
    editor.revealRange(at);
  } catch (error) {
    void window.showWarningMessage(`${uri.path} cannot be opened: ${String(error)}`);
  }
}

function send({ panel }: Open, message: ToPage): void {
  void panel.webview.postMessage(message);
}

/** Both as this editor writes them: a server may escape more, or less. */
const same = (file: string, uri: Uri): boolean => Uri.parse(file).toString() === uri.toString();

/** What a command was called for: a button gives the file, the palette nothing. */
function uriOf(given: unknown): Uri | undefined {
  if (given instanceof Uri) return given;
  const document = window.activeTextEditor?.document;
  return document?.languageId === languageId ? document.uri : undefined;
}
