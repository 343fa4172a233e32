/** The bus sheet: each NMEA 2000 backbone along its cable, from one terminator to the other. */
import type { BusAnalysis } from '../../checks/buses/buses.js';
import type { BackboneItem } from '../../vessel/model.js';
import { number } from '../../vessel/words.js';
import { areaAt, SCALES } from '../diagram/lay.js';
import { enlarged } from '../scene/enlarge.js';
import { headHeight } from '../diagram/place.js';
import { nodeGroup } from '../diagram/render.js';
import type { LegendEntry } from '../frame/legend.js';
import { GREY, INK, lineItem, rectItem, textItem } from '../scene/make.js';
import type { Box, GroupItem, Item, Point, Stroke } from '../scene/scene.js';
import { strokeOf } from '../style.js';
import type { Facts } from './facts.js';
import { BOX_WIDTH, trunkRows, type Hung, type Placed, type TrunkRow } from './trunk.js';

const RAIL = strokeOf('nmea2000');
const DROP: Stroke = { ...RAIL, width: 0.35 };
const SUPPLY = strokeOf('dc');
const PEN: Stroke = { colour: INK, width: 0.35 };
/** From the backbone down to a device, and up to what feeds it. */
const DOWN = 12.5;
const TITLE = 12.5;
const BRANCH_GAP = 7.5;
/** Length of the arrow of a cable that goes on in another row. */
const ARROW = 2.5;

interface Strip {
  readonly height: number;
  readonly bus: string;
  readonly draw: (sheetId: string, x: number, y: number) => readonly Item[];
}

export interface BusPage {
  readonly buses: readonly string[];
  readonly items: (sheetId: string) => readonly Item[];
}

/** The pages that the backbones take in an area of each; drawn larger where that breaks no row and takes no page more. */
export function busPages(facts: Facts, area: Box): readonly BusPage[] {
  const plain = stripsIn(facts, area);
  for (const scale of SCALES) {
    const pages = stripsIn(facts, areaAt(area, scale));
    if (pages.length === plain.length && pages.flat().length === plain.flat().length)
      return asPages(pages, area, scale);
  }
  return asPages(plain, area, 1);
}

function stripsIn(facts: Facts, area: Box): readonly (readonly Strip[])[] {
  const strips = facts.analysis.buses.flatMap((bus) => stripsOf(facts, bus, area.width));
  const pages: Strip[][] = [];
  let used = Infinity;
  for (const strip of strips) {
    if (used + strip.height > area.height) {
      pages.push([]);
      used = 0;
    }
    pages.at(-1)?.push(strip);
    used += strip.height;
  }
  return pages;
}

function asPages(pages: readonly (readonly Strip[])[], area: Box, scale: number): readonly BusPage[] {
  return pages.map((page) => ({
    buses: [...new Set(page.map(({ bus }) => bus))],
    items: (sheetId) => {
      let { y } = area;
      const items = page.flatMap((strip) => {
        const drawn = strip.draw(sheetId, area.x, y);
        y += strip.height;
        return drawn;
      });
      return scale === 1 ? items : enlarged(items, scale, area);
    },
  }));
}

function stripsOf(facts: Facts, bus: BusAnalysis, width: number): readonly Strip[] {
  const rows = trunkRows(facts, bus, width);
  return rows.map((row, index) => {
    const taps = row.items.flatMap((item) => (item.kind === 'tap' ? [headHeight(item.node)] : []));
    const above = (index === 0 ? TITLE : 0) + (taps.length === 0 ? 7.5 : Math.max(...taps) + DOWN);
    const below = Math.max(10, ...row.items.map(depthOf)) + 7.5;
    return {
      bus: bus.bus.name,
      height: above + below,
      draw: (sheetId, x, y) => [
        ...(index === 0 ? [titleItems(facts, bus, sheetId, x, y, width)] : []),
        ...rowItems({
          row,
          sheetId: `${sheetId}-${bus.bus.name}-${index + 1}`,
          bus: bus.bus.name,
          x,
          y: y + above,
          width,
        }),
      ],
    };
  });
}

function depthOf(item: Placed): number {
  if (item.kind !== 'tee') return 0;
  const own = item.hung === undefined ? 0 : DOWN + headHeight(item.hung.node);
  return own + item.branches.reduce((sum, { node }) => sum + BRANCH_GAP + headHeight(node), 0);
}

function titleItems(
  facts: Facts,
  { bus, lowest, traffic }: BusAnalysis,
  sheetId: string,
  x: number,
  y: number,
  width: number,
): GroupItem {
  const worst = lowest();
  const metres = (value: number | undefined): string =>
    value === undefined ? '? m' : `${number(value, 1)} m`;
  const text = [
    bus.cable?.name ?? 'cable not known',
    `backbone ${metres(bus.backboneMetres)}`,
    `drops ${metres(bus.dropTotalMetres)}`,
    `${number(bus.loadUnits, 1)} load units`,
    worst === undefined
      ? 'lowest voltage not known'
      : `lowest ${number(worst.volts, 2)} V at ${worst.node.device}`,
    `bus load ${number(traffic().worstShare * 100, 0)} % at most`,
    ...facts.marksAt(bus.backbone.origin),
    ...bus.backbone.items.flatMap((item) => itemMarks(facts, item)),
  ].join(',  ');
  return {
    kind: 'group',
    id: `${sheetId}-${bus.name}`,
    role: 'note',
    name: bus.name,
    label: `Backbone ${bus.name}: ${text}.`,
    origin: bus.backbone.origin,
    items: [
      textItem(x, y + 4, bus.name, { height: 3.5, bold: true, room: 60 }),
      textItem(x, y + 9, text, { colour: GREY, room: width }),
    ],
  };
}

/** Findings at what has no box of its own, such as a span or a terminator: by its number, where it has one. */
function itemMarks({ marksAt, numbering }: Facts, item: BackboneItem): readonly string[] {
  if (item.kind === 'tee' || item.kind === 'tap') return [];
  return marksAt(item.origin).map((rule) => `${numbering.of(item.origin) ?? item.kind}: ${rule}`);
}

interface RowPlace {
  readonly row: TrunkRow;
  readonly sheetId: string;
  readonly bus: string;
  readonly x: number;
  /** Of the backbone. */
  readonly y: number;
  readonly width: number;
}

function rowItems(place: RowPlace): readonly Item[] {
  const { row, sheetId, bus, x, y, width } = place;
  const first = row.before ? 0 : (row.items[0]?.x ?? 0);
  const last = row.after ? width : (row.items.at(-1)?.x ?? 0);
  const trunk = (
    id: string,
    name: string,
    label: string,
    origin: string,
    items: readonly Item[],
  ): GroupItem => ({ kind: 'group', id: `${sheetId}-${id}`, role: 'trunk', name, label, origin, items });
  const items: Item[] = [
    trunk('trunk', bus, `Backbone ${bus}, along its cable.`, `backbone ${bus}`, [
      ...(last > first ? [lineItem(x + first, y, x + last, y, RAIL)] : []),
      ...(row.before ? arrow(x, y, 1) : []),
      ...(row.after ? arrow(x + width, y, -1) : []),
    ]),
  ];
  row.spans.forEach((span, index) => {
    const middle = x + (span.from + span.to) / 2;
    // Clear of what stands at its ends, and of the arrow where it meets the edge of the row.
    const atArrow = (row.before && span.from < ARROW) || (row.after && span.to > width - ARROW);
    const room = span.to - span.from - (atArrow ? 2 * ARROW + 1 : 4);
    items.push(
      trunk(`span-${index + 1}`, span.above, `Span ${span.above} ${span.below}`, span.origin, [
        textItem(middle, y - 1.4, span.above, { anchor: 'middle', room }),
        ...(span.below === ''
          ? []
          : [textItem(middle, y + 4.2, span.below, { anchor: 'middle', room: Math.min(room, 40) })]),
      ]),
    );
  });
  row.items.forEach((item, index) => {
    const at = x + item.x;
    const id = `item-${index + 1}`;
    switch (item.kind) {
      case 'terminator':
        items.push(
          trunk(
            id,
            'terminator',
            item.in === undefined ? 'Terminator, 120 ohm.' : `Terminator built into ${item.in}.`,
            item.origin,
            terminator(at, y, item.in),
          ),
        );
        return;
      case 'isolate':
        items.push(
          trunk(id, 'isolation', 'The supply is parted here; the data wires go on.', item.origin, [
            lineItem(at - 1, y - 2.5, at - 1, y + 2.5, PEN),
            lineItem(at + 1, y - 2.5, at + 1, y + 2.5, PEN),
            textItem(at, y + 6.2, 'isolated', { anchor: 'middle' }),
          ]),
        );
        return;
      case 'ground':
        items.push(trunk(id, 'earth', 'The drain is earthed here.', item.origin, earth(at, y)));
        return;
      case 'tap': {
        const head = headHeight(item.node);
        const box: Box = { x: at - BOX_WIDTH / 2, y: y - DOWN - head, width: BOX_WIDTH, height: head };
        items.push(
          trunk(id, item.text, `Tap ${item.text} from ${item.node.name}.`, item.origin, [
            {
              kind: 'line',
              points: [
                { x: at, y: y - DOWN },
                { x: at, y },
              ],
              stroke: SUPPLY,
            },
            dot(at, y),
            textItem(at + 1.5, y - DOWN + 5, item.text, { room: BOX_WIDTH / 2 }),
          ]),
          {
            ...nodeGroup({ node: item.node, box, head, group: '', rows: [] }, sheetId),
            id: `${sheetId}-${id}-box`,
          },
        );
        return;
      }
      case 'tee':
        items.push(...teeItems(item, at, y, sheetId, id));
    }
  });
  return items;
}

function teeItems(
  item: Extract<Placed, { kind: 'tee' }>,
  at: number,
  y: number,
  sheetId: string,
  id: string,
): readonly Item[] {
  const group = (name: string, key: string, items: readonly Item[]): GroupItem => ({
    kind: 'group',
    id: `${sheetId}-${id}-${key}`,
    role: 'trunk',
    name,
    label: item.hung === undefined ? 'Tee, capped.' : `Drop ${name} to ${item.hung.node.name}.`,
    origin: item.origin,
    items,
  });
  if (item.hung === undefined)
    return [
      group('tee', 'drop', [
        dot(at, y),
        lineItem(at, y, at, y + 3, DROP),
        lineItem(at - 1.5, y + 3, at + 1.5, y + 3, PEN),
        textItem(at, y + 7, item.text, { anchor: 'middle' }),
      ]),
    ];
  const items: Item[] = [
    group(item.number, 'drop', [
      {
        kind: 'line',
        points: [
          { x: at, y },
          { x: at, y: y + DOWN },
        ],
        stroke: DROP,
      },
      dot(at, y),
      textItem(at + 1.5, y + DOWN - 2, item.hung.text, { room: BOX_WIDTH / 2 }),
    ]),
  ];
  let top = y + DOWN;
  const box = (hung: Hung, key: string): void => {
    const head = headHeight(hung.node);
    items.push({
      ...nodeGroup(
        {
          node: { ...hung.node, compact: true },
          box: { x: at - BOX_WIDTH / 2, y: top, width: BOX_WIDTH, height: head },
          head,
          group: '',
          rows: [],
        },
        sheetId,
      ),
      id: `${sheetId}-${id}-${key}`,
    });
    top += head;
  };
  box(item.hung, 'box');
  item.branches.forEach((branch, index) => {
    items.push(
      group(branch.text, `branch-${index + 1}`, [
        {
          kind: 'line',
          points: [
            { x: at, y: top },
            { x: at, y: top + BRANCH_GAP },
          ],
          stroke: DROP,
        },
        textItem(at + 1.5, top + BRANCH_GAP - 2, branch.text, { room: BOX_WIDTH / 2 }),
      ]),
    );
    top += BRANCH_GAP;
    box(branch, `branch-${index + 1}-box`);
  });
  return items;
}

const dot = (x: number, y: number): Item => ({ kind: 'disc', x, y, radius: 0.9, fill: INK });

/** A resistor with its value (IEC 60617: a rectangle); built into a device where it names one. */
function terminator(x: number, y: number, device: string | undefined): readonly Item[] {
  return [
    rectItem({ x: x - 3, y: y - 1.5, width: 6, height: 3 }, PEN, '#ffffff'),
    textItem(x, y - 2.7, '120 Ω', { anchor: 'middle' }),
    ...(device === undefined ? [] : [textItem(x, y + 5.5, `in ${device}`, { anchor: 'middle', room: 20 })]),
  ];
}

function earth(x: number, y: number): readonly Item[] {
  return [
    lineItem(x, y, x, y + 3.5, PEN),
    dot(x, y),
    lineItem(x - 2.5, y + 3.5, x + 2.5, y + 3.5, PEN),
    lineItem(x - 1.6, y + 4.5, x + 1.6, y + 4.5, PEN),
    lineItem(x - 0.7, y + 5.5, x + 0.7, y + 5.5, PEN),
  ];
}

/** The cable goes on in the next row: an open arrow at its edge. */
function arrow(x: number, y: number, way: 1 | -1): readonly Item[] {
  const points: readonly Point[] = [
    { x: x + way * ARROW, y: y - 1.8 },
    { x, y },
    { x: x + way * ARROW, y: y + 1.8 },
  ];
  return [{ kind: 'line', points, stroke: PEN }];
}

/** What is on the sheet. */
export const BUS_LEGEND: readonly LegendEntry[] = [
  { text: 'backbone', sample: (x, y) => [lineItem(x, y, x + 12, y, RAIL)] },
  {
    text: 'tee and drop',
    sample: (x, y) => [
      lineItem(x, y - 1, x + 12, y - 1, RAIL),
      dot(x + 6, y - 1),
      lineItem(x + 6, y - 1, x + 6, y + 2, DROP),
    ],
  },
  { text: 'tap, supply', sample: (x, y) => [lineItem(x, y, x + 12, y, SUPPLY)] },
  {
    text: 'terminator',
    sample: (x, y) => [
      lineItem(x, y, x + 6, y, RAIL),
      rectItem({ x: x + 6, y: y - 1.5, width: 6, height: 3 }, PEN),
    ],
  },
  {
    text: 'load units',
    sample: (x, y) => [textItem(x + 6, y + 1.25, 'LEN', { anchor: 'middle' })],
  },
  {
    text: 'goes on below',
    sample: (x, y) => [lineItem(x, y, x + 12, y, RAIL), ...arrow(x + 12, y, -1)],
  },
];
