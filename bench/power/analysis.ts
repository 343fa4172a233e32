/** How long the analysis of a boat of 200 devices takes, from its model to its findings. */
import { EmptyFileSystem, URI } from 'langium';
import { analyse } from '../../src/checks/analyse.js';
import { loadLibrary } from '../../src/language/library/documents.js';
import { lowerVessel } from '../../src/language/lowering/vessel.js';
import { createCoreServices, smallWorld } from '../../src/language/module.js';
import { generateBoat } from '../boats/boat.js';
import { percentileOf, settle, startWatch, type Span } from '../measure/figures.js';

const TODAY = '2026-01-01';

/** The first twenty warm up. */
const ROUNDS = 60;

export async function measureAnalysis(): Promise<Span> {
  const { shared } = createCoreServices(EmptyFileSystem, smallWorld(TODAY));
  const { LangiumDocumentFactory: factory, LangiumDocuments: all, DocumentBuilder } = shared.workspace;
  await DocumentBuilder.build(loadLibrary(shared), { validation: false });
  const documents = generateBoat(200, 'one file').files.map(({ path, text }) =>
    factory.fromString(text, URI.parse(`file:///boat/${path}`)),
  );
  for (const document of documents) all.addDocument(document);
  await DocumentBuilder.build(documents, { validation: false });
  const [document] = documents;
  const closure =
    document === undefined ? undefined : shared.naming.Closures.closureOf(document.uri.toString());
  if (closure === undefined) throw new Error('The boat has no vessel.');
  const spans: Span[] = [];
  for (let round = 0; round < ROUNDS; round++) {
    // A model made anew, as after an edit: nothing that was worked out before and kept by object may serve.
    const fresh = lowerVessel(closure)?.vessel;
    if (fresh === undefined) throw new Error('The boat has no vessel.');
    settle();
    const watch = startWatch();
    analyse(fresh, { today: TODAY });
    const span = watch();
    if (round >= 20) spans.push(span);
  }
  return percentileOf(spans, 0.5);
}
