/** Sends diagnostics, those of options too; and sees to it that options are analysed while nobody types. */
import { DocumentState, type LangiumDocument } from 'langium';
import type { ClientCapabilities, Connection, Diagnostic } from 'vscode-languageserver';
import { CodeLensRefreshRequest, InlayHintRefreshRequest } from 'vscode-languageserver';
import type { EditorSharedServices } from './module.js';
import { thinkWhenIdle, type Thinker } from './thoughts.js';

/** How long nobody has to have typed before options are analysed. */
const IDLE_MILLISECONDS = 300;

/**
 * Sends diagnostics with the version they belong to; for a file that is not open, only when they change. The bundled library
 * has none.
 */
export function publishDiagnostics(
  connection: Connection,
  shared: EditorSharedServices,
  client: () => ClientCapabilities,
  thinker: Thinker | undefined,
): void {
  const { DocumentBuilder: builder, TextDocuments: open } = shared.workspace;
  const sent = new Map<string, string>();
  const send = async (document: LangiumDocument): Promise<void> => {
    if (!document.diagnostics || document.uri.scheme === 'builtin') return;
    const uri = document.uri.toString();
    const version = open.get(document.uri)?.version;
    const { diagnostics } = document;
    const key = `${version ?? ''} ${JSON.stringify(diagnostics)}`;
    if (sent.get(uri) === key) return;
    sent.set(uri, key);
    await connection.sendDiagnostics(
      version === undefined ? { uri, diagnostics } : { uri, version, diagnostics },
    );
  };
  builder.onUpdate(async (_, deleted) => {
    for (const uri of deleted.map(String)) {
      sent.delete(uri);
      const diagnostics: Diagnostic[] = [];
      await connection.sendDiagnostics({ uri, diagnostics });
    }
  });
  builder.onDocumentPhase(DocumentState.Validated, send);
  const again = async (root: string): Promise<void> => {
    for (const document of shared.naming.Closures.closureOf(root)?.documents ?? []) {
      if (document.state < DocumentState.Validated || document.uri.scheme === 'builtin') continue;
      const validator = shared.ServiceRegistry.getServices(document.uri).validation.DocumentValidator;
      document.diagnostics = await validator.validateDocument(document);
      await send(document);
    }
  };
  whenIdle(shared, again);
  // What stands inside an option is shown once the option has been analysed.
  const refresh = (): void => {
    const { workspace } = client();
    const refused = (): void => undefined;
    if (workspace?.inlayHint?.refreshSupport === true)
      connection.sendRequest(InlayHintRefreshRequest.type).catch(refused);
    if (workspace?.codeLens?.refreshSupport === true)
      connection.sendRequest(CodeLensRefreshRequest.type).catch(refused);
  };
  shared.analysis.Variants.onAnalysed = refresh;
  if (thinker)
    thinkWhenIdle(shared, thinker, async (root) => {
      await again(root);
      refresh();
    });
}

/** Analyses the options of each vessel, one at a time, once nothing has changed for a while; then tells of each vessel. */
function whenIdle(shared: EditorSharedServices, analysed: (root: string) => Promise<void>): void {
  const { DocumentBuilder: builder, WorkspaceLock: lock } = shared.workspace;
  const { Analyses: analyses, Variants: variants } = shared.analysis;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let round = 0;
  /** One step at a time holds the lock: an edit waits for one option at most, and ends the round. */
  const step = async (mine: number, act: () => void | Promise<void>): Promise<boolean> => {
    await lock.read(async () => {
      if (mine === round) await act();
    });
    return mine === round;
  };
  const work = async (mine: number): Promise<void> => {
    let roots: readonly string[] = [];
    if (!(await step(mine, () => void (roots = shared.naming.Closures.vesselFiles())))) return;
    for (const root of roots) {
      const before = variants.runs;
      let left: (() => void)[] = [];
      const going = await step(mine, () => {
        const base = analyses.of(root);
        left = base ? variants.optionsOf(base).map((option) => () => void variants.alone(base, option)) : [];
      });
      if (!going) return;
      if (left.length === 0) continue;
      for (const one of left) if (!(await step(mine, one))) return;
      if (!(await step(mine, () => analysed(root)))) return;
      if (variants.runs > before) variants.onAnalysed();
    }
  };
  builder.onUpdate(() => {
    round++;
    clearTimeout(timer);
  });
  builder.onBuildPhase(DocumentState.Validated, () => {
    const mine = ++round;
    clearTimeout(timer);
    timer = setTimeout(() => {
      void work(mine);
    }, IDLE_MILLISECONDS);
    // A process that has nothing else to do may end.
    if (typeof timer === 'object' && 'unref' in timer) timer.unref();
    return Promise.resolve();
  });
}
