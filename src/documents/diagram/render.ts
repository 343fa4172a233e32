/** A routed page as items of a scene. */
import { GREY, INK, lineItem, NARROW, rectItem, textItem } from '../scene/make.js';
import type { GroupItem, Item, Point, Stroke } from '../scene/scene.js';
import { BOX_FILL, BOX_HEAD, FINDING, ZONE_EDGE, ZONE_FILL } from '../style.js';
import { SMALL, widthOf } from '../text/measure.js';
import { alongWire, captionsOf, OFF, roomOn, type Take } from './caption.js';
import { changedUnder, CHANGE_STROKES, letterItems, LETTER_ROOM } from './changed.js';
import { endName, type DiagramWire } from './diagram.js';
import { aboveText, LINE_PITCH, SHORT_FLAG } from './ends.js';
import type { PlacedGroup, PlacedNode, Row } from './place.js';
import type { RoutedPage } from './route.js';
import { symbolItems } from './symbols.js';
import { leadOf } from './way.js';

/** Where a reference leads: the sheet and zone of its partner. */
export interface Reference {
  /** `/3.B4` */
  readonly text: string;
  /** The id of its partner's group. */
  readonly leadsTo: string;
}

export interface RenderOptions {
  readonly sheetId: string;
  /** The reference at an end, once every page has its places. */
  readonly referenceOf: (row: Row) => Reference | undefined;
}

const EDGE: Stroke = { colour: INK, width: 0.35 };
/** The edge of what is aboard already. */
export const EXISTING: Stroke = { colour: INK, width: 0.35, dash: [2, 1] };
/** Text stands this far off a fuse. */
const OFF_DEVICE = 1.8;
/** What letters reach below their line, with a little air. */
const DESCENT = 0.85;
/** Half the height of a reference's flag: the tallest letters and the deepest have room in it. */
const FLAG = 2.1;
/** From what is kept for a flag to what is written behind it. */
const AFTER_FLAG = 0.2;

/** Everything on a page, from back to front: groups, wires, boxes. */
export function renderPage(routed: RoutedPage, options: RenderOptions): readonly Item[] {
  const { page, wires, field } = routed;
  const rows = page.nodes.flatMap(({ rows: own }) => own);
  const rowsOf = (wire: DiagramWire): readonly Row[] => rows.filter((row) => row.wire === wire);
  const take = roomOn(page, field);
  const items: Item[] = page.groups.flatMap((group, index) => groupItems(group, options.sheetId, index));
  for (const { wire, points } of wires) {
    items.push({
      ...wireGroup(wire, options.sheetId),
      items: [
        { kind: 'line', points, stroke: wire.stroke },
        ...rowsOf(wire).flatMap(tagItems),
        ...alongWire(wire, points, field, take),
      ],
    });
  }
  for (const row of rows) {
    if (!row.reference) continue;
    const group = referenceGroup(row, options);
    items.push({ ...group, items: [...group.items, ...besideFlag(row, take)] });
  }
  items.push(...page.nodes.map((placed) => nodeGroup(placed, options.sheetId)));
  return items;
}

function groupItems({ group, box }: PlacedGroup, sheetId: string, index: number): readonly Item[] {
  if (group.title === undefined) return [];
  return [
    {
      kind: 'group',
      id: `${sheetId}-zone-${index + 1}`,
      role: 'zone',
      name: group.id,
      label: `Zone ${group.title}`,
      origin: group.origin,
      items: [
        rectItem(box, ZONE_EDGE, ZONE_FILL, 1.5),
        textItem(box.x + 2.5, box.y + 6, group.title, {
          height: 3,
          bold: true,
          colour: GREY,
          room: box.width - 5,
        }),
      ],
    },
  ];
}

function wireGroup(wire: DiagramWire, sheetId: string): GroupItem {
  return {
    kind: 'group',
    id: `${sheetId}-${wire.id}`,
    role: 'link',
    name: wire.name,
    label: wire.label,
    origin: wire.origin,
    items: [],
  };
}

/** What stands at one end of a wire. */
function tagItems(row: Row): readonly Item[] {
  const { tag } = row.wire[row.end];
  const left = row.side === 'left';
  const x = row.x + (left ? -1.2 : 1.2);
  const anchor = left ? 'end' : 'start';
  const items: Item[] = [];
  const above = aboveText(tag);
  const off = tag.device === undefined ? Math.max(OFF, row.wire.stroke.width / 2 + DESCENT) : OFF_DEVICE;
  if (above !== '') items.push(textItem(x, row.y - off, above, { anchor }));
  if (tag.below !== undefined) items.push(textItem(x, row.y + off + SMALL, tag.below, { anchor }));
  if (tag.device !== undefined) {
    const along = Math.max(5, row.reach / 2);
    items.push(...protectionItems(tag.device.kind, row.x + (left ? -along : along), row.y));
  }
  return items;
}

/** A fuse (IEC 60617: a rectangle with the conductor through it) or a breaker. */
export function protectionItems(kind: 'fuse' | 'breaker', x: number, y: number): readonly Item[] {
  const stroke: Stroke = { colour: INK, width: 0.35 };
  if (kind === 'fuse')
    return [
      rectItem({ x: x - 2.5, y: y - 1, width: 5, height: 2 }, stroke, '#ffffff'),
      lineItem(x - 2.5, y, x + 2.5, y, stroke),
    ];
  return [
    rectItem({ x: x - 2.5, y: y - 1, width: 5, height: 2 }, undefined, '#ffffff'),
    { kind: 'disc', x: x - 2.5, y, radius: 0.5, fill: INK },
    { kind: 'disc', x: x + 2.5, y, radius: 0.5, fill: INK },
    lineItem(x - 2.5, y, x + 2, y - 1.2, stroke),
    lineItem(x - 0.4, y - 0.1, x + 0.4, y + 0.9, stroke),
  ];
}

/** Where texts stand that are in a flag, or behind one. */
const flagBase = ({ y }: Row): number => y + FLAG - DESCENT - 0.05;

/** A stub that ends in a flag: it goes on elsewhere. */
function referenceGroup(row: Row, { sheetId, referenceOf }: RenderOptions): GroupItem {
  const { wire, end } = row;
  const other = wire[end === 'a' ? 'b' : 'a'];
  const reference = referenceOf(row);
  const way = row.side === 'left' ? -1 : 1;
  const lead = leadOf(row).x;
  const tip = lead + way * (row.flag - 1.5);
  const at = (x: number, dy: number): Point => ({ x, y: row.y + dy });
  const place = reference?.text ?? '/?';
  const text = row.flag > SHORT_FLAG ? `${place} ${endName(other)}` : place;
  const room = row.flag - 6;
  return {
    kind: 'group',
    id: `${sheetId}-${wire.id}-${end}`,
    role: 'link',
    name: wire.name,
    label: `${wire.label} It goes on at ${reference?.text ?? 'a place that is not drawn'}.`,
    origin: wire.origin,
    leadsTo: reference?.leadsTo,
    items: [
      { kind: 'line', points: [at(row.x, 0), at(lead, 0)], stroke: wire.stroke },
      {
        kind: 'line',
        closed: true,
        points: [
          at(lead, -FLAG),
          at(tip - way * 2, -FLAG),
          at(tip, 0),
          at(tip - way * 2, FLAG),
          at(lead, FLAG),
        ],
        stroke: NARROW,
        fill: '#ffffff',
      },
      textItem(way > 0 ? lead + 1 : tip + 3, flagBase(row), text, { room }),
      ...tagItems(row),
    ],
  };
}

/** What a wire is that goes on elsewhere, behind its flag where there is room. */
function besideFlag(row: Row, take: Take): readonly Item[] {
  const way = row.side === 'left' ? -1 : 1;
  const x = leadOf(row).x + way * (row.flag + AFTER_FLAG);
  for (const text of captionsOf(row.wire)) {
    const width = widthOf(text) + 0.8;
    if (take({ x: way < 0 ? x - width : x, y: row.y - FLAG, width, height: 2 * FLAG }))
      return [textItem(x, flagBase(row), text, { anchor: way < 0 ? 'end' : 'start' })];
  }
  return [];
}

/** The id under which the group of a reference is found. */
export const referenceId = (sheetId: string, wire: DiagramWire, end: 'a' | 'b'): string =>
  `${sheetId}-${wire.id}-${end}`;

/** A box with what is in it. */
export function nodeGroup({ node, box, head, rows }: PlacedNode, sheetId: string): GroupItem {
  const inner = box.width - 3;
  const { change } = node;
  const edge = change === undefined ? (node.existing ? EXISTING : EDGE) : CHANGE_STROKES[change];
  const headFill = change === undefined || change === 'changed' ? BOX_HEAD : BOX_FILL;
  const items: Item[] = [
    rectItem(box, edge, BOX_FILL),
    rectItem(node.compact === true ? box : { ...box, height: head }, edge, headFill),
    ...(change === undefined ? [] : changedUnder(box, change)),
  ];
  const letterRoom = change === undefined || change === 'same' ? 0 : LETTER_ROOM;
  const symbolRoom = (node.symbol === undefined ? 0 : 8) + letterRoom;
  let y = box.y + 4;
  items.push(textItem(box.x + 1.5, y, node.name, { bold: true, room: inner - symbolRoom }));
  if (node.symbol !== undefined)
    items.push(...symbolItems(node.symbol, box.x + box.width - 4.5 - letterRoom, box.y + 3.6));
  if (change !== undefined) items.push(...letterItems(box.x + box.width - 1.5, box.y + 1.5, change));
  node.lines.forEach((line, index) => {
    y += LINE_PITCH;
    items.push(textItem(box.x + 1.5, y, line, { room: index === 0 ? inner - symbolRoom : inner }));
  });
  for (const mark of node.marks) {
    y += LINE_PITCH;
    items.push(...markItems(box.x + 1.5, y, mark, inner));
  }
  const both = new Set(rows.map((row) => row.side)).size > 1;
  for (const row of rows) {
    const left = row.side === 'left';
    const { port } = row.wire[row.end];
    items.push({ kind: 'disc', x: row.x, y: row.y, radius: 0.6, fill: row.wire.stroke.colour });
    if (port !== '' && node.compact !== true)
      items.push(
        textItem(row.x + (left ? 1.5 : -1.5), row.y + SMALL / 2, port, {
          anchor: left ? 'start' : 'end',
          room: both ? box.width / 2 - 2.5 : inner,
        }),
      );
  }
  return {
    kind: 'group',
    id: `${sheetId}-${node.id.replace(/[ #]/g, '-')}`,
    role: 'device',
    name: node.name,
    label: node.label,
    origin: node.origin,
    items,
  };
}

/** What the sign of a finding takes before a text. */
export const MARK_ROOM = 3.8;

/** The sign of a finding: a warning triangle on a baseline. */
export function markSign(x: number, y: number): Item {
  return {
    kind: 'line',
    closed: true,
    points: [
      { x, y },
      { x: x + 2.8, y },
      { x: x + 1.4, y: y - 2.5 },
    ],
    stroke: { colour: FINDING, width: 0.25 },
    fill: FINDING,
  };
}

/** A finding's code behind its sign. */
export function markItems(x: number, y: number, code: string, room: number): readonly Item[] {
  return [markSign(x, y), textItem(x + MARK_ROOM, y, code, { room: room - MARK_ROOM, colour: FINDING })];
}
