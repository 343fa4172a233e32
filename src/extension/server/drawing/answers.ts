/** What a drawing is made of, and what is answered about one that was made. */
import type { LangiumDocument } from 'langium';
import type { Places } from '../../../vessel/origin.js';
import type { EditorSharedServices } from '../../../language/editor/module.js';
import type { Closure } from '../../../language/naming/closures.js';
import type { Artist, DrawnSheet, Standing, Title } from './artist/artist.js';
import { unpack } from './artist/packed.js';
import type { Kept, Memory } from './memory.js';
import type { Drawing, DrawingAnswer, DrawingParams, ShownSheet } from './protocol.js';
import { choose, placesWith, type Chosen } from './subject.js';

/** Asked between edits, so that it finds the texts that are drawn. */
export type RevisionOf = (closure: Closure) => Promise<string | undefined>;

/** Where boxes stand of a vessel with some of her options. */
export type StandingOf = (root: string, names: readonly string[]) => Promise<Standing>;

/** What is to be drawn. */
export interface Ready {
  readonly root: string;
  readonly closure: Closure;
  readonly chosen: Chosen;
  readonly title: Title;
  readonly revision: Promise<string | undefined>;
  /** The file with a syntax error, if any. */
  readonly broken: string | undefined;
}

/** What is to be drawn, or what there is to say at once. */
export function prepared(
  shared: EditorSharedServices,
  memory: Memory,
  revision: RevisionOf,
  params: DrawingParams,
): Ready | DrawingAnswer {
  const { uri, version, options = [] } = params;
  const closure = shared.naming.Closures.closureOf(uri);
  if (closure === undefined) return { kind: 'none', reason: 'This file is not open as a boat.' };
  const { root, documents } = closure;
  const broken = documents.find(hasSyntaxError);
  const last = memory.of(root, options);
  // A half-typed line takes its device away and gives it back: the sheet would flicker, and places be lost.
  if (broken !== undefined && last !== undefined && last.broken === undefined)
    return answered(
      shared,
      last,
      params,
      `${nameOf(broken.uri.path)} has a syntax error: this is the boat as she was before it.`,
    );
  const found = shared.analysis.Analyses.last(uri);
  if (found === undefined)
    return { kind: 'none', reason: 'No vessel is declared here: open the drawing from a file of a boat.' };
  return {
    root,
    closure: found.closure,
    chosen: choose(shared, found, options, (own) => memory.of(root, own)),
    title: { file: nameOf(root), version: version === '' ? undefined : version },
    revision: found.analysis.vessel.revision === undefined ? revision(closure) : Promise.resolve(undefined),
    broken: broken && nameOf(broken.uri.path),
  };
}

/** The sheets: those of before where nothing has changed of what they show. Kept at once: whoever types on finds the boxes there. */
export async function draw(
  artist: Artist,
  memory: Memory,
  ready: Ready,
  standing: StandingOf,
): Promise<Kept> {
  const { root, closure, broken } = ready;
  const { base, subject, names, options } = ready.chosen;
  const title = await titleOf(ready);
  const before = memory.of(root, names);
  const same = before?.subject === subject && sameTitle(before.title, title) && !memory.isAnew(root, names);
  const drawn = same ? before.drawn : await artist.draw(subject, title, await standing(root, names));
  const files = closure.documents.map((document) => document.uri.toString());
  const vessel = subject.vessel.name;
  const now = { base, subject, vessel, root, files, options, names, title, drawn, broken };
  memory.keep(now);
  return now;
}

export function answered(
  shared: EditorSharedServices,
  now: Kept,
  { sheet, known }: Pick<DrawingParams, 'sheet' | 'known'>,
  old = now.broken && `${now.broken} has a syntax error: what cannot be read for it is not drawn.`,
): Drawing {
  const { vessel, root, files, options, drawn } = now;
  const shown = sheetToShow(drawn.sheets, sheet);
  return {
    kind: 'drawing',
    vessel,
    root,
    files,
    key: drawn.key,
    sheets: drawn.sheets.map(({ id, title }) => ({ id, title })),
    shown: shown && pictured(shown, placesOf(shared, now), known),
    options,
    old,
  };
}

/** A sheet as it is sent; without its picture to an editor that shows it already. */
export function pictured(
  { id, key, origins, picture }: DrawnSheet,
  places: Places | undefined,
  known?: string,
): ShownSheet {
  return {
    id,
    key,
    origins: origins.filter((origin) => places?.find({ origin }) !== undefined),
    picture: known === key ? undefined : unpack(picture),
  };
}

/** Where the texts say what a drawing shows, as they are now. */
export function placesOf(shared: EditorSharedServices, { root, names }: Kept): Places | undefined {
  const found = shared.analysis.Analyses.last(root);
  return found && placesWith(shared, found, names);
}

/** The sheet that is wanted; else the first of its kind, or the first of all. Undefined where there is none. */
function sheetToShow<S extends { readonly id: string }>(
  sheets: readonly S[],
  wanted: string | undefined,
): S | undefined {
  const kind = wanted?.replace(/-\d+$/, '');
  return (
    sheets.find(({ id }) => id === wanted) ??
    sheets.find(({ id }) => id.replace(/-\d+$/, '') === kind) ??
    sheets[0]
  );
}

export async function titleOf({ title, revision }: Ready): Promise<Title> {
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
