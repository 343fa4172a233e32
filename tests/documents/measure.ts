/**
 * What is wrong with a drawing, measured on the finished scene alone: nothing of the layout's own code is used, and texts are measured
 * with the font file itself.
 */
import * as fontkit from 'fontkit';
import type {
  GroupItem,
  Item,
  LineItem,
  Point,
  RectItem,
  Scene,
  TextItem,
} from '../../src/documents/scene/scene.js';
import { FONT_FILES } from '../support/writers.js';

interface Rect {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

interface Segment {
  readonly from: Point;
  readonly to: Point;
  readonly wire: GroupItem;
}

function opened(file: string): fontkit.Font {
  const font = fontkit.openSync(file);
  if (!('layout' in font)) throw new Error(`${file} is no single font`);
  return font;
}
const FACES = { regular: opened(FONT_FILES.regular), bold: opened(FONT_FILES.bold) };

/** The em of a text whose capitals have this height; the height of an H is asked of the font. */
function emOf(height: number): number {
  const { bbox } = FACES.regular.glyphForCodePoint(72);
  return (height * FACES.regular.unitsPerEm) / bbox.maxY;
}

/** The ink of a text. */
function inkOf(item: TextItem): Rect {
  const font = item.bold === true ? FACES.bold : FACES.regular;
  const run = font.layout(item.text, { kern: false, liga: false });
  const unit = emOf(item.height) / font.unitsPerEm;
  const width = run.advanceWidth * unit;
  const up = run.bbox.maxY * unit;
  const down = -run.bbox.minY * unit;
  const back = item.anchor === 'start' ? 0 : item.anchor === 'middle' ? width / 2 : width;
  return item.upright === true
    ? { left: item.x - up, right: item.x + down, top: item.y + back - width, bottom: item.y + back }
    : { left: item.x - back, right: item.x - back + width, top: item.y - up, bottom: item.y + down };
}

const overlap = (a: Rect, b: Rect, slack = 0.05): boolean =>
  a.left < b.right - slack &&
  b.left < a.right - slack &&
  a.top < b.bottom - slack &&
  b.top < a.bottom - slack;

function* walk(
  items: readonly Item[],
  inside: readonly GroupItem[] = [],
): Generator<{ item: Item; inside: readonly GroupItem[] }> {
  for (const item of items) {
    yield { item, inside };
    if (item.kind === 'group') yield* walk(item.items, [...inside, item]);
  }
}

const rectOf = ({ x, y, width, height }: RectItem): Rect => ({
  left: x,
  top: y,
  right: x + width,
  bottom: y + height,
});

/** The inner edge of the frame: the innermost of its rectangles. */
function frameOf(scene: Scene): Rect {
  const group = scene.items.find((item) => item.kind === 'group' && item.role === 'frame');
  const rects = group?.kind === 'group' ? group.items.filter((item) => item.kind === 'rect').map(rectOf) : [];
  const [inner] = rects.sort((a, b) => a.right - a.left - (b.right - b.left));
  if (inner === undefined) throw new Error(`${scene.id} has no frame`);
  return inner;
}

export interface Measures {
  /** What must not be: a sentence for each. */
  readonly faults: readonly string[];
  readonly wires: number;
  readonly crossings: number;
  readonly bends: number;
  /** Length of the ways over the shortest that is at right angles. */
  readonly detour: number;
  readonly boxes: ReadonlyMap<string, Rect>;
}

/** Measure a scene. */
export function measure(scene: Scene): Measures {
  const faults: string[] = [];
  const texts: { readonly item: TextItem; readonly ink: Rect; readonly inside: readonly GroupItem[] }[] = [];
  const devices: { readonly group: GroupItem; readonly box: Rect; readonly dots: readonly Point[] }[] = [];
  const wires: { readonly group: GroupItem; readonly line: LineItem }[] = [];
  const trunks: { readonly group: GroupItem; readonly line: LineItem }[] = [];
  const ids = new Set<string>();
  const frame = frameOf(scene);
  for (const { item, inside } of walk(scene.items)) {
    if (item.kind === 'text') texts.push({ item, ink: inkOf(item), inside });
    if (item.kind !== 'group') continue;
    if (ids.has(item.id)) faults.push(`the id ${item.id} is there twice`);
    ids.add(item.id);
    if (item.role === 'device') {
      const rect = item.items.find((one) => one.kind === 'rect');
      if (rect === undefined) faults.push(`${item.name} has no box`);
      else
        devices.push({
          group: item,
          box: rectOf(rect),
          dots: item.items.filter((one) => one.kind === 'disc'),
        });
    }
    if (item.role === 'trunk')
      trunks.push(...item.items.filter((one) => one.kind === 'line').map((line) => ({ group: item, line })));
    if (item.role === 'link') {
      const line = item.items.find((one) => one.kind === 'line');
      if (line === undefined) faults.push(`${item.name} has no line`);
      else wires.push({ group: item, line });
    }
  }
  const within = (rect: Rect, name: string): void => {
    if (
      rect.left < frame.left ||
      rect.top < frame.top ||
      rect.right > frame.right ||
      rect.bottom > frame.bottom
    )
      faults.push(`${name} is outside the frame`);
  };
  for (const { item, ink, inside } of texts) {
    if (!inside.some((group) => group.role === 'frame')) within(ink, `"${item.text}"`);
    if (item.height < 2.5 - 1e-6) faults.push(`"${item.text}" is only ${item.height} mm high`);
  }
  for (const { group, box } of devices) within(box, group.name);
  texts.forEach((one, index) => {
    for (const other of texts.slice(index + 1))
      if (overlap(one.ink, other.ink)) faults.push(`"${one.item.text}" is written over "${other.item.text}"`);
    for (const { group, box } of devices)
      if (!one.inside.includes(group) && overlap(one.ink, box))
        faults.push(`"${one.item.text}" is written over the box ${group.name}`);
  });
  devices.forEach((one, index) => {
    for (const other of devices.slice(index + 1))
      if (overlap(one.box, other.box))
        faults.push(`the boxes ${one.group.name} and ${other.group.name} overlap`);
  });

  const segments: Segment[] = [];
  let bends = 0;
  let routed = 0;
  let shortest = 0;
  for (const { group, line } of wires) {
    const { points } = line;
    points.slice(1).forEach((to, index) => {
      const from = points[index] ?? to;
      if (Math.abs(from.x - to.x) > 1e-6 && Math.abs(from.y - to.y) > 1e-6)
        faults.push(`${group.name} is not at right angles`);
      segments.push({ from, to, wire: group });
      routed += Math.abs(from.x - to.x) + Math.abs(from.y - to.y);
    });
    bends += Math.max(0, points.length - 2);
    const [first] = points;
    const last = points.at(-1);
    if (first === undefined || last === undefined) continue;
    shortest += Math.abs(first.x - last.x) + Math.abs(first.y - last.y);
    const ends = devices.flatMap(({ dots }) => dots);
    const reference = group.leadsTo !== undefined;
    for (const end of reference ? [first] : [first, last])
      if (!ends.some((dot) => Math.abs(dot.x - end.x) < 0.01 && Math.abs(dot.y - end.y) < 0.01))
        faults.push(`${group.name} does not end on a port`);
  }
  const trunkSegments = trunks.flatMap(({ group, line }) =>
    line.points.slice(1).map((to, index): Segment => ({ from: line.points[index] ?? to, to, wire: group })),
  );
  for (const { from, to, wire } of [...segments, ...trunkSegments]) {
    within(
      {
        left: Math.min(from.x, to.x),
        right: Math.max(from.x, to.x),
        top: Math.min(from.y, to.y),
        bottom: Math.max(from.y, to.y),
      },
      wire.name,
    );
    const half = 0.2;
    const body: Rect = {
      left: Math.min(from.x, to.x) - (from.x === to.x ? half : 0),
      right: Math.max(from.x, to.x) + (from.x === to.x ? half : 0),
      top: Math.min(from.y, to.y) - (from.y === to.y ? half : 0),
      bottom: Math.max(from.y, to.y) + (from.y === to.y ? half : 0),
    };
    for (const { group, box } of devices) {
      const inner = {
        left: box.left + 0.3,
        right: box.right - 0.3,
        top: box.top + 0.3,
        bottom: box.bottom - 0.3,
      };
      if (overlap(body, inner, 0)) faults.push(`${wire.name} goes through the box ${group.name}`);
    }
    for (const { item, ink } of texts)
      if (overlap(body, ink)) faults.push(`${wire.name} goes through "${item.text}"`);
  }
  let crossings = 0;
  segments.forEach((one, index) => {
    for (const other of segments.slice(index + 1)) {
      if (one.wire === other.wire) continue;
      const met = meeting(one, other);
      if (met === 'cross') crossings += 1;
      else if (met !== undefined) faults.push(`${one.wire.name} and ${other.wire.name} ${met}`);
    }
  });
  return {
    faults,
    wires: wires.length,
    crossings,
    bends,
    detour: shortest === 0 ? 1 : routed / shortest,
    boxes: new Map(devices.map(({ group, box }) => [group.name, box])),
  };
}

function meeting(one: Segment, other: Segment): 'cross' | 'run on one line' | 'touch' | undefined {
  const near = (a: number, b: number): boolean => Math.abs(a - b) < 0.3;
  const flat = (segment: Segment): boolean => segment.from.y === segment.to.y;
  const span = (a: number, b: number): readonly [number, number] => [Math.min(a, b), Math.max(a, b)];
  if (flat(one) === flat(other)) {
    const level = flat(one) ? near(one.from.y, other.from.y) : near(one.from.x, other.from.x);
    const [low, high] = flat(one) ? span(one.from.x, one.to.x) : span(one.from.y, one.to.y);
    const [first, last] = flat(one) ? span(other.from.x, other.to.x) : span(other.from.y, other.to.y);
    return level && low < last + 0.3 && first < high + 0.3 ? 'run on one line' : undefined;
  }
  const [across, down] = flat(one) ? [one, other] : [other, one];
  const [left, right] = span(across.from.x, across.to.x);
  const [top, bottom] = span(down.from.y, down.to.y);
  const { x } = down.from;
  const { y } = across.from;
  if (x < left - 0.3 || x > right + 0.3 || y < top - 0.3 || y > bottom + 0.3) return undefined;
  const inside = x > left + 0.3 && x < right - 0.3 && y > top + 0.3 && y < bottom - 0.3;
  return inside ? 'cross' : 'touch';
}
