/** The bus sheet: each NMEA 2000 backbone along its cable, from one terminator to the other. */
import type { BusAnalysis } from '../../checks/buses/buses.js';
import { areaAt, SCALES } from '../diagram/lay.js';
import { enlarged } from '../scene/enlarge.js';
import { headHeight, LINE_PITCH } from '../diagram/ends.js';
import { MARK_ROOM, markSign, nodeGroup } from '../diagram/render.js';
import type { LegendEntry } from '../frame/legend.js';
import { lineItem, textItem } from '../scene/make.js';
import type { Box, GroupItem, Item } from '../scene/scene.js';
import { widthOf } from '../text/measure.js';
import { titleHeight, titleItems } from './busHead.js';
import { busLegend } from './busLegend.js';
import { arrow, dot, DROP, earth, PEN, RAIL, SUPPLY, terminator } from './busSigns.js';
import type { Facts } from './facts.js';
import { BOX_WIDTH, trunkRows, type Hung, type Placed, type SpanText, type TrunkRow } from './trunk.js';

/** From the backbone down to a device, and up to what feeds it. */
const DOWN = 12.5;
/** Over a backbone that nothing feeds from above. */
const LEAST_ABOVE = 10;
const BRANCH_GAP = 7.5;
interface Strip {
  readonly height: number;
  readonly bus: string;
  readonly row: TrunkRow;
  readonly draw: (sheetId: string, x: number, y: number) => readonly Item[];
}

export interface BusPage {
  readonly buses: readonly string[];
  readonly legend: readonly LegendEntry[];
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
  const strips = fromTheBow(facts).flatMap((bus) => stripsOf(facts, bus, area.width));
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

/** Backbones by the foremost zone that each is in; neither names nor declarations decide. */
function fromTheBow({ analysis, lookup }: Facts): readonly BusAnalysis[] {
  const zones = analysis.vessel.zones.map(({ name }) => name);
  const foremost = ({ bus }: BusAnalysis): number =>
    Math.min(
      ...bus.nodes.map(({ device }) => {
        const at = zones.indexOf(lookup.device(device)?.zone ?? '');
        return at < 0 ? zones.length : at;
      }),
      zones.length,
    );
  return [...analysis.buses].sort((x, y) => foremost(x) - foremost(y));
}

function asPages(pages: readonly (readonly Strip[])[], area: Box, scale: number): readonly BusPage[] {
  return pages.map((page) => ({
    buses: [...new Set(page.map(({ bus }) => bus))],
    legend: busLegend(page.map(({ row }) => row)),
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
    const title = index === 0 ? titleHeight(facts, bus, width) : 0;
    const above = title + (taps.length === 0 ? LEAST_ABOVE : Math.max(...taps) + DOWN);
    const below = Math.max(10, ...row.items.map(depthOf)) + 7.5;
    return {
      bus: bus.bus.name,
      row,
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
    const said = [span.above, span.cable, span.below].filter((text) => text !== '');
    items.push(
      trunk(`span-${index + 1}`, span.above, `Span ${said.join(', ')}`, span.origin, spanItems(span, x, y)),
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
            [...terminator(at, y, item.in), ...(item.marked ? [markSign(at - 9, y - 2.7)] : [])],
          ),
        );
        return;
      case 'isolate':
        items.push(
          trunk(id, 'isolation', 'The supply is parted here; the data wires go on.', item.origin, [
            lineItem(at - 1, y - 2.5, at - 1, y + 2.5, PEN),
            lineItem(at + 1, y - 2.5, at + 1, y + 2.5, PEN),
            textItem(at, y + 6.2, 'isolated', { anchor: 'middle' }),
            ...(item.marked ? [markSign(at - 1.4, y - 3.5)] : []),
          ]),
        );
        return;
      case 'ground':
        items.push(
          trunk(id, 'earth', 'The drain is earthed here.', item.origin, [
            ...earth(at, y),
            ...(item.marked ? [markSign(at - 1.4, y - 1.2)] : []),
          ]),
        );
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
            tapText(item.text, item.x, x, y, width),
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

/** Number and length, over it the cable where it is another one, below where it leads. */
function spanItems(
  { above, cable, below, from, to, marked }: SpanText,
  x: number,
  y: number,
): readonly Item[] {
  const middle = x + (from + to) / 2;
  const room = to - from - 1;
  const sign = marked ? MARK_ROOM : 0;
  const left = middle - (Math.min(room - sign, widthOf(above)) + sign) / 2;
  const middled = (dy: number, text: string): readonly Item[] =>
    text === '' ? [] : [textItem(middle, y + dy, text, { anchor: 'middle', room })];
  return [
    ...(marked ? [markSign(left, y - 1.4)] : []),
    textItem(left + sign, y - 1.4, above, { room: room - sign }),
    ...middled(-1.4 - LINE_PITCH, cable),
    ...middled(4.2, below),
  ];
}

/** Beside the conductor of a tap, high enough for two lines over the backbone; to the left where the row ends at its right. */
function tapText(text: string, at: number, x: number, y: number, width: number): Item {
  const left = at + 1.5 + widthOf(text) > width;
  return textItem(x + at + (left ? -1.5 : 1.5), y - DOWN + 3.3, text, {
    anchor: left ? 'end' : 'start',
    room: BOX_WIDTH,
  });
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
