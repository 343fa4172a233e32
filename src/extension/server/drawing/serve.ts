/** Answers requests for drawings, between edits: an edit waits for one step at most, and ends the rest. */
import { DocumentState, type LangiumDocument } from 'langium';
import type { CancellationToken, Connection } from 'vscode-languageserver';
import { drawSet } from '../../../documents/draw.js';
import { toSvg } from '../../../documents/formats/svg.js';
import { hashOf } from '../../../documents/numbering.js';
import type { KeptPlaces, Sheet } from '../../../documents/sheet.js';
import type { Analysis } from '../../../checks/analysis.js';
import type { EditorSharedServices } from '../../../language/editor/module.js';
import { elementsOf, portsOf } from './elements.js';
import {
  drawingChanged,
  drawingRequest,
  type Drawing,
  type DrawingAnswer,
  type DrawingParams,
  type DrawnSheet,
  type Reach,
} from './protocol.js';
import { reachesOf } from './reach.js';

/** How long nobody has to have typed, in ms; for a boat that takes long to draw, several times as long as she takes. */
const IDLE = 250;
const TIMES = 3;
const LONGEST = 4_000;
/** So long, in ms, others wait at most while it is worked out what sources reach. */
const SLICE = 20;

/** The last drawing of a vessel. */
interface Kept {
  readonly analysis: Analysis;
  readonly version: string;
  readonly sheets: readonly Sheet[];
  readonly drawn: readonly DrawnSheet[];
  readonly places: KeptPlaces;
  readonly key: string;
  /** Undefined until they are worked out. */
  readonly reaches: readonly Reach[] | undefined;
  /** The last one that was whole. */
  readonly answer: Drawing | undefined;
}

/** Registers the answers; they go with the connection. */
export function serveDrawings(connection: Connection, shared: EditorSharedServices): void {
  const { DocumentBuilder: builder, WorkspaceLock: lock } = shared.workspace;
  const kept = new Map<string, Kept>();
  let changes = 0;
  let changedAt = 0;
  let took = 0;
  let asked = false;
  builder.onUpdate((_, deleted) => {
    changes++;
    changedAt = Date.now();
    for (const uri of deleted) kept.delete(uri.toString());
  });
  builder.onBuildPhase(DocumentState.Validated, async () => {
    // An editor that never asked would not know what it is told.
    if (asked) await connection.sendNotification(drawingChanged);
  });
  const idle = async (token: CancellationToken): Promise<void> => {
    const wait = Math.min(LONGEST, Math.max(IDLE, TIMES * took));
    for (;;) {
      const left = changedAt + wait - Date.now();
      if (left <= 0 || token.isCancellationRequested) return;
      await pause(left);
    }
  };
  /** Undefined if something changed before it was done. */
  const attempt = async (
    params: DrawingParams,
    token: CancellationToken,
  ): Promise<DrawingAnswer | undefined> => {
    const mine = changes;
    const steps = answering(shared, kept, params);
    let longest = 0;
    for (;;) {
      const done: DrawingAnswer[] = [];
      await lock.read(() => {
        if (mine !== changes || token.isCancellationRequested) return;
        const start = Date.now();
        const step = steps.next();
        longest = Math.max(longest, Date.now() - start);
        if (step.done === true) done.push(step.value);
      });
      if (done[0] !== undefined) took = longest;
      if (done[0] !== undefined || mine !== changes || token.isCancellationRequested) return done[0];
      // What has come in meanwhile goes first.
      await pause(0);
    }
  };
  connection.onRequest(
    drawingRequest,
    async (params: Partial<DrawingParams>, token: CancellationToken): Promise<DrawingAnswer | null> => {
      asked = true;
      const { uri, known, version } = params;
      if (typeof uri !== 'string') return { kind: 'none', reason: 'No file was named to be drawn.' };
      while (!token.isCancellationRequested) {
        await idle(token);
        const answer = await attempt({ uri, known, version }, token);
        if (answer !== undefined) return answer;
      }
      return null;
    },
  );
}

const pause = (milliseconds: number): Promise<void> =>
  new Promise((resolve) => void setTimeout(resolve, milliseconds));

/** An answer in steps, between which others may have their turn. */
function* answering(
  shared: EditorSharedServices,
  kept: Map<string, Kept>,
  { uri, known, version = '' }: DrawingParams,
): Generator<undefined, DrawingAnswer> {
  const closure = shared.naming.Closures.closureOf(uri);
  if (closure === undefined) return { kind: 'none', reason: 'This file is not open as a boat.' };
  const { root, documents } = closure;
  const before = kept.get(root);
  const broken = documents.find(hasSyntaxError);
  // A half-typed line takes its device away and gives it back: the sheet would flicker, and places be lost.
  if (broken !== undefined && before?.answer !== undefined)
    return {
      ...before.answer,
      sheets: known === before.answer.key ? undefined : before.answer.sheets,
      old: `${nameOf(broken.uri.path)} has a syntax error: this is the boat as she was before it.`,
    };
  const found = shared.analysis.Analyses.last(uri);
  if (found === undefined)
    return { kind: 'none', reason: 'No vessel is declared here: open the drawing from a file of a boat.' };
  const { analysis, places } = found;
  const same = before?.analysis === analysis && before.version === version;
  const drawn: Kept = same
    ? before
    : {
        ...draw(analysis, root, version, before),
        analysis,
        version,
        reaches: undefined,
        answer: before?.answer,
      };
  // Kept at once: whoever types before the rest is done finds the boxes where they stand now.
  kept.set(root, drawn);
  const reaches: Reach[] = [...(drawn.reaches ?? [])];
  if (drawn.reaches === undefined) {
    yield;
    let since = Date.now();
    for (const reach of reachesOf(analysis)) {
      reaches.push(reach);
      if (Date.now() - since < SLICE) continue;
      yield;
      since = Date.now();
    }
  }
  const { key } = drawn;
  const answer: Drawing = {
    kind: 'drawing',
    vessel: analysis.vessel.name,
    root,
    files: found.closure.documents.map((document) => document.uri.toString()),
    key,
    sheets: drawn.drawn,
    elements: elementsOf(
      drawn.sheets.map(({ scene }) => scene),
      places,
    ),
    reaches,
    old: undefined,
  };
  kept.set(root, { ...drawn, reaches, answer });
  return known === key ? { ...answer, sheets: undefined } : answer;
}

function draw(
  analysis: Analysis,
  root: string,
  version: string,
  before: Kept | undefined,
): Pick<Kept, 'sheets' | 'drawn' | 'places' | 'key'> {
  const { sheets, places } = drawSet(analysis, {
    paper: 'A3',
    file: nameOf(root),
    version: version === '' ? undefined : version,
    places: before?.places,
  });
  const drawn = sheets.map(({ scene }): DrawnSheet => ({
    id: scene.id,
    title: scene.title,
    width: scene.width,
    height: scene.height,
    svg: toSvg(scene),
    ports: portsOf(scene),
  }));
  const key = hashOf(JSON.stringify(drawn)).toString(16);
  return { sheets, drawn, places: { ...before?.places, ...places }, key };
}

const hasSyntaxError = ({ parseResult, uri }: LangiumDocument): boolean =>
  uri.scheme !== 'builtin' && (parseResult.parserErrors.length > 0 || parseResult.lexerErrors.length > 0);

/** The last part of a path, as a reader knows it. */
function nameOf(path: string): string {
  const name = path.slice(path.lastIndexOf('/') + 1);
  try {
    return decodeURIComponent(name);
  } catch {
    return name;
  }
}
