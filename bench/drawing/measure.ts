/** How long drawing takes: a boat from its text to the SVG of every sheet, and its network sheet beside Graphviz dot on the same graph. */
import { Graphviz } from '@hpcc-js/wasm-graphviz';
import { EmptyFileSystem, URI } from 'langium';
import { drawSheets } from '../../src/documents/draw.js';
import type { Diagram } from '../../src/documents/diagram/diagram.js';
import { toSvg } from '../../src/documents/formats/svg.js';
import { collectFacts } from '../../src/documents/sheets/facts.js';
import { networkDiagram } from '../../src/documents/sheets/network.js';
import type { Sheet } from '../../src/documents/sheet.js';
import { loadLibrary } from '../../src/language/library/documents.js';
import { createCoreServices, smallWorld } from '../../src/language/module.js';
import { reportOn } from '../../src/language/project/build.js';
import { measure } from '../../tests/documents/measure.js';
import { generateBoat } from '../boats/boat.js';
import { percentileOf, settle, startWatch, type Span } from '../measure/figures.js';

export interface DrawingRow {
  readonly devices: number;
  readonly sheets: number;
  /** From text to the SVG of every sheet. */
  readonly whole: Span;
  /** Of which from the analysis on. */
  readonly drawing: Span;
  /** Boxes and wires of the network sheet. */
  readonly boxes: number;
  readonly wires: number;
  /** Of its pages together: crossings and bends to a wire, and the length of the ways over the shortest at right angles. */
  readonly crossings: number;
  readonly bends: number;
  readonly detour: number;
  /** The network sheet, from the analysis to SVG. */
  readonly network: Span;
  /** dot on its graph, with right-angled lines, from text to SVG. */
  readonly dot: Span;
}

const SIZES = [25, 100, 500];

export async function measureDrawing(): Promise<readonly DrawingRow[]> {
  const graphviz = await Graphviz.load();
  const rows: DrawingRow[] = [];
  for (const devices of SIZES) rows.push(await measureSize(devices, graphviz));
  return rows;
}

async function measureSize(devices: number, graphviz: Graphviz): Promise<DrawingRow> {
  const { shared, Wireloft } = createCoreServices(EmptyFileSystem, smallWorld('2026-01-01'));
  const { LangiumDocumentFactory: factory, LangiumDocuments: all, DocumentBuilder } = shared.workspace;
  DocumentBuilder.updateBuildOptions = { validation: false };
  await DocumentBuilder.build(loadLibrary(shared), { validation: false });
  const boat = generateBoat(devices, 'one file');
  const uriOf = (path: string): URI => URI.parse(`file:///boat/${path}`);
  const spans = { whole: [] as Span[], drawing: [] as Span[], network: [] as Span[], dot: [] as Span[] };
  const [warm, rounds] = devices < 500 ? [12, 21] : [1, 3];
  let sheets = 0;
  let graph = { boxes: 0, wires: 0 };
  let quality = { crossings: NaN, bends: NaN, detour: NaN };
  for (let round = 0; round < warm + rounds; round++) {
    settle();
    const whole = startWatch();
    // The title says the round, so that nothing remembered from an earlier one serves.
    const documents = boat.files.map(({ path, text }) =>
      factory.fromString(text.replace('Survey vessel', `Survey vessel ${round}`), uriOf(path)),
    );
    for (const document of documents) all.addDocument(document);
    await DocumentBuilder.build(documents, { validation: false });
    const analysis = reportOn(documents, shared, Wireloft).vessels[0]?.analysis;
    if (analysis === undefined) throw new Error('The boat has no vessel.');
    const drawing = startWatch();
    const svgs = drawSheets(analysis, { paper: 'A3' }).map(({ scene }) => toSvg(scene));
    const drawn = drawing();
    const text = whole();
    sheets = svgs.length;

    settle();
    const network = startWatch();
    const own = drawSheets(analysis, { paper: 'A3', sheets: ['network'] }).map(({ scene }) => toSvg(scene));
    const alone = network();
    if (own.length === 0) throw new Error('The boat has no network.');

    if (round === 0) quality = qualityOf(drawSheets(analysis, { paper: 'A3', sheets: ['network'] }));
    const diagram = networkDiagram(collectFacts(analysis));
    graph = { boxes: diagram.groups.flatMap(({ nodes }) => nodes).length, wires: diagram.wires.length };
    const source = dotText(diagram);
    settle();
    const dot = startWatch();
    const other = graphviz.dot(source, 'svg');
    const theirs = dot();
    if (other.split('class="node"').length - 1 !== graph.boxes) throw new Error('dot drew another graph.');
    if (round >= warm) {
      spans.whole.push(text);
      spans.drawing.push(drawn);
      spans.network.push(alone);
      spans.dot.push(theirs);
    }
    await DocumentBuilder.update(
      [],
      boat.files.map(({ path }) => uriOf(path)),
    );
  }
  const middle = (list: readonly Span[]): Span => percentileOf(list, 0.5);
  return {
    devices,
    sheets,
    ...graph,
    ...quality,
    whole: middle(spans.whole),
    drawing: middle(spans.drawing),
    network: middle(spans.network),
    dot: middle(spans.dot),
  };
}

/** What is reported of drawings, measured on the finished scenes. */
function qualityOf(sheets: readonly Sheet[]): Pick<DrawingRow, 'crossings' | 'bends' | 'detour'> {
  const all = sheets.map(({ scene }) => measure(scene));
  const sum = (of: (one: (typeof all)[number]) => number): number =>
    all.reduce((total, one) => total + of(one), 0);
  const wires = sum((one) => one.wires);
  return {
    crossings: sum((one) => one.crossings) / wires,
    bends: sum((one) => one.bends) / wires,
    detour: sum((one) => one.detour * one.wires) / wires,
  };
}

/** The same boxes in the same groups, with the same texts, joined by the same wires. */
function dotText({ groups, wires }: Diagram): string {
  const quoted = (text: string): string => JSON.stringify(text);
  const boxes = groups.flatMap(({ id, title, nodes }) => [
    `subgraph ${quoted(`cluster_${id}`)} { label=${quoted(title ?? '')};`,
    ...nodes.map((node) => `${quoted(node.id)} [label=${quoted([node.name, ...node.lines].join('\n'))}];`),
    '}',
  ]);
  const lines = wires.map(
    ({ a, b, name }) => `${quoted(a.node)} -> ${quoted(b.node)} [xlabel=${quoted(name)}, dir=none];`,
  );
  return ['digraph boat { rankdir=LR; splines=ortho; node [shape=box];', ...boxes, ...lines, '}'].join('\n');
}
