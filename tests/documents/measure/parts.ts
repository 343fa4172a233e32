/** A finished scene taken apart into what can be in each other's way. Nothing of the layout's own code is used. */
import type {
  DiscItem,
  GroupItem,
  Item,
  LineItem,
  Point,
  Scene,
  TextItem,
} from '../../../src/documents/scene/scene.js';
import { contrast } from '../contrast.js';
import { around, inkOf, onEdge, rectOf, stretchesOf, type Rect, type Stretch } from './shapes.js';

export interface Text {
  readonly item: TextItem;
  readonly ink: Rect;
  readonly group: GroupItem;
}

/** A device, or a zone of the plan, with the dots of its ports. */
export interface DeviceBox {
  readonly group: GroupItem;
  readonly box: Rect;
  readonly ports: readonly Point[];
}

interface Region {
  readonly group: GroupItem;
  readonly box: Rect;
}

/** What carries something: a wire, a run, a backbone, a drop, the stub of a reference. */
export interface Conductor {
  readonly group: GroupItem;
  readonly points: readonly Point[];
  readonly stretches: readonly Stretch[];
  /** Half of the line's width. */
  readonly half: number;
  /** Conductors of one net may be joined. */
  readonly net: string;
  readonly isTrunk: boolean;
  /** The outline that its far end is on, where it goes on elsewhere. */
  readonly flag: readonly Stretch[] | undefined;
}

/** A fuse, a terminator, an earth, a flag, or a piece of one. */
export interface Sign {
  readonly group: GroupItem;
  readonly net: string;
  readonly body: Rect;
}

/** A line that text must not stand on and that carries nothing. */
export interface Pen {
  readonly group: GroupItem;
  readonly stretch: Stretch;
  readonly half: number;
}

export interface Dot {
  readonly group: GroupItem;
  readonly net: string;
  readonly item: DiscItem;
}

export interface Parts {
  /** The inner edge of the frame. */
  readonly frame: Rect;
  readonly groups: readonly GroupItem[];
  /** What every group but the frame covers. */
  readonly extents: readonly { readonly group: GroupItem; readonly rect: Rect; readonly text?: string }[];
  readonly texts: readonly Text[];
  readonly devices: readonly DeviceBox[];
  readonly zones: readonly Region[];
  /** Every rectangle of a legend, a title block, a table. */
  readonly blocks: readonly Region[];
  readonly conductors: readonly Conductor[];
  readonly signs: readonly Sign[];
  readonly pens: readonly Pen[];
  readonly dots: readonly Dot[];
  /** Groups without the box or the line that they should have. */
  readonly empty: readonly string[];
}

/** What is fainter is ground for texts to stand on, such as hatching and the edges of zones. */
const FIGURE = 3;
/** Signs on a backbone that carry nothing of their own. */
const NO_CONDUCTOR: ReadonlySet<string> = new Set(['terminator', 'isolation']);

export function partsOf(scene: Scene): Parts {
  const groups = [...deep(scene.items)];
  const shown = groups.filter(({ role }) => role !== 'frame');
  const withRole = (...roles: readonly GroupItem['role'][]): readonly GroupItem[] =>
    shown.filter(({ role }) => roles.includes(role));
  const netOf = nets(withRole('trunk'));
  const conductors = withRole('link', 'trunk').flatMap((group) => conductorOf(group, netOf(group)));
  const carrying = new Set<Item>(withRole('link', 'trunk').flatMap((group) => carrierOf(group) ?? []));
  const owned = shown.flatMap((group) => group.items.map((item) => ({ group, item })));
  const own = owned.flatMap(({ group, item }) =>
    item.kind === 'group' || carrying.has(item) ? [] : [{ group, item }],
  );
  const rects = (group: GroupItem): readonly Region[] =>
    group.items.flatMap((item) => (item.kind === 'rect' ? [{ group, box: rectOf(item) }] : []));
  const region = (group: GroupItem): readonly Region[] => rects(group).slice(0, 1);
  return {
    frame: frameOf(scene),
    groups,
    extents: owned.flatMap(({ group, item }) =>
      item.kind === 'group'
        ? []
        : [{ group, rect: extentOf(item), ...(item.kind === 'text' ? { text: item.text } : {}) }],
    ),
    texts: own.flatMap(({ group, item }) =>
      item.kind === 'text' ? [{ item, ink: inkOf(item), group }] : [],
    ),
    devices: withRole('device').flatMap((group) =>
      region(group).map(({ box }) => ({
        group,
        box,
        ports: group.items.filter((item) => item.kind === 'disc' && onEdge(item, box)) as readonly DiscItem[],
      })),
    ),
    zones: withRole('zone').flatMap(region),
    blocks: withRole('note', 'table').flatMap(rects),
    conductors,
    signs: own.flatMap(({ group, item }) =>
      (group.role === 'link' || group.role === 'trunk') && item.kind !== 'text' && item.kind !== 'disc'
        ? [{ group, net: netOf(group), body: extentOf(item) }]
        : [],
    ),
    pens: own.flatMap(({ group, item }) => pensOf(group, item)),
    dots: own.flatMap(({ group, item }) =>
      item.kind === 'disc' ? [{ group, net: netOf(group), item }] : [],
    ),
    empty: [
      ...withRole('device').flatMap((group) =>
        region(group).length === 0 ? [`${group.name} has no box`] : [],
      ),
      ...withRole('link').flatMap((group) =>
        carrierOf(group) === undefined ? [`${group.name} has no line`] : [],
      ),
    ],
  };
}

function* deep(items: readonly Item[]): Generator<GroupItem> {
  for (const item of items) {
    if (item.kind !== 'group') continue;
    yield item;
    yield* deep(item.items);
  }
}

/** The inner edge of the frame: the narrowest of its rectangles. */
function frameOf(scene: Scene): Rect {
  const group = scene.items.find((item) => item.kind === 'group' && item.role === 'frame');
  const rects = group?.kind === 'group' ? group.items.filter((item) => item.kind === 'rect').map(rectOf) : [];
  const [inner] = rects.sort((a, b) => a.right - a.left - (b.right - b.left));
  if (inner === undefined) throw new Error(`${scene.id} has no frame`);
  return inner;
}

/** The first open line of a wire is what it is drawn for; every other is a sign on it. */
function carrierOf(group: GroupItem): LineItem | undefined {
  if (NO_CONDUCTOR.has(group.name)) return undefined;
  return group.items.find((item) => item.kind === 'line' && item.closed !== true) as LineItem | undefined;
}

function conductorOf(group: GroupItem, net: string): readonly Conductor[] {
  const line = carrierOf(group);
  if (line === undefined) return [];
  const flag = group.items.find((item) => item.kind === 'line' && item.closed === true);
  return [
    {
      group,
      points: line.points,
      stretches: stretchesOf(line.points),
      half: line.stroke.width / 2,
      net,
      isTrunk: group.role === 'trunk',
      flag: flag?.kind === 'line' ? stretchesOf(flag.points, true) : undefined,
    },
  ];
}

/** A row of a backbone is one net: its ids begin alike. Every other wire is one of its own. */
function nets(trunks: readonly GroupItem[]): (group: GroupItem) => string {
  const rows = trunks.flatMap(({ id }) => (id.endsWith('-trunk') ? [id.slice(0, -'trunk'.length)] : []));
  return ({ id }) => rows.find((row) => id.startsWith(row)) ?? id;
}

function pensOf(group: GroupItem, item: Exclude<Item, GroupItem>): readonly Pen[] {
  if (item.kind !== 'rect' && item.kind !== 'line') return [];
  const { stroke } = item;
  if (stroke === undefined || contrast(stroke.colour, '#ffffff') < FIGURE) return [];
  const { left, top, right, bottom } = extentOf(item);
  const corners: readonly Point[] = [
    { x: left, y: top },
    { x: right, y: top },
    { x: right, y: bottom },
    { x: left, y: bottom },
  ];
  const stretches =
    item.kind === 'rect' ? stretchesOf(corners, true) : stretchesOf(item.points, item.closed === true);
  return stretches.map((stretch) => ({ group, stretch, half: stroke.width / 2 }));
}

/** What an item covers, the width of its line aside. */
function extentOf(item: Exclude<Item, GroupItem>): Rect {
  switch (item.kind) {
    case 'rect':
      return rectOf(item);
    case 'line':
      return around(item.points);
    case 'disc':
      return around([item], item.radius);
    case 'text':
      return inkOf(item);
  }
}
