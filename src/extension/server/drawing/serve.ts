/** Answers requests for drawings. They are drawn by an artist, beside the server where that can be; what is out of date is not sent. */
import { DocumentState, URI } from 'langium';
import type { CancellationToken, Connection } from 'vscode-languageserver';
import type { Place, Places, Position } from '../../../vessel/origin.js';
import type { EditorSharedServices } from '../../../language/editor/module.js';
import { answered, draw, pictured, placesOf, prepared, type RevisionOf, type StandingOf } from './answers.js';
import type { Artist } from './artist/artist.js';
import { placesBeside } from './beside.js';
import { originAt, placeOf } from './elements.js';
import { exported } from './exporting.js';
import { Memory, type Kept } from './memory.js';
import {
  anewRequest,
  cursorRequest,
  driftRequest,
  drawingChanged,
  drawingRequest,
  exportRequest,
  placeRequest,
  reachRequest,
  sheetRequest,
  type BoatParams,
  type CursorAnswer,
  type CursorParams,
  type DrawingAnswer,
  type DrawingParams,
  type DrawnDrift,
  type DriftParams,
  type ExportAnswer,
  type ExportParams,
  type PlaceParams,
  type Reach,
  type ReachParams,
  type SheetParams,
  type ShownSheet,
} from './protocol.js';

/** How long nobody has to have typed, in ms; where drawing holds up the server, several times as long as it takes. */
const IDLE = 250;
const TIMES = 3;
const LONGEST = 4_000;

/** Registers the answers; they go with the connection. */
export function serveDrawings(
  connection: Connection,
  shared: EditorSharedServices,
  artist: Artist,
  revision: RevisionOf,
): void {
  const { DocumentBuilder: builder, FileSystemProvider: files, WorkspaceLock: lock } = shared.workspace;
  const memory = new Memory();
  let changes = 0;
  let changedAt = 0;
  let took = 0;
  let asked = false;
  builder.onUpdate((_, deleted) => {
    changes++;
    changedAt = Date.now();
    for (const uri of deleted) memory.forget(uri.toString());
  });
  builder.onBuildPhase(DocumentState.Validated, async () => {
    // An editor that never asked would not know what it is told.
    if (asked) await connection.sendNotification(drawingChanged);
  });
  const rootOf = (uri: unknown): string | undefined =>
    typeof uri === 'string' ? shared.naming.Closures.closureOf(uri)?.root : undefined;
  /** In the first drawing, where the file beside the boat says. */
  const standing: StandingOf = async (root, names) =>
    memory.standing(root, names) ??
    (memory.isAnew(root, names)
      ? undefined
      : placesBeside(files, root, (text) => connection.console.warn(text)));
  const inTurn = turns();
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
    // One at a time: what came too late for a drawing that is being made waits here, and only the last of it is drawn.
    return inTurn(rootOf(params.uri) ?? '', async () => {
      const ready = await between(mine, token, () => prepared(shared, memory, revision, params));
      if (ready === undefined || 'kind' in ready) return ready;
      const start = Date.now();
      const now = await draw(artist, memory, ready, standing);
      took = Date.now() - start;
      return between(mine, token, () => answered(shared, now, params));
    });
  };
  connection.onRequest(
    drawingRequest,
    async (given: Partial<DrawingParams>, token: CancellationToken): Promise<DrawingAnswer | null> => {
      asked = true;
      const { uri, sheet, known, version } = given;
      if (typeof uri !== 'string') return { kind: 'none', reason: 'No file was named to be drawn.' };
      const params = { uri, sheet, known, version, options: names(given.options) };
      while (!token.isCancellationRequested) {
        await idle(token);
        const answer = await attempt(params, token);
        if (answer !== undefined) return answer;
        // What has come in meanwhile goes first.
        await pause(0);
      }
      return null;
    },
  );
  /** Something about a drawing that was answered, between edits; null where it is another by now. */
  const about = <T>(
    { uri, key }: { readonly uri?: unknown; readonly key?: unknown },
    use: (one: Kept, places: Places | undefined) => T | undefined,
  ): Promise<T | null> =>
    lock.read(() => {
      const root = rootOf(uri);
      const one = root !== undefined && typeof key === 'string' ? memory.byKey(root, key) : undefined;
      return (one && use(one, placesOf(shared, one))) ?? null;
    });
  connection.onRequest(sheetRequest, (params: Partial<SheetParams>) =>
    about(params, ({ drawn }, places): ShownSheet | undefined => {
      const sheet = drawn.sheets.find(({ id }) => id === params.sheet);
      return sheet && pictured(sheet, places);
    }),
  );
  connection.onRequest(placeRequest, (params: Partial<PlaceParams>) =>
    about(params, (_, places): Place | undefined => {
      const { origin, end } = params;
      return places && typeof origin === 'string' ? placeOf(places, origin, end) : undefined;
    }),
  );
  connection.onRequest(cursorRequest, (params: Partial<CursorParams>) =>
    about(params, ({ drawn }, places): CursorAnswer | undefined => {
      const { file, position } = params;
      if (places === undefined || typeof file !== 'string' || !isPosition(position)) return undefined;
      const all = new Set(drawn.sheets.flatMap(({ origins }) => origins));
      const origin = originAt(places, all, URI.parse(file).toString(), position);
      const shows = drawn.sheets.filter(({ origins }) => origin !== undefined && origins.includes(origin));
      return { origin, sheets: shows.map(({ id }) => id) };
    }),
  );
  connection.onRequest(reachRequest, async (params: Partial<ReachParams>): Promise<Reach | null> => {
    const { origin } = params;
    const one = await about(params, (kept) => kept);
    if (one === null || typeof origin !== 'string') return null;
    return (await artist.reach(one.subject, origin)) ?? null;
  });
  connection.onRequest(
    driftRequest,
    async (params: Partial<DriftParams>): Promise<readonly DrawnDrift[] | null> => {
      const one = await about(params, (kept) => kept);
      // It takes as long as drawing: nobody waits for it who draws in the server itself.
      return one === null || artist.blocks ? null : artist.drift(one.subject, one.drawn.places);
    },
  );
  connection.onRequest(anewRequest, async ({ uri, options }: Partial<BoatParams>): Promise<null> => {
    const root = rootOf(uri);
    // A drawing that is being made would keep the places that are to be forgotten.
    if (root !== undefined)
      await inTurn(root, () => {
        memory.layAnew(root, names(options));
        return Promise.resolve();
      });
    return null;
  });
  connection.onRequest(exportRequest, (params: Partial<ExportParams>): Promise<ExportAnswer> =>
    exported(artist, standing, params, names(params.options), (wanted) =>
      lock.read(() => prepared(shared, memory, revision, wanted)),
    ),
  );
}

const pause = (milliseconds: number): Promise<void> =>
  new Promise((resolve) => void setTimeout(resolve, milliseconds));

/** Does what is given for one name one after another, whatever becomes of what was before. */
function turns(): <T>(name: string, work: () => Promise<T>) => Promise<T> {
  const last = new Map<string, Promise<unknown>>();
  return (name, work) => {
    const mine = (last.get(name) ?? Promise.resolve()).then(work);
    const over = mine
      .catch(() => undefined)
      .then(() => {
        if (last.get(name) === over) last.delete(name);
      });
    last.set(name, over);
    return mine;
  };
}

const names = (given: unknown): readonly string[] =>
  Array.isArray(given) ? given.filter((one): one is string => typeof one === 'string') : [];

function isPosition(value: unknown): value is Position {
  if (typeof value !== 'object' || value === null) return false;
  const { line, character } = value as Readonly<Record<string, unknown>>;
  return typeof line === 'number' && typeof character === 'number';
}
