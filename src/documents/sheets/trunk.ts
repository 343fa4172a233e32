/** A backbone along its cable, broken into rows: what stands where, in mm from the start of its row. */
import type { FedStretch } from '../../checks/buses/buses.js';
import type { BusAnalysis } from '../../checks/buses/buses.js';
import type { BusNode } from '../../checks/buses/bus.js';
import type { BackboneItem, Drop, Device } from '../../vessel/model.js';
import { number } from '../../vessel/words.js';
import { deviceNode, modelLines, type Facts } from './facts.js';
import type { DiagramNode } from '../diagram/diagram.js';
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
/** Room for a span's texts, at least and at most. */
const SPAN_ROOM = 27.5;
const MOST_SPAN_ROOM = 45;
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

export interface SpanText {
  readonly origin: string;
  readonly from: number;
  readonly to: number;
  readonly above: string;
  readonly below: string;
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
  let waiting: {
    readonly origin: string;
    readonly above: string;
    readonly below: string;
    readonly from: number;
    readonly room: number;
  }[] = [];
  const needed = (): number => waiting.reduce((sum, { room }) => sum + room, 0);
  const flush = (to: number): void => {
    const start = waiting[0]?.from ?? 0;
    const unit = waiting.length === 0 ? 0 : (to - start) / needed();
    let from = start;
    for (const { origin, above, below, room } of waiting) {
      spans.push({ origin, above, below, from, to: from + room * unit });
      from += room * unit;
    }
    waiting = [];
  };
  const lastItem = backbone.items.findLast((item) => item.kind !== 'span');
  for (const item of backbone.items) {
    if (item.kind === 'span') {
      const metres = analysis.bus.spans.find(({ piece }) => piece.origin === item.origin)?.piece.lengthMetres;
      const above = [
        facts.numbering.of(item.origin) ?? '',
        metres === undefined ? '? m' : `${number(metres, 2)} m`,
      ]
        .join('  ')
        .trim();
      const below = [
        item.cable === undefined || item.cable === backbone.cable ? '' : item.cable,
        item.between?.join(' - ') ?? '',
      ]
        .filter((text) => text !== '')
        .join(' ');
      const room = Math.min(MOST_SPAN_ROOM, Math.max(SPAN_ROOM, widthOf(below) + 5));
      waiting.push({ origin: item.origin, above, below, from: afterLast(items), room });
      continue;
    }
    const kind =
      item.kind === 'tee' && item.end === undefined && item.branches.length === 0 ? 'capped' : item.kind;
    const half = SLOTS[kind] / 2;
    const after = (room: number): number =>
      Math.max(
        x + half,
        waiting.length === 0 ? 0 : afterLast(items) + room + CLEAR[item.kind],
        item.kind === 'tap' ? lastTap + BOX_WIDTH + 5 : 0,
      );
    const end = width - half - (item === lastItem ? 0 : 5);
    // The names of the spans may be cut, rather than the row broken for them.
    let at = after(needed());
    if (at > end) at = Math.max(after(waiting.length * SPAN_ROOM), Math.min(at, end));
    if (items.length > 0 && at > end) {
      flush(width);
      rows.push({ items, spans, before: rows.length > 0, after: true });
      items = [];
      spans = [];
      at = half + 7.5;
      lastTap = -Infinity;
    } else flush(at - CLEAR[item.kind]);
    if (item.kind === 'tap') lastTap = at;
    const placed = placedItem(facts, item, at, figures);
    if (placed !== undefined) items.push(placed);
    x = at + half;
  }
  flush(Math.min(width, x + Math.max(SPAN_ROOM, needed())));
  rows.push({ items, spans, before: rows.length > 0, after: false });
  return rows;
}

/** Where the texts of the last item end. */
function afterLast(items: readonly Placed[]): number {
  const last = items.at(-1);
  return last === undefined ? 0 : last.x + CLEAR[last.kind];
}

type Figures = (device: string) => readonly string[];

function placedItem(facts: Facts, item: BackboneItem, x: number, figures: Figures): Placed | undefined {
  switch (item.kind) {
    case 'terminator':
      return { kind: 'terminator', x, origin: item.origin, in: item.in };
    case 'isolate':
    case 'ground':
      return { kind: item.kind, x, origin: item.origin };
    case 'tap':
      return { kind: 'tap', x, origin: item.origin, ...tapOf(facts, item) };
    case 'tee': {
      const cableNumber = facts.numbering.of(item.origin) ?? '';
      return {
        kind: 'tee',
        x,
        origin: item.origin,
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
        : busDevice(facts, device, origin, [port, figures(name).join('  ')]),
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
    text: [numbering.of(item.origin) ?? '', ...fuses].join('  ').trim(),
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
