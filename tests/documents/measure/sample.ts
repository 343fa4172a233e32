/** A small sheet made by hand, on which nothing is wrong: a zone, boxes, wires, a reference, a backbone, a table, legend and title block. */
import type { GroupItem, Item, Point, Scene, TextItem } from '../../../src/documents/scene/scene.js';

const PEN = { colour: '#000000', width: 0.35 };

export const rect = (x: number, y: number, width: number, height: number): Item => ({
  kind: 'rect',
  x,
  y,
  width,
  height,
  stroke: PEN,
});

export const text = (x: number, y: number, words: string, more: Partial<TextItem> = {}): Item => ({
  kind: 'text',
  x,
  y,
  text: words,
  height: 2.5,
  anchor: 'start',
  ...more,
});

export const dot = (x: number, y: number, radius = 0.6): Item => ({
  kind: 'disc',
  x,
  y,
  radius,
  fill: '#000000',
});

const pointsOf = (...at: readonly (readonly [number, number])[]): readonly Point[] =>
  at.map(([x, y]) => ({ x, y }));

export const line = (...at: readonly (readonly [number, number])[]): Item => ({
  kind: 'line',
  points: pointsOf(...at),
  stroke: PEN,
});

const outline = (...at: readonly (readonly [number, number])[]): Item => ({
  kind: 'line',
  points: pointsOf(...at),
  stroke: PEN,
  closed: true,
  fill: '#ffffff',
});

export const group = (
  role: GroupItem['role'],
  name: string,
  items: readonly Item[],
  more: Partial<GroupItem> = {},
): GroupItem => ({
  kind: 'group',
  id: `s-${name.replace(/ /g, '-')}`,
  role,
  name,
  label: name,
  items,
  ...more,
});

export const box = (name: string, x: number, y: number, height: number, ports: readonly Item[]): GroupItem =>
  group('device', name, [
    rect(x, y, 40, height),
    text(x + 1.5, y + 4, name),
    // The sign of what it is, in its corner.
    line([x + 32, y + 2], [x + 36, y + 4]),
    ...ports,
  ]);

export const wire = (name: string, label: string, items: readonly Item[]): GroupItem =>
  group('link', name, items, { label });

const trunk = (id: string, name: string, items: readonly Item[]): GroupItem =>
  group('trunk', name, items, { id: `s-nav-1-${id}` });

const terminator = (x: number): readonly Item[] => [rect(x - 3, 128.5, 6, 3), text(x - 4, 127.3, '120')];

const FUSE: readonly Item[] = [rect(92, 49, 5, 2), line([92, 50], [97, 50])];
export const FLAG: Item = outline([200, 97.9], [226, 97.9], [228, 100], [226, 102.1], [200, 102.1]);

export const SAMPLE: Scene = {
  id: 's',
  title: 'Sample',
  description: 'A sheet made by hand.',
  width: 300,
  height: 200,
  items: [
    group('frame', 'frame', [rect(15, 5, 270, 190), rect(20, 10, 260, 180)]),
    group('zone', 'helm', [rect(30, 20, 60, 80), text(32, 26, 'helm zone')]),
    wire('W1', 'from alpha to beta', [line([80, 40], [150, 40]), text(82, 38.8, 'W1')]),
    wire('W2', 'from alpha to gamma', [
      line([80, 50], [110, 50], [110, 90], [150, 90]),
      text(81.2, 48.2, 'W2'),
      ...FUSE,
    ]),
    wire('W3', 'from beta to delta', [line([150, 50], [130, 50], [130, 70], [96, 70], [96, 80], [80, 80])]),
    group('link', 'W4', [line([190, 100], [200, 100]), FLAG, text(201, 101.2, '/2.A1')], { leadsTo: 't-W4' }),
    box('alpha', 40, 30, 30, [dot(80, 40), dot(80, 50), text(78.5, 41.25, 'a1', { anchor: 'end' })]),
    box('beta', 150, 30, 30, [dot(150, 40), dot(150, 50)]),
    box('gamma', 150, 80, 30, [dot(150, 90), dot(190, 100)]),
    box('delta', 40, 74, 20, [dot(80, 80)]),
    trunk('trunk', 'nav', [line([40, 130], [150, 130])]),
    trunk('item-1', 'terminator', terminator(40)),
    trunk('item-2', 'drop', [line([70, 130], [70, 140]), dot(70, 130, 0.9), text(71.5, 138, '2 m')]),
    box('echo', 50, 140, 12, []),
    trunk('item-3', 'tap', [line([110, 120], [110, 130]), dot(110, 130, 0.9)]),
    box('foxtrot', 95, 108, 12, []),
    trunk('item-4', 'earth', [
      line([130, 130], [130, 133]),
      dot(130, 130, 0.9),
      line([128, 133], [132, 133]),
    ]),
    trunk('item-5', 'terminator', terminator(150)),
    group('table', 'pulls', [
      rect(210, 20, 60, 30),
      line([240, 20], [240, 50]),
      text(212, 26, 'run'),
      text(242, 26, 'cable'),
    ]),
    group('note', 'legend', [rect(20, 165, 180, 25), text(22, 170, 'Legend')]),
    group('note', 'title block', [rect(200, 150, 80, 40), text(202, 155, 'Vessel')]),
  ],
};
