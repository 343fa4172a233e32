/** How long parsing, linking and analysing take in a process that is warm, and what bare Langium takes for the same text. */
import { EmptyFileSystem, URI, type LangiumDocument, type LangiumSharedCoreServices } from 'langium';
import { loadLibrary } from '../../src/language/library/documents.js';
import { createCoreServices, smallWorld } from '../../src/language/module.js';
import { reportOn } from '../../src/language/project/build.js';
import { createBareServices } from '../bare/services.js';
import type { Boat } from '../boats/boat.js';
import { percentileOf, settle, startWatch, type Span } from './figures.js';

/** Medians. */
export interface Stages {
  readonly parse: Span;
  readonly link: Span;
  /** Lowering, the checks, and the problems of each file; undefined for bare Langium. */
  readonly analyse: Span | undefined;
  readonly whole: Span;
}

export interface StageFigures {
  readonly own: Stages;
  readonly bare: Stages;
  /** Share of the references that the default scopes resolve, 0 to 1. */
  readonly resolved: number;
  /** Findings of severity error. */
  readonly errors: number;
}

/** Measures both by turns, so that a busy moment of the machine falls on both. */
export async function measureStages(boat: Boat, runs: number): Promise<StageFigures> {
  const own = await createOwn();
  const bare = await createBare();
  const ownRuns: Stages[] = [];
  const bareRuns: Stages[] = [];
  let errors = 0;
  let resolved = 0;
  // The first round of each warms up and is not counted.
  for (let run = 0; run <= runs; run++) {
    const checked = await own(boat, run);
    const linked = await bare(boat, run);
    errors = checked.errors;
    resolved = linked.resolved;
    if (run === 0) continue;
    ownRuns.push(checked.stages);
    bareRuns.push(linked.stages);
  }
  return { own: medians(ownRuns), bare: medians(bareRuns), resolved, errors };
}

function medians(runs: readonly Stages[]): Stages {
  const of = (pick: (one: Stages) => Span): Span => percentileOf(runs.map(pick), 0.5);
  const analysed = runs.flatMap((one) => one.analyse ?? []);
  return {
    parse: of((one) => one.parse),
    link: of((one) => one.link),
    analyse: analysed.length > 0 ? percentileOf(analysed, 0.5) : undefined,
    whole: of((one) => one.whole),
  };
}

type Build = (documents: LangiumDocument[]) => Promise<void>;

function builderOf(shared: LangiumSharedCoreServices): Build {
  const builder = shared.workspace.DocumentBuilder;
  builder.updateBuildOptions = { validation: false };
  return (documents) => builder.build(documents, { validation: false });
}

async function createOwn(): Promise<
  (boat: Boat, run: number) => Promise<{ readonly stages: Stages; readonly errors: number }>
> {
  const { shared, Wireloft } = createCoreServices(EmptyFileSystem, smallWorld('2026-01-01'));
  const build = builderOf(shared);
  await build(loadLibrary(shared));
  return async (boat, run) => {
    const whole = startWatch();
    const parsed = parse(shared, boat, run);
    const link = await watched(() => build(parsed.documents));
    const stop = startWatch();
    const report = reportOn(parsed.documents, shared, Wireloft);
    const stages = { parse: parsed.span, link, analyse: stop(), whole: whole() };
    await clear(shared, boat);
    return { stages, errors: report.vessels.reduce((sum, vessel) => sum + vessel.counts.error, 0) };
  };
}

async function createBare(): Promise<
  (boat: Boat, run: number) => Promise<{ readonly stages: Stages; readonly resolved: number }>
> {
  const shared = createBareServices();
  const build = builderOf(shared);
  // With the library's names in the index, only ports, positions and shortened signals are beyond the default scopes.
  await build(loadLibrary(shared));
  return async (boat, run) => {
    const whole = startWatch();
    const parsed = parse(shared, boat, run);
    const link = await watched(() => build(parsed.documents));
    const stages = { parse: parsed.span, link, analyse: undefined, whole: whole() };
    const references = parsed.documents.flatMap((document) => document.references);
    const lost = references.filter((reference) => reference.error !== undefined).length;
    await clear(shared, boat);
    return { stages, resolved: 1 - lost / references.length };
  };
}

async function watched(work: () => Promise<void>): Promise<Span> {
  const stop = startWatch();
  await work();
  return stop();
}

const uriOf = (path: string): URI => URI.parse(`file:///boat/${path}`);

/** Parses a boat's files into documents. Its title says the run, so that nothing remembered from an earlier one serves. */
function parse(
  shared: LangiumSharedCoreServices,
  boat: Boat,
  run: number,
): { readonly documents: LangiumDocument[]; readonly span: Span } {
  const { LangiumDocumentFactory: factory, LangiumDocuments: all } = shared.workspace;
  const stop = startWatch();
  const documents = boat.files.map(({ path, text }) =>
    factory.fromString(text.replace('Survey vessel', `Survey vessel ${run}`), uriOf(path)),
  );
  const span = stop();
  for (const document of documents) all.addDocument(document);
  return { documents, span };
}

async function clear(shared: LangiumSharedCoreServices, boat: Boat): Promise<void> {
  await shared.workspace.DocumentBuilder.update(
    [],
    boat.files.map(({ path }) => uriOf(path)),
  );
  settle();
}
