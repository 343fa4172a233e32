/** Small signs in the corner of a box, by what a device is. After IEC 60617 where it has one; the others are our own. */
import type { DeviceClass } from '../../vessel/model.js';
import { INK } from '../scene/make.js';
import type { Item, Point, Stroke } from '../scene/scene.js';

export type SymbolName = DeviceClass;

const PEN: Stroke = { colour: INK, width: 0.35 };
const HEAVY: Stroke = { colour: INK, width: 0.7 };

/** The sign of a class about a centre, 6 mm wide and 5 mm high at most; nothing for a class that has none. */
export function symbolItems(name: SymbolName, x: number, y: number): readonly Item[] {
  const at = (dx: number, dy: number): Point => ({ x: x + dx, y: y + dy });
  const path = (...points: readonly (readonly [number, number])[]): Item => ({
    kind: 'line',
    points: points.map(([dx, dy]) => at(dx, dy)),
    stroke: PEN,
  });
  const closed = (...points: readonly (readonly [number, number])[]): Item => ({
    kind: 'line',
    points: points.map(([dx, dy]) => at(dx, dy)),
    stroke: PEN,
    closed: true,
  });
  const ring = (dx: number, dy: number, radius: number): Item => ({
    kind: 'disc',
    ...at(dx, dy),
    radius,
    stroke: PEN,
  });
  const dot = (dx: number, dy: number, radius = 0.4): Item => ({
    kind: 'disc',
    ...at(dx, dy),
    radius,
    fill: INK,
  });
  const frame = (width: number, height: number): Item => ({
    kind: 'rect',
    x: x - width / 2,
    y: y - height / 2,
    width,
    height,
    stroke: PEN,
  });
  switch (name) {
    case 'display':
      return [frame(6, 4), path([-1.2, 2.6], [1.2, 2.6])];
    case 'transducer':
      return [
        closed([-1, -2], [1, -2], [1.6, 0], [-1.6, 0]),
        path([-1.8, 0.8], [0, 1.3], [1.8, 0.8]),
        path([-2.4, 1.8], [0, 2.4], [2.4, 1.8]),
      ];
    case 'sonar':
      return [frame(6, 4), path([-2, -1], [-1, 1], [0, -1], [1, 1], [2, -1])];
    case 'radar':
      return [
        path([-3, -1], [3, -1]),
        path([0, -1], [0, 1]),
        closed([-1.5, 1], [1.5, 1], [1.5, 2.4], [-1.5, 2.4]),
      ];
    case 'camera':
      return [
        closed([-3, -1.6], [1, -1.6], [1, 1.6], [-3, 1.6]),
        closed([1, -0.6], [3, -1.6], [3, 1.6], [1, 0.6]),
      ];
    case 'gnss':
      return [
        ring(0, 0.6, 1.6),
        path([0, -1], [0, -2.6]),
        path([-2.6, 0.6], [-1.6, 0.6]),
        path([1.6, 0.6], [2.6, 0.6]),
      ];
    case 'heading':
    case 'compass':
      return [ring(0, 0, 2.4), closed([0, -1.8], [0.8, 1], [0, 0.4], [-0.8, 1])];
    case 'pilot':
      return [
        ring(0, 0, 2.4),
        ring(0, 0, 0.8),
        path([0, -2.4], [0, -0.8]),
        path([-2.1, 1.2], [-0.7, 0.4]),
        path([2.1, 1.2], [0.7, 0.4]),
      ];
    case 'instrument':
      return [ring(0, 0, 2.4), path([0, 0], [1.4, -1.4])];
    case 'radio':
    case 'transponder':
      return [frame(5, 3.6), path([-1, 0.6], [-1, -0.6]), path([0, 1], [0, -1]), path([1, 0.6], [1, -0.6])];
    case 'antenna':
      return [path([0, 2.4], [0, -2.4]), path([-2, -2.4], [0, 0], [2, -2.4])];
    case 'gateway':
      return [frame(6, 4), path([-2, -0.8], [2, -0.8], [1.2, -1.5]), path([2, 0.8], [-2, 0.8], [-1.2, 1.5])];
    case 'switch':
      return [frame(6, 4), ...[-1.8, -0.6, 0.6, 1.8].map((dx) => dot(dx, 0.6))];
    case 'engine':
      return [ring(0, 0, 2.4), path([-1.2, 0.9], [-1.2, -0.9], [0, 0.4], [1.2, -0.9], [1.2, 0.9])];
    case 'battery':
      return [
        path([-3, 0], [-0.6, 0]),
        path([-0.6, -2.4], [-0.6, 2.4]),
        { kind: 'line', points: [at(0.6, -1.2), at(0.6, 1.2)], stroke: HEAVY },
        path([0.6, 0], [3, 0]),
      ];
    case 'solar':
      return [frame(6, 4), path([-1, -2], [-1, 2]), path([1, -2], [1, 2]), path([-3, 0], [3, 0])];
    case 'charger':
    case 'converter':
    case 'inverter':
      return [frame(5, 5), path([-2.5, 2.5], [2.5, -2.5])];
    case 'combiner':
    case 'batteryswitch':
      return [
        path([-3, 1], [-1.4, 1]),
        path([-1.4, 1], [1.4, -1.4]),
        path([1.4, 1], [3, 1]),
        dot(-1.4, 1),
        dot(1.4, 1),
      ];
    case 'chargesplitter':
      return [
        closed([-1.4, -1.8], [1.4, 0], [-1.4, 1.8]),
        path([1.4, -1.8], [1.4, 1.8]),
        path([-3, 0], [-1.4, 0]),
        path([1.4, 0], [3, 0]),
      ];
    case 'shunt':
      return [frame(4, 1.6), path([-3, 0], [-2, 0]), path([2, 0], [3, 0])];
    case 'panel':
      return [
        frame(5, 5),
        path([-1.5, -1.2], [1.5, -1.2]),
        path([-1.5, 0], [1.5, 0]),
        path([-1.5, 1.2], [1.5, 1.2]),
      ];
    case 'busbar':
      return [
        { kind: 'line', points: [at(-3, 0), at(3, 0)], stroke: HEAVY },
        dot(-2, 0, 0.7),
        dot(0, 0, 0.7),
        dot(2, 0, 0.7),
      ];
    case 'load':
      return [ring(0, 0, 2.4), path([-1.7, -1.7], [1.7, 1.7]), path([-1.7, 1.7], [1.7, -1.7])];
    case 'joint':
      return [
        path([-3, 0], [-0.6, 0]),
        path([-0.6, -1.4], [0.6, 0], [-0.6, 1.4]),
        path([0.8, -1.4], [2, 0], [0.8, 1.4]),
      ];
    case 'teebox':
    case 'antennasplitter':
      return [
        path([-3, -1], [3, -1]),
        path([-1.5, -1], [-1.5, 2]),
        path([1.5, -1], [1.5, 2]),
        dot(-1.5, -1),
        dot(1.5, -1),
      ];
  }
}
