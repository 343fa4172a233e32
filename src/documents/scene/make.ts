/** Short ways to make items of a scene. */
import { fitted, SMALL } from '../text/measure.js';
import type { Box, LineItem, RectItem, Stroke, TextItem } from './scene.js';

export const INK = '#000000';
/** Captions: 7:1 on white. */
export const GREY = '#555555';
export const NARROW: Stroke = { colour: INK, width: 0.25 };
export const WIDE: Stroke = { colour: INK, width: 0.5 };
export const FRAME: Stroke = { colour: INK, width: 0.7 };

export interface TextStyle {
  readonly height?: number;
  readonly anchor?: TextItem['anchor'];
  readonly bold?: boolean;
  readonly colour?: string;
  /** Room in mm; what does not go in is cut. */
  readonly room?: number;
  readonly upright?: boolean;
}

/** A text at its baseline, made fit. */
export function textItem(x: number, y: number, text: string, style: TextStyle = {}): TextItem {
  const { height = SMALL, anchor = 'start', bold = false, colour = INK, room, upright = false } = style;
  const shown = fitted(text, room ?? Infinity, height, bold ? 'bold' : 'regular');
  return {
    kind: 'text',
    x,
    y,
    text: shown,
    height,
    anchor,
    ...(bold ? { bold } : {}),
    ...(colour === INK ? {} : { colour }),
    ...(upright ? { upright } : {}),
    ...(shown === text ? {} : { whole: text }),
  };
}

/** A straight line. */
export function lineItem(x1: number, y1: number, x2: number, y2: number, stroke: Stroke = NARROW): LineItem {
  return {
    kind: 'line',
    points: [
      { x: x1, y: y1 },
      { x: x2, y: y2 },
    ],
    stroke,
  };
}

/** A rectangle. */
export function rectItem(
  box: Box,
  stroke: Stroke | undefined = NARROW,
  fill?: string,
  radius?: number,
): RectItem {
  return {
    kind: 'rect',
    ...box,
    stroke,
    ...(fill === undefined ? {} : { fill }),
    ...(radius === undefined ? {} : { radius }),
  };
}
