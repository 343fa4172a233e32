/** Answers requests for drawings. They are drawn by an artist, beside the server where that can be; what is out of date is not sent. */
import { DocumentState, type LangiumDocument } from 'langium';
import type { CancellationToken, Connection } from 'vscode-languageserver';
import { DRAWING_FORMATS } from '../../../documents/formats/files.js';
import type { EditorSharedServices } from '../../../language/editor/module.js';
import type { Closure } from '../../../language/naming/closures.js';
import type { Artist, Drawn, Title } from './artist/artist.js';
import { elementsOf } from './elements.js';
import { base64 } from './base64.js';
import {
  drawingChanged,
  drawingRequest,
  exportRequest,
  reachRequest,
  type Drawing,
  type DrawingAnswer,
  type DrawingParams,
  type ExportAnswer,
  type ExportParams,
  type Reach,
  type ReachParams,
} from './protocol.js';
import { choose, type Chosen, type Made } from './subject.js';

/** How long nobody has to have typed, in ms; where drawing holds up the server, several times as long as it takes. */
const IDLE = 250;
const TIMES = 3;
const LONGEST = 4_000;

/** The last drawing of a vessel with some of its options. */
interface Kept extends Made {
  readonly title: Title;
  readonly drawn: Drawn;
  /** The last one that was whole. */
  readonly answer: Drawing | undefined;
}

/** Registers the answers; they go with the connection. */
export function serveDrawings(
  connection: Connection,
  shared: EditorSharedServices,
  artist: Artist,
  revision: RevisionOf,
): void {
  const { DocumentBuilder: builder, WorkspaceLock: lock } = shared.workspace;
  const kept = new Map<string, Kept>();
  let changes = 0;
  let changedAt = 0;
  let took = 0;
  let asked = false;
  builder.onUpdate((_, deleted) => {
    changes++;
    changedAt = Date.now();
    for (const uri of deleted)
      for (const key of kept.keys()) if (key.split('\n')[0] === uri.toString()) kept.delete(key);
  });
  builder.onBuildPhase(DocumentState.Validated, async () => {
    // An editor that never asked would not know what it is told.
    if (asked) await connection.sendNotification(drawingChanged);
  });
  const idle = async (token: CancellationToken): Promise<void> => {
    const wait = artist.blocks ? Math.min(LONGEST, Math.max(IDLE, TIMES * took)) : IDLE;
    for (;;) {
      const left = changedAt + wait - Date.now();
      if (left <= 0 || token.isCancellationRequested) return;
      await pause(left);
    }
  };
  /** Something that wants the documents as they are, between edits; undefined if they changed since, or nobody waits any more. */
  const between = async <T>(mine: number, token: CancellationToken, use: () => T): Promise<T | undefined> => {
    const done: T[] = [];
    await lock.read(() => {
      if (mine === changes && !token.isCancellationRequested) done.push(use());
    });
    return done[0];
  };
  /** Undefined if something changed before it was done. */
  const attempt = async (
    params: DrawingParams,
    token: CancellationToken,
  ): Promise<DrawingAnswer | undefined> => {
    const mine = changes;
    const ready = await between(mine, token, () => prepared(shared, kept, revision, params));
    if (ready === undefined || 'kind' in ready) return ready;
    const start = Date.now();
    const now = await draw(artist, kept, ready, await titleOf(ready));
    took = Date.now() - start;
    return between(mine, token, () => answered(kept, ready, now, params.known));
  };
  connection.onRequest(
    drawingRequest,
    async (params: Partial<DrawingParams>, token: CancellationToken): Promise<DrawingAnswer | null> => {
      asked = true;
      const { uri, known, version } = params;
      if (typeof uri !== 'string') return { kind: 'none', reason: 'No file was named to be drawn.' };
      while (!token.isCancellationRequested) {
        await idle(token);
        const answer = await attempt({ uri, known, version, options: names(params.options) }, token);
        if (answer !== undefined) return answer;
        // What has come in meanwhile goes first.
        await pause(0);
      }
      return null;
    },
  );
  connection.onRequest(reachRequest, async (params: Partial<ReachParams>): Promise<Reach | null> => {
    const { uri, key, origin } = params;
    const root = typeof uri === 'string' ? shared.naming.Closures.closureOf(uri)?.root : undefined;
    if (root === undefined || typeof origin !== 'string') return null;
    const one = [...kept].find(
      ([name, other]) => name.split('\n')[0] === root && other.drawn.key === key,
    )?.[1];
    return (one && (await artist.reach(one.subject, origin))) ?? null;
  });
  connection.onRequest(exportRequest, async (params: Partial<ExportParams>): Promise<ExportAnswer> => {
    const { uri, version, sheet } = params;
    const format = DRAWING_FORMATS.find((one) => one === params.format);
    if (typeof uri !== 'string' || format === undefined)
      return { kind: 'none', reason: 'No file was named to be drawn, or no format.' };
    const ready = await lock.read(() =>
      prepared(shared, kept, revision, { uri, version, options: names(params.options) }),
    );
    if ('kind' in ready && ready.kind === 'none') return ready;
    const broken = 'kind' in ready ? ready.old : ready.broken && `${ready.broken} has a syntax error.`;
    if ('kind' in ready || broken !== undefined)
      return {
        kind: 'none',
        reason: `Nothing was exported. ${broken ?? ''} Mend it first, so that the files show what is written.`,
      };
    const files = await artist.write(ready.chosen.subject, await titleOf(ready), {
      format,
      sheet: typeof sheet === 'string' ? sheet : undefined,
    });
    if (files === undefined)
      return {
        kind: 'none',
        reason: `Here only SVG can be written. "wireloft draw --format ${format}" writes it, and so does the editor on a desktop.`,
      };
    if (files.length === 0)
      return {
        kind: 'none',
        reason: 'There is nothing to export: no sheet of this boat has anything on it.',
      };
    return {
      kind: 'files',
      root: ready.root,
      files: files.map(({ name, content }) => ({
        name,
        bytes: base64(typeof content === 'string' ? new TextEncoder().encode(content) : content),
      })),
    };
  });
}

const pause = (milliseconds: number): Promise<void> =>
  new Promise((resolve) => void setTimeout(resolve, milliseconds));

const names = (given: unknown): readonly string[] =>
  Array.isArray(given) ? given.filter((one): one is string => typeof one === 'string') : [];

/** Asked between edits, so that it finds the texts that are drawn. */
type RevisionOf = (closure: Closure) => Promise<string | undefined>;

interface Ready {
  readonly root: string;
  readonly closure: Closure;
  readonly slot: string;
  readonly chosen: Chosen;
  readonly title: Title;
  readonly revision: Promise<string | undefined>;
  /** The file with a syntax error, if any. */
  readonly broken: string | undefined;
}

/** What is to be drawn, or what there is to say at once. */
function prepared(
  shared: EditorSharedServices,
  kept: ReadonlyMap<string, Kept>,
  revision: RevisionOf,
  { uri, known, version, options = [] }: DrawingParams,
): Ready | DrawingAnswer {
  const closure = shared.naming.Closures.closureOf(uri);
  if (closure === undefined) return { kind: 'none', reason: 'This file is not open as a boat.' };
  const { root, documents } = closure;
  const broken = documents.find(hasSyntaxError);
  const last = kept.get(slotOf(root, options))?.answer;
  // A half-typed line takes its device away and gives it back: the sheet would flicker, and places be lost.
  if (broken !== undefined && last !== undefined)
    return {
      ...last,
      sheets: known === last.key ? undefined : last.sheets,
      old: `${nameOf(broken.uri.path)} has a syntax error: this is the boat as she was before it.`,
    };
  const found = shared.analysis.Analyses.last(uri);
  if (found === undefined)
    return { kind: 'none', reason: 'No vessel is declared here: open the drawing from a file of a boat.' };
  const chosen = choose(shared, found, options, (own) => kept.get(slotOf(root, own)));
  const title = { file: nameOf(root), version: version === '' ? undefined : version };
  return {
    root,
    closure: found.closure,
    slot: slotOf(root, chosen.names),
    chosen,
    title,
    revision: found.analysis.vessel.revision === undefined ? revision(closure) : Promise.resolve(undefined),
    broken: broken && nameOf(broken.uri.path),
  };
}

/** The sheets: those of before where nothing has changed of what they show. */
async function draw(
  artist: Artist,
  kept: Map<string, Kept>,
  { root, slot, chosen }: Ready,
  title: Title,
): Promise<Kept> {
  const before = kept.get(slot);
  const { base, subject } = chosen;
  if (before?.subject === subject && sameTitle(before.title, title)) return before;
  // With an option chosen, boxes stay where they stood without it.
  const places = (before ?? kept.get(root))?.drawn.places;
  const drawn = await artist.draw(subject, title, places);
  const now = { base, subject, title, drawn, answer: before?.answer };
  // Kept at once: whoever has typed meanwhile finds the boxes where they stand now.
  kept.set(slot, now);
  return now;
}

function answered(
  kept: Map<string, Kept>,
  { root, closure, slot, chosen }: Ready,
  now: Kept,
  known: string | undefined,
): Drawing {
  const answer: Drawing = {
    kind: 'drawing',
    vessel: chosen.subject.vessel.name,
    root,
    files: closure.documents.map((document) => document.uri.toString()),
    key: now.drawn.key,
    sheets: now.drawn.sheets,
    elements: elementsOf(now.drawn.origins, chosen.places),
    options: chosen.options,
    old: undefined,
  };
  kept.set(slot, { ...now, base: chosen.base, answer });
  return known === now.drawn.key ? { ...answer, sheets: undefined } : answer;
}

/** A drawing's place in memory: the boat as she is has that of her file. */
const slotOf = (root: string, options: readonly string[]): string => [root, ...options].join('\n');

async function titleOf({ title, revision }: Ready): Promise<Title> {
  return { ...title, revision: await revision };
}

const sameTitle = (a: Title, b: Title): boolean =>
  a.file === b.file && a.version === b.version && a.revision === b.revision;

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
