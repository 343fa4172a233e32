/** A set of scenes as one PDF: vector lines, text that can be searched, the font embedded, a bookmark and links for each sheet. */
import PDFDocument from 'pdfkit';
import { CAPITAL, widthOf } from '../text/measure.js';
import {
  groupsOf,
  type Box,
  type GroupItem,
  type Item,
  type Point,
  type Scene,
  type Stroke,
  type TextItem,
} from '../scene/scene.js';
import type { Fonts } from './fonts.js';

export interface PdfFacts {
  readonly title: string;
  /** Says what was drawn and by what; it also makes the file's own id, so that equal drawings have equal ids. */
  readonly keywords: string;
  /** ISO date; a fixed one where none is given, so that nothing depends on the day. */
  readonly date: string | undefined;
}

const POINTS = 72 / 25.4;
const pt = (mm: number): number => Math.round(mm * POINTS * 1000) / 1000;

/** Advance widths are what texts were measured by: nothing may be drawn together or apart. */
const PLAIN = { kern: false, liga: false, clig: false } as unknown as PDFKit.Mixins.OpenTypeFeatures[];

/** Write the set. The same scenes give the same bytes. */
export function toPdf(scenes: readonly Scene[], fonts: Fonts, facts: PdfFacts): Promise<Uint8Array> {
  const date = new Date(`${facts.date ?? '2000-01-01'}T00:00:00Z`);
  const document = new PDFDocument({
    autoFirstPage: false,
    margin: 0,
    // The first font must not be one of the viewer's own: those would have to be read from files.
    font: fonts.regular as unknown as string,
    pdfVersion: '1.7',
    lang: 'en-GB',
    displayTitle: true,
    info: {
      Title: facts.title,
      Keywords: facts.keywords,
      Creator: 'Wireloft',
      Producer: 'Wireloft',
      CreationDate: Number.isNaN(date.getTime()) ? new Date(Date.UTC(2000, 0, 1)) : date,
    },
  });
  const chunks: Uint8Array[] = [];
  const done = new Promise<Uint8Array>((resolve, reject) => {
    document.on('data', (chunk: Uint8Array) => chunks.push(chunk));
    document.on('end', () => resolve(joined(chunks)));
    document.on('error', reject);
  });
  document.registerFont('regular', fonts.regular);
  document.registerFont('bold', fonts.bold);
  const groups = scenes.flatMap((scene) => [...groupsOf(scene.items)]);
  const present = new Set(groups.map(({ id }) => id));
  // A sheet that is written alone has references to sheets that are not in the file.
  const targets = new Set(groups.flatMap(({ leadsTo }) => leadsTo ?? []).filter((id) => present.has(id)));
  for (const scene of scenes) {
    document.addPage({ size: [pt(scene.width), pt(scene.height)], margin: 0 });
    for (const bookmark of scene.bookmarks ?? [scene.title]) document.outline.addItem(bookmark);
    document.lineCap('butt').lineJoin('miter');
    for (const item of scene.items) write(document, item, targets);
  }
  document.end();
  return done;
}

type Document = InstanceType<typeof PDFDocument>;

function write(document: Document, item: Item, targets: ReadonlySet<string>): void {
  switch (item.kind) {
    case 'group':
      writeGroup(document, item, targets);
      return;
    case 'rect':
      if (item.radius === undefined) document.rect(pt(item.x), pt(item.y), pt(item.width), pt(item.height));
      else document.roundedRect(pt(item.x), pt(item.y), pt(item.width), pt(item.height), pt(item.radius));
      paint(document, item.fill, item.stroke);
      return;
    case 'line':
      item.points.forEach(({ x, y }, index) => {
        if (index === 0) document.moveTo(pt(x), pt(y));
        else document.lineTo(pt(x), pt(y));
      });
      if (item.closed === true) document.closePath();
      paint(document, item.fill, item.stroke);
      return;
    case 'disc':
      document.circle(pt(item.x), pt(item.y), pt(item.radius));
      paint(document, item.fill, item.stroke);
      return;
    case 'text':
      writeText(document, item);
  }
}

function writeGroup(document: Document, group: GroupItem, targets: ReadonlySet<string>): void {
  for (const item of group.items) write(document, item, targets);
  const box = boundsOf(group.items);
  if (box === undefined) return;
  if (targets.has(group.id))
    document.addNamedDestination(
      group.id,
      'XYZ',
      pt(Math.max(0, box.x - 20)),
      pt(Math.max(0, box.y - 20)),
      null as unknown as number,
    );
  if (group.leadsTo !== undefined && targets.has(group.leadsTo))
    document.goTo(pt(box.x), pt(box.y), pt(box.width), pt(box.height), group.leadsTo);
}

function paint(document: Document, fill: string | undefined, stroke: Stroke | undefined): void {
  if (stroke !== undefined) {
    document.lineWidth(pt(stroke.width)).strokeColor(stroke.colour);
    if (stroke.dash === undefined) document.undash();
    else document.dash(pt(stroke.dash[0] ?? 1), { space: pt(stroke.dash[1] ?? 1) });
    if (stroke.dash !== undefined && stroke.dash.length > 2) {
      // The writer's own dash takes two lengths; longer patterns are written as they are.
      document.addContent(`[${stroke.dash.map((length) => String(pt(length))).join(' ')}] 0 d`);
    }
  }
  if (fill !== undefined && stroke !== undefined) document.fillColor(fill).fillAndStroke();
  else if (fill !== undefined) document.fillColor(fill).fill();
  else if (stroke !== undefined) document.stroke();
}

function writeText(document: Document, item: TextItem): void {
  if (item.text === '') return;
  const width = widthOf(item.text, item.height, item.bold === true ? 'bold' : 'regular');
  const back = item.anchor === 'start' ? 0 : item.anchor === 'middle' ? width / 2 : width;
  document
    .font(item.bold === true ? 'bold' : 'regular')
    .fontSize(pt(item.height / CAPITAL))
    .fillColor(item.colour ?? '#000000');
  const options = { lineBreak: false, baseline: 'alphabetic', features: PLAIN } as const;
  if (item.upright === true) {
    document.save();
    document.rotate(-90, { origin: [pt(item.x), pt(item.y)] });
    document.text(item.text, pt(item.x - back), pt(item.y), options);
    document.restore();
  } else document.text(item.text, pt(item.x - back), pt(item.y), options);
}

function boundsOf(items: readonly Item[]): Box | undefined {
  const points: Point[] = [];
  for (const item of items) {
    if (item.kind === 'line') points.push(...item.points);
    else if (item.kind === 'rect') points.push(item, { x: item.x + item.width, y: item.y + item.height });
  }
  if (points.length === 0) return undefined;
  const x = Math.min(...points.map((point) => point.x));
  const y = Math.min(...points.map((point) => point.y));
  return {
    x,
    y,
    width: Math.max(...points.map((point) => point.x)) - x,
    height: Math.max(...points.map((point) => point.y)) - y,
  };
}

function joined(chunks: readonly Uint8Array[]): Uint8Array {
  const whole = new Uint8Array(chunks.reduce((sum, chunk) => sum + chunk.length, 0));
  let at = 0;
  for (const chunk of chunks) {
    whole.set(chunk, at);
    at += chunk.length;
  }
  return whole;
}
