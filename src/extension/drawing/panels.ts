/** The drawings that are open beside their texts: each follows its boat, and leads back to the lines. */
import {
  CancellationTokenSource,
  Range,
  Selection,
  Uri,
  ViewColumn,
  window,
  type ExtensionContext,
  type Position,
  type TextEditor,
  type WebviewPanel,
} from 'vscode';
import { State, type BaseLanguageClient } from 'vscode-languageclient';
import type { Place } from '../../vessel/origin.js';
import {
  anewRequest,
  cursorRequest,
  drawingChanged,
  drawingRequest,
  driftRequest,
  exportRequest,
  placeRequest,
  reachRequest,
  sheetRequest,
  type BoatParams,
  type CursorAnswer,
  type CursorParams,
  type Drawing,
  type DrawingAnswer,
  type DrawingParams,
  type DrawnDrift,
  type DriftParams,
  type End,
  type ExportAnswer,
  type ExportParams,
  type PlaceParams,
  type Reach,
  type ReachParams,
  type SheetParams,
  type ShownSheet,
} from '../server/drawing/protocol.js';
import { exportDrawing } from './export.js';
import { newNonce, pageHtml } from './html.js';
import { readFromPage, readPageState, type PageState, type ToPage } from './messages.js';
import { chooseOptions } from './options.js';

/** The kind of the panels; an editor finds them again by it. */
const panelType = 'wireloft.drawing';

const languageId = 'wireloft';

/** A drawing has to stand so long, in ms, before it is asked what laying it out anew would save. */
const STOOD = 1_500;

/** The cursor has to rest so long, in ms, before it is asked what it is in. */
const REST = 60;

interface Open {
  readonly panel: WebviewPanel;
  readonly uri: string;
  /** Names of the options that the boat is drawn with. */
  options: readonly string[];
  /** The sheet that the page wants, and the key of the picture that it has. */
  sheet: string | undefined;
  known: string | undefined;
  /** The last answer. */
  drawing: Drawing | undefined;
  /** Ends the question that is being asked. */
  asking: CancellationTokenSource | undefined;
  /** The question what the cursor is in, while it moves. */
  following: ReturnType<typeof setTimeout> | undefined;
  /** The question what laying out anew would save, while she is drawn again and again. */
  standing: ReturnType<typeof setTimeout> | undefined;
}

/** All that the server is asked. */
type Params =
  | BoatParams
  | CursorParams
  | DrawingParams
  | DriftParams
  | ExportParams
  | PlaceParams
  | ReachParams
  | SheetParams;

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
    const sheet = active?.drawing?.sheets.find(({ id }) => id === shown);
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

  /** Forgets where the boxes of the drawing in front stand, and has them laid out from nothing. */
  async layAnew(one = this.active()): Promise<void> {
    if (one === undefined) return;
    const { uri, options } = one;
    await this.request<null>(anewRequest, { uri, options });
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
    const nothing = { sheet: undefined, known: undefined, drawing: undefined };
    const one: Open = {
      panel,
      uri,
      options,
      ...nothing,
      asking: undefined,
      following: undefined,
      standing: undefined,
    };
    this.open.add(one);
    panel.onDidDispose(() => {
      one.asking?.cancel();
      clearTimeout(one.following);
      clearTimeout(one.standing);
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
        one.known = undefined;
        one.sheet = message.sheet ?? undefined;
        void this.refresh(one);
        return;
      case 'sheet':
        one.sheet = message.sheet;
        void this.turn(one);
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
      case 'anew':
        void this.layAnew(one);
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
    const { uri, options, sheet, known } = one;
    send(one, { type: 'busy', busy: true });
    const params = { uri, options, sheet, known, version: this.version };
    const answer = await this.request<DrawingAnswer>(drawingRequest, params, asking);
    // Another question has been asked since, or the panel is shut.
    if (one.asking !== asking || !this.open.has(one)) return;
    one.asking = undefined;
    send(one, { type: 'busy', busy: false });
    if (answer === undefined) return;
    if (answer.kind === 'none') {
      [one.drawing, one.known] = [undefined, undefined];
      send(one, { type: 'none', reason: answer.reason });
      return;
    }
    one.drawing = answer;
    // If somebody has turned to another sheet meanwhile, it may not be the one that the page has.
    one.known = one.sheet === sheet ? answer.shown?.key : undefined;
    const chosen = answer.options.filter((option) => option.chosen).map(({ name }) => name);
    one.panel.title = `Drawing: ${[answer.vessel, ...(chosen.length === 0 ? [] : [chosen.join(', ')])].join(' with ')}`;
    send(one, {
      type: 'drawing',
      vessel: answer.vessel,
      sheets: answer.sheets,
      shown: answer.shown ?? null,
      optional: answer.options.length > 0,
      chosen,
      note: answer.old ?? '',
    });
    if (one.sheet !== sheet) void this.turn(one);
    clearTimeout(one.standing);
    one.standing = setTimeout(() => void this.tellDrift(one, answer), STOOD);
    // While the page has the keyboard, no text is active.
    for (const editor of window.activeTextEditor ? [window.activeTextEditor] : window.visibleTextEditors)
      this.follow(editor);
  }

  /** Shows the sheet that is wanted, of the drawing that was made last. */
  private async turn(one: Open): Promise<void> {
    const { sheet, drawing } = one;
    if (sheet === undefined || drawing === undefined) return;
    const { uri } = one;
    const shown = await this.request<ShownSheet>(sheetRequest, { uri, key: drawing.key, sheet });
    if (shown === undefined || one.drawing !== drawing || one.sheet !== sheet) return;
    one.known = shown.key;
    send(one, { type: 'sheet', shown });
  }

  private async tellDrift(one: Open, drawing: Drawing): Promise<void> {
    const drifts = await this.request<readonly DrawnDrift[]>(driftRequest, {
      uri: one.uri,
      key: drawing.key,
    });
    if (one.drawing === drawing) send(one, { type: 'drift', drifts: drifts ?? [] });
  }

  private async reach(one: Open, origin: string): Promise<void> {
    const key = one.drawing?.key;
    if (key === undefined) return;
    const reach = await this.request<Reach>(reachRequest, { uri: one.uri, key, origin });
    // What is drawn by now may reach otherwise.
    if (one.drawing?.key === key) send(one, { type: 'reach', origin, reach: reach ?? null });
  }

  /** Undefined where the server does not answer. */
  private async request<A>(
    method: string,
    params: Params,
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
      if (one.drawing?.files.some((file) => same(file, document.uri)) !== true) continue;
      clearTimeout(one.following);
      one.following = setTimeout(() => void this.tellCursor(one, document.uri, selection.active), REST);
    }
  }

  private async tellCursor(one: Open, file: Uri, position: Position): Promise<void> {
    const { uri, drawing, following } = one;
    if (drawing === undefined) return;
    const { line, character } = position;
    const params = { uri, key: drawing.key, file: file.toString(), position: { line, character } };
    const at = await this.request<CursorAnswer>(cursorRequest, params);
    // It is another drawing by now, or the cursor has moved on.
    if (at === undefined || one.drawing !== drawing || one.following !== following) return;
    send(one, { type: 'cursor', origin: at.origin ?? null, sheets: at.sheets });
  }

  private async select(one: Open, origin: string, end: End | null): Promise<void> {
    const { uri, drawing, panel } = one;
    if (drawing === undefined) return;
    const params = { uri, key: drawing.key, origin, end: end ?? undefined };
    const place = await this.request<Place>(placeRequest, params);
    if (place !== undefined) await reveal(place, panel.viewColumn);
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
