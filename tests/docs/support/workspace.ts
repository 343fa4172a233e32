/** Checks specs that are in memory only, beside the catalogues of the examples. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { EmptyFileSystem, URI, type LangiumDocument } from 'langium';
import type { Solver } from '../../../src/checks/design/solver.js';
import { loadLibrary } from '../../../src/language/library/documents.js';
import { createCoreServices } from '../../../src/language/module.js';
import { reportOn, type Chosen } from '../../../src/language/project/build.js';
import { withCheaper } from '../../../src/language/project/cheaper.js';
import type { Problem, ProjectReport } from '../../../src/language/project/report.js';

const catalogues = join(import.meta.dirname, '..', '..', '..', 'examples', 'catalogue');
const ROOT = URI.parse('file:///boats');
/** Waivers hold or expire by this day. */
const TODAY = '2026-11-25';

/** Checks files by their names below one folder, in which the catalogues are as `catalogue/tern.loft`. */
export type Check = (
  files: ReadonlyMap<string, string>,
  chosen?: Chosen,
  /** Looks for cheaper designs as well. */
  solver?: Solver,
) => Promise<ProjectReport>;

/** Makes a workspace; the catalogues are parsed once, however often it checks. */
export async function createWorkspace(): Promise<Check> {
  const world = { root: () => ROOT, today: () => TODAY, surroundings: { refusal: () => undefined } };
  const { shared, Wireloft } = createCoreServices(EmptyFileSystem, world);
  const {
    LangiumDocuments: documents,
    LangiumDocumentFactory: factory,
    DocumentBuilder: builder,
  } = shared.workspace;
  const add = (name: string, text: string): LangiumDocument => {
    const document = factory.fromString(text, URI.parse(`${ROOT.toString()}/${name}`));
    documents.addDocument(document);
    return document;
  };
  const shelf = readdirSync(catalogues).map((name) =>
    add(`catalogue/${name}`, readFileSync(join(catalogues, name), 'utf8')),
  );
  await builder.build([...loadLibrary(shared), ...shelf], { validation: false });

  return async (files, chosen, solver) => {
    const added = [...files].map(([name, text]) => add(name, text));
    await builder.build(added, { validation: false });
    const found = reportOn(added, shared, Wireloft, chosen);
    const report = solver ? withCheaper(found, shared, solver) : found;
    const text = new Map(added.map((document) => [document.uri.toString(), document.textDocument.getText()]));
    await builder.update(
      [],
      added.map((document) => document.uri),
    );
    return { ...report, text: (file) => text.get(file) };
  };
}

/** Every problem of a report once, whichever of its parts tells of it. */
export function problemsOf(report: ProjectReport): readonly Problem[] {
  const all = [...report.vessels, ...report.files].flatMap((part) => part.problems);
  return [...new Map(all.map((problem) => [JSON.stringify(problem), problem])).values()];
}
