/** Columns of boxes that share a page: which box stands in which, from the top by what feeds it, and none higher than the page. */
import type { Column } from './columns.js';
import type { DiagramGroup, DiagramNode } from './diagram.js';

/** A box with its group. */
export interface Member {
  readonly node: DiagramNode;
  readonly group: DiagramGroup;
  /** The place of its group among all. */
  readonly rank: number;
}

export type Stack = readonly Member[];

/** For each box the number of its column. */
export type Columns = ReadonlyMap<Member, number>;

/** What the boxes of a page are joined to on it. */
export type Around = ReadonlyMap<Member, readonly Member[]>;

/** Columns and their room. */
export interface Room {
  readonly heightOf: (stack: Stack) => number;
  /** Of the page. */
  readonly height: number;
}

/** Each box in the column of its group. */
export const byGroup = (own: Stack): Columns => new Map(own.map((member) => [member, member.rank]));

/** Each box in a column after the last of those that feed it. */
export function byFeeders(own: Stack, around: Around): Columns {
  const columnOf = new Map<Member, number>();
  for (const member of own) {
    let column = 0;
    for (const feeder of around.get(member) ?? [])
      if (feeder.rank < member.rank) column = Math.max(column, (columnOf.get(feeder) ?? 0) + 1);
    columnOf.set(member, column);
  }
  return columnOf;
}

/**
 * The columns, each from the top by what feeds it. Of one that is too high some boxes go to the next, or, in order, to a new one; of the
 * last, every other one, so that ways pass between those that stay. Undefined where that does not help.
 */
export function stacked(
  given: Columns,
  around: Around,
  room: Room,
  inOrder: boolean,
): readonly Stack[] | undefined {
  const used = [...new Set(given.values())].sort((x, y) => x - y);
  const columnOf = new Map([...given].map(([member, column]) => [member, used.indexOf(column)]));
  const columns: Stack[] = used.map((_, column) =>
    [...columnOf].filter(([, own]) => own === column).map(([member]) => member),
  );
  for (let index = 0; index < columns.length; index += 1) {
    const own = columns[index] ?? [];
    const whole = inOrder ? own : byPlaces(own, columns[index - 1], around);
    const next = columns[index + 1];
    columns[index] = whole;
    if (room.heightOf(whole) <= room.height) continue;
    const feeds = (member: Member): boolean =>
      (around.get(member) ?? []).some((far) => (columnOf.get(far) ?? 0) > index);
    const over = surplus(whole, feeds, around, room, next === undefined);
    const stay = whole.filter((member) => !over.has(member));
    if (stay.length === 0 || room.heightOf(stay) > room.height) return undefined;
    columns[index] = stay;
    const moved = whole.filter((member) => over.has(member));
    if (next === undefined || inOrder) columns.splice(index + 1, 0, moved);
    else columns[index + 1] = [...next, ...moved];
    for (const member of moved) columnOf.set(member, index + 1);
  }
  return columns;
}

/** From the top by the first of the column before that each is joined to; the others last. */
function byPlaces(column: Stack, before: Stack | undefined, around: Around): Stack {
  if (before === undefined) return column;
  const places = new Map(before.map((member, place) => [member, place]));
  const keyed = column.map((member) => {
    const own = (around.get(member) ?? []).flatMap((far) => places.get(far) ?? []);
    return { member, place: Math.min(before.length, ...own) };
  });
  return keyed.sort((x, y) => x.place - y.place).map(({ member }) => member);
}

/**
 * Boxes whose going makes a column low enough: first those that feed nothing, every other one if half of them go; then those that are
 * joined to others that stay.
 */
function surplus(
  column: Stack,
  feeds: (member: Member) => boolean,
  around: Around,
  { heightOf, height }: Room,
  half: boolean,
): ReadonlySet<Member> {
  const over = new Set<Member>();
  const rest = (): number => heightOf(column.filter((member) => !over.has(member)));
  const high = rest();
  const most = half ? high / Math.ceil(high / height) : height;
  const last = column.filter((member) => !feeds(member));
  const order = half
    ? [...last.filter((_, at) => at % 2 === 0), ...last.filter((_, at) => at % 2 > 0).reverse()]
    : last.reverse();
  for (const member of order) {
    if (rest() <= most) break;
    over.add(member);
  }
  const held = column.filter(
    (member) => feeds(member) && (around.get(member) ?? []).some((far) => column.includes(far)),
  );
  for (const member of held.reverse()) {
    if (rest() <= height) break;
    over.add(member);
  }
  return over;
}

/** The two neighbours that are lowest together, over one another; undefined where no two are low enough. */
export function folded(columns: readonly Stack[], { heightOf, height }: Room): readonly Stack[] | undefined {
  let lowest: { readonly index: number; readonly both: Stack; readonly high: number } | undefined;
  for (const [index, column] of columns.entries()) {
    const next = columns[index + 1];
    if (next === undefined) break;
    const both = [...column, ...next];
    const high = heightOf(both);
    if (high <= height && high < (lowest?.high ?? Infinity)) lowest = { index, both, high };
  }
  return lowest === undefined
    ? undefined
    : [...columns.slice(0, lowest.index), lowest.both, ...columns.slice(lowest.index + 2)];
}

/** Where boxes stand that are joined to nothing on their page. */
export const FREE_WAYS = ['edge', 'lowest', 'apart'] as const;

/**
 * The columns with such boxes: in the first that has room, from the side that their references are on; in the lowest; or in columns of
 * their own at that side, about as high as one another.
 */
export function withFree(
  columns: readonly Stack[],
  free: Stack,
  way: (typeof FREE_WAYS)[number],
  isFed: (member: Member) => boolean,
  room: Room,
): readonly Stack[] {
  const all = columns.map((column) => [...column]);
  const before: Member[] = [];
  const after: Member[] = [];
  for (const member of free) {
    const fed = isFed(member);
    const tried =
      way === 'apart'
        ? []
        : way === 'lowest'
          ? [...all].sort((x, y) => room.heightOf(x) - room.heightOf(y))
          : fed
            ? all
            : [...all].reverse();
    const found = tried.find((column) => room.heightOf([...column, member]) <= room.height);
    (found ?? (fed ? before : after)).push(member);
  }
  return [...evenly(before, room), ...all, ...evenly(after, room)];
}

/** As few columns as hold them, about as high as one another. */
function evenly(list: Stack, { heightOf, height }: Room): readonly Stack[] {
  const high = heightOf(list);
  const most = high / Math.max(1, Math.ceil(high / height));
  const columns: Member[][] = [];
  for (const member of list) {
    const last = columns.at(-1);
    if (last !== undefined && heightOf(last) < most && heightOf([...last, member]) <= height)
      last.push(member);
    else columns.push([member]);
  }
  return columns;
}

/** A column with its boxes, those of one group that are neighbours together. */
export function asColumn(stack: Stack): Column {
  const parts: { readonly group: DiagramGroup; readonly nodes: DiagramNode[] }[] = [];
  for (const { group, node } of stack) {
    const last = parts.at(-1);
    if (last?.group === group) last.nodes.push(node);
    else parts.push({ group, nodes: [node] });
  }
  return { parts };
}
