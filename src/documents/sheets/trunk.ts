/** A backbone along its cable, broken into rows: what stands where, in mm from the start of its row. */
import type { FedStretch } from '../../checks/buses/buses.js';
import type { BusAnalysis } from '../../checks/buses/buses.js';
import type { BusNode } from '../../checks/buses/bus.js';
import type { BackboneItem, Drop, Device } from '../../vessel/model.js';
import { number } from '../../vessel/words.js';
import type { DiagramNode } from '../diagram/diagram.js';
import { MARK_ROOM } from '../diagram/render.js';
import { sizeShown } from './captions.js';
import { deviceNode, modelLines, type Facts } from './facts.js';
import { widthOf } from '../text/measure.js';

/** Width of a device's box, and of its place on the backbone. */
export const BOX_WIDTH = 45;
const SLOTS: Readonly<Record<BackboneItem['kind'] | 'capped', number>> = {
  terminator: 17.5,
  tee: BOX_WIDTH + 2.5,
  capped: 17.5,
  span: 0,
  tap: 25,
  isolate: 17.5,
  ground: 15,
};
/** Length of a span, at least. */
const SPAN_ROOM = 27.5;
/** Beside a span's texts, and where a row would be broken for less. */
const SPAN_EDGES = 5;
const LEAST_EDGES = 1.5;
/** A row is drawn out to the width of its sheet, but not for a few items alone. */
const MOST_STRETCH = 1.35;
/** How far to each side the texts of an item reach. */
const CLEAR: Readonly<Record<Placed['kind'], number>> = {
  terminator: 11,
  tee: 2,
  tap: 2,
  isolate: 9,
  ground: 5,
};

export interface Hung {
  readonly node: DiagramNode;
  /** `2 m`, `N123 2 m` */
  readonly text: string;
}

export type Placed = {
  readonly x: number;
  readonly origin: string;
  /** Something is found at it. */
  readonly marked: boolean;
} & (
  | { readonly kind: 'terminator'; readonly in: string | undefined }
  | {
      readonly kind: 'tee';
      readonly number: string;
      readonly hung: Hung | undefined;
      readonly branches: readonly Hung[];
      readonly text: string;
    }
  | { readonly kind: 'tap'; readonly node: DiagramNode; readonly text: string }
  | { readonly kind: 'isolate' | 'ground' }
);

interface SpanWords {
  readonly origin: string;
  readonly marked: boolean;
  /** `N952  3 m` */
  readonly above: string;
  /** Where it is not that of the backbone. */
  readonly cable: string;
  /** `helm - cabin` */
  readonly below: string;
}

export interface SpanText extends SpanWords {
  readonly from: number;
  readonly to: number;
}

export interface TrunkRow {
  readonly items: readonly Placed[];
  readonly spans: readonly SpanText[];
  /** The cable comes from the row before, and goes on to the next. */
  readonly before: boolean;
  readonly after: boolean;
}

/** Break a backbone into rows of a width. */
export function trunkRows(facts: Facts, analysis: BusAnalysis, width: number): readonly TrunkRow[] {
  const { backbone } = analysis.bus;
  const figures = figuresOf(analysis);
  const rows: TrunkRow[] = [];
  let items: Placed[] = [];
  let spans: SpanText[] = [];
  let x = 0;
  let lastTap = -Infinity;
  let waiting: SpanWords[] = [];
  const needed = (edges: number): number =>
    waiting.reduce((sum, words) => sum + Math.max(SPAN_ROOM, widestOf(words) + edges), 0);
  const flush = (to: number): void => {
    let from = afterLast(items);
    const unit = waiting.length === 0 ? 0 : (to - from) / needed(SPAN_EDGES);
    for (const words of waiting) {
      const room = Math.max(SPAN_ROOM, widestOf(words) + SPAN_EDGES) * unit;
      spans.push({ ...words, from, to: from + room });
      from += room;
    }
    waiting = [];
  };
  const lastItem = backbone.items.findLast((item) => item.kind !== 'span');
  for (const item of backbone.items) {
    if (item.kind === 'span') {
      waiting.push(spanWords(facts, analysis, item));
      continue;
    }
    const kind =
      item.kind === 'tee' && item.end === undefined && item.branches.length === 0 ? 'capped' : item.kind;
    const half = SLOTS[kind] / 2;
    // The box of a tap is wider than its place.
    const edge = kind === 'tap' ? BOX_WIDTH / 2 : half;
    const after = (room: number): number =>
      Math.max(
        x + half,
        edge,
        waiting.length === 0 ? 0 : afterLast(items) + room + CLEAR[item.kind],
        item.kind === 'tap' ? lastTap + BOX_WIDTH + 5 : 0,
      );
    const end = width - edge - (item === lastItem ? 0 : 5);
    // Spans come closer rather than the row is broken for them.
    let at = after(needed(SPAN_EDGES));
    if (at > end) at = Math.max(after(needed(LEAST_EDGES)), Math.min(at, end));
    if (items.length > 0 && at > end) {
      flush(width);
      rows.push(drawnOut({ items, spans, before: rows.length > 0, after: true }, width));
      items = [];
      spans = [];
      at = Math.max(half + 7.5, edge);
      lastTap = -Infinity;
    } else flush(at - CLEAR[item.kind]);
    if (item.kind === 'tap') lastTap = at;
    const placed = placedItem(facts, item, at, figures);
    if (placed !== undefined) items.push(placed);
    x = at + half;
  }
  flush(Math.min(width, x + needed(SPAN_EDGES)));
  rows.push({ items, spans, before: rows.length > 0, after: false });
  return rows;
}

type Span = Extract<BackboneItem, { kind: 'span' }>;

function spanWords({ numbering, marksAt }: Facts, analysis: BusAnalysis, item: Span): SpanWords {
  const { bus } = analysis;
  const metres = bus.spans.find(({ piece }) => piece.origin === item.origin)?.piece.lengthMetres;
  const length = metres === undefined ? '? m' : `${number(metres, 2)} m`;
  return {
    origin: item.origin,
    marked: marksAt(item.origin).length > 0,
    above: [numbering.of(item.origin) ?? '', length].join('  ').trim(),
    cable: item.cable === undefined || item.cable === bus.backbone.cable ? '' : item.cable,
    below: item.between?.join(' - ') ?? '',
  };
}

const widestOf = ({ above, cable, below, marked }: SpanWords): number =>
  Math.max(widthOf(above) + (marked ? MARK_ROOM : 0), widthOf(cable), widthOf(below));

/** Items that stand evenly over a row that goes on, rather than with all that is left at its end. */
function drawnOut(row: TrunkRow, width: number): TrunkRow {
  const [first] = row.items;
  const last = row.items.at(-1);
  if (first === undefined || last === undefined || last === first) return row;
  const edge = last.kind === 'tee' || last.kind === 'tap' ? BOX_WIDTH / 2 : 10;
  // A span at the end keeps what it has.
  const most = Math.min(width - edge - 5, ...row.spans.filter(({ to }) => to > last.x).map(() => last.x));
  const factor = Math.min(MOST_STRETCH, (most - first.x) / (last.x - first.x));
  if (factor <= 1) return row;
  const moved = (x: number): number => (x <= first.x || x > last.x ? x : first.x + (x - first.x) * factor);
  return {
    ...row,
    items: row.items.map((item) => ({ ...item, x: moved(item.x) })),
    spans: row.spans.map((span) => ({ ...span, from: moved(span.from), to: moved(span.to) })),
  };
}

/** Where the texts of the last item end. */
function afterLast(items: readonly Placed[]): number {
  const last = items.at(-1);
  return last === undefined ? 0 : last.x + CLEAR[last.kind];
}

type Figures = (device: string) => readonly string[];

function placedItem(facts: Facts, item: BackboneItem, x: number, figures: Figures): Placed | undefined {
  const place = { x, origin: item.origin, marked: facts.marksAt(item.origin).length > 0 };
  switch (item.kind) {
    case 'terminator':
      return { ...place, kind: 'terminator', in: item.in };
    case 'isolate':
    case 'ground':
      return { ...place, kind: item.kind };
    case 'tap':
      return { ...place, kind: 'tap', ...tapOf(facts, item) };
    case 'tee': {
      const cableNumber = facts.numbering.of(item.origin) ?? '';
      return {
        ...place,
        kind: 'tee',
        number: cableNumber,
        text: item.end === undefined && item.branches.length === 0 ? 'capped' : '',
        hung:
          item.end === undefined
            ? undefined
            : hungOf(
                facts,
                { end: item.end, lengthMetres: item.dropMetres },
                cableNumber,
                figures,
                item.origin,
              ),
        branches: item.branches.map((branch) => hungOf(facts, branch, '', figures, item.origin)),
      };
    }
    case 'span':
      return undefined;
  }
}

function hungOf(facts: Facts, drop: Drop, cableNumber: string, figures: Figures, origin: string): Hung {
  const name = drop.end.device ?? 'not declared';
  const device = drop.end.device === undefined ? undefined : facts.lookup.device(drop.end.device);
  const length = drop.lengthMetres === undefined ? '? m' : `${number(drop.lengthMetres, 2)} m`;
  const port = drop.end.port === undefined ? '' : `port ${drop.end.port}`;
  return {
    node:
      device === undefined
        ? strangerNode(name, origin)
        : busDevice(facts, device, origin, [port, figures(name).join(', ')]),
    text: [cableNumber, length].filter((text) => text !== '').join('  '),
  };
}

/** With the findings at the device and at the tee that it hangs on. */
function busDevice(facts: Facts, device: Device, origin: string, more: readonly string[]): DiagramNode {
  const [title = ''] = modelLines(facts, device);
  const place = device.zone ?? 'zone not known';
  return deviceNode(
    facts,
    device,
    [title, place, ...more].filter((text) => text !== ''),
    [...new Set([...facts.marksAt(device.origin), ...facts.marksAt(origin)])],
    BOX_WIDTH,
  );
}

function strangerNode(name: string, origin: string): DiagramNode {
  return {
    id: name,
    origin,
    name,
    lines: ['not declared'],
    marks: [],
    existing: false,
    symbol: undefined,
    label: `${name}: not declared.`,
  };
}

function tapOf(
  facts: Facts,
  item: Extract<BackboneItem, { kind: 'tap' }>,
): { readonly node: DiagramNode; readonly text: string } {
  const { analysis, numbering, lookup } = facts;
  const edge = analysis.supply.edgeOf(item.origin);
  const wire = edge === undefined ? '' : sizeShown(facts, edge);
  const fuses = (edge === undefined ? [] : analysis.sizing.of(edge).protection).flatMap(({ device }) =>
    device.amps === undefined ? [] : [`${number(device.amps, 1)} A`],
  );
  const name = item.from.device ?? 'not declared';
  const device = lookup.device(name);
  const port = item.from.port === undefined ? '' : ` way ${item.from.port}`;
  const lines = [`feeds the bus${port === '' ? '' : ','}${port}`, device?.zone ?? 'zone not known'];
  return {
    node:
      device === undefined
        ? strangerNode(name, item.origin)
        : deviceNode(facts, device, lines, facts.marksAt(item.origin), BOX_WIDTH),
    text: [numbering.of(item.origin) ?? '', wire, ...fuses].filter((text) => text !== '').join('  '),
  };
}

/** Load units and the least voltage at a device, as far as they are known. */
function figuresOf({ bus, fed }: BusAnalysis): Figures {
  const nodes = new Map<string, BusNode>(bus.nodes.map((node) => [node.device, node]));
  const stretches: readonly FedStretch[] = fed();
  return (device) => {
    const node = nodes.get(device);
    if (node === undefined) return [];
    const stretch = stretches.find(({ stretch: one }) => one.nodes.includes(node));
    const volts = stretch?.lowestAt(node);
    return [
      node.loadUnits === undefined ? 'LEN ?' : `LEN ${number(node.loadUnits, 1)}`,
      stretch === undefined || stretch.drops.missing !== undefined || volts === undefined
        ? '? V'
        : `${number(volts, 2)} V`,
    ];
  };
}
