/** Lines and signs of a backbone. */
import { INK, lineItem, rectItem, textItem } from '../scene/make.js';
import type { Item, Point, Stroke } from '../scene/scene.js';
import { strokeOf } from '../style.js';

export const RAIL = strokeOf('nmea2000');
export const DROP: Stroke = { ...RAIL, width: 0.35 };
export const SUPPLY = strokeOf('dc');
export const PEN: Stroke = { colour: INK, width: 0.35 };

/** Length of the arrow of a cable that goes on in another row. */
const ARROW = 2.5;

/** A joint. */
export const dot = (x: number, y: number): Item => ({ kind: 'disc', x, y, radius: 0.9, fill: INK });

/** A resistor with its value (IEC 60617: a rectangle); built into a device where it names one. */
export function terminator(x: number, y: number, device: string | undefined): readonly Item[] {
  return [
    rectItem({ x: x - 3, y: y - 1.5, width: 6, height: 3 }, PEN, '#ffffff'),
    textItem(x, y - 2.7, '120 Ω', { anchor: 'middle' }),
    ...(device === undefined ? [] : [textItem(x, y + 5.5, `in ${device}`, { anchor: 'middle', room: 20 })]),
  ];
}

/** Earth, below a joint. */
export function earth(x: number, y: number, stem = 3.5): readonly Item[] {
  const foot = y + stem;
  return [
    lineItem(x, y, x, foot, PEN),
    dot(x, y),
    lineItem(x - 2.5, foot, x + 2.5, foot, PEN),
    lineItem(x - 1.6, foot + 1, x + 1.6, foot + 1, PEN),
    lineItem(x - 0.7, foot + 2, x + 0.7, foot + 2, PEN),
  ];
}

/** The cable goes on in the next row: an open arrow at its edge. */
export function arrow(x: number, y: number, way: 1 | -1): readonly Item[] {
  const points: readonly Point[] = [
    { x: x + way * ARROW, y: y - 1.8 },
    { x, y },
    { x: x + way * ARROW, y: y + 1.8 },
  ];
  return [{ kind: 'line', points, stroke: PEN }];
}
