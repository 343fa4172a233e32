/** The ends of wires at boxes, and how much room boxes and ends take. */
import { drawable, widthOf } from '../text/measure.js';
import {
  endName,
  GRID,
  type Diagram,
  type DiagramNode,
  type DiagramWire,
  type Tag,
  type WireEnd,
} from './diagram.js';

export const LINE_PITCH = 4.25;
/** A reference's flag, with the name of what it leads to: at most, and what it takes besides that name. */
const FLAG = 40;
const FLAG_MORE = widthOf('/00.A0 ') + 7;
/** With sheet and zone alone. */
export const SHORT_FLAG = 17.5;

/** Up to a step of the grid, or another. */
export const up = (value: number, step = GRID): number => Math.ceil(value / step - 1e-9) * step;

/** Height of the head of a box. */
export function headHeight(node: DiagramNode): number {
  return up(LINE_PITCH * (1 + node.lines.length + node.marks.length) + 1.5);
}

/** Height of a wire's row. */
export const rowHeight = (tag: Tag): number =>
  tag.below !== undefined ? 12.5 : tag.device !== undefined ? 7.5 : 5;

/** From the upper edge of a row to its wire. */
export const rowMiddle = (tag: Tag): number =>
  tag.below !== undefined || tag.device !== undefined ? 5 : GRID;

/** Height of a box with its rows. */
function heightWith(node: DiagramNode, rows: number): number {
  const head = headHeight(node);
  if (node.compact === true) return Math.max(head, rows);
  return head + rows + (rows > 0 ? GRID : 0);
}

/** What is written above a wire's end: with the rating of what is in the wire there. */
export function aboveText({ above, device }: Tag): string {
  return [above, device?.text ?? ''].filter((text) => text !== '').join('  ');
}

/** How much of the way from the box an end keeps for its texts. */
function reachOf(tag: Tag): number {
  const above = widthOf(aboveText(tag));
  return up(
    Math.max(above, tag.below === undefined ? 0 : widthOf(tag.below), tag.device === undefined ? 0 : 6) + 2.5,
  );
}

export interface End {
  readonly wire: DiagramWire;
  readonly end: 'a' | 'b';
  /** The box at the other end. */
  readonly far: string;
  /** What `reachOf` says of its tag. */
  readonly reach: number;
  /** Length of a flag with the name of the other end. */
  readonly flag: number;
}

/** Measured once for each wire, since a diagram is placed several times before it fits. */
const measured = new WeakMap<DiagramWire, readonly [End, End]>();

function endsOf(wire: DiagramWire): readonly [End, End] {
  const known = measured.get(wire);
  if (known !== undefined) return known;
  const made = (end: 'a' | 'b', far: WireEnd): End => ({
    wire,
    end,
    far: far.node,
    reach: reachOf(wire[end].tag),
    flag: Math.min(FLAG, Math.max(SHORT_FLAG + GRID, up(widthOf(drawable(endName(far))) + FLAG_MORE))),
  });
  const ends = [made('a', wire.b), made('b', wire.a)] as const;
  measured.set(wire, ends);
  return ends;
}

/** Height of a box with the ends at its sides. */
export function boxHeight(node: DiagramNode, left: readonly End[], right: readonly End[]): number {
  const high = (ports: readonly End[]): number =>
    ports.reduce((sum, { wire, end }) => sum + rowHeight(wire[end].tag), 0);
  return heightWith(node, Math.max(high(left), high(right)));
}

/** The most that each box may take in height, whichever sides its wires end on. */
export function heightsOf(diagram: Diagram): (node: DiagramNode) => number {
  const ends = endsByNode(diagram);
  return (node) =>
    heightWith(
      node,
      (ends.get(node.id) ?? []).reduce((sum, { wire, end }) => sum + rowHeight(wire[end].tag), 0),
    );
}

/** The ends of wires at each box. */
export function endsByNode(diagram: Diagram): ReadonlyMap<string, readonly End[]> {
  const table = new Map<string, End[]>();
  for (const wire of diagram.wires) {
    for (const end of endsOf(wire)) {
      const list = table.get(wire[end.end].node);
      if (list === undefined) table.set(wire[end.end].node, [end]);
      else list.push(end);
    }
  }
  return table;
}

const orders = new WeakMap<Diagram['groups'], ReadonlyMap<string, number>>();

/** The place of each box among all: group by group, in each from the top. */
export function orderOf({ groups }: Diagram): ReadonlyMap<string, number> {
  const known = orders.get(groups);
  if (known !== undefined) return known;
  const order = new Map(groups.flatMap(({ nodes }) => nodes).map(({ id }, index) => [id, index]));
  orders.set(groups, order);
  return order;
}
