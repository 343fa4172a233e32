/** The grid that wires are laid on: what is closed to them, and which wire runs where. */
import type { Box, Point } from '../scene/scene.js';
import { GRID } from './diagram.js';

export const ACROSS = 0;
export const DOWN = 1;

export interface Field {
  readonly columns: number;
  readonly rows: number;
  /** Nodes that no wire enters. */
  readonly closed: Uint8Array;
  /** Wires, counted from 1, that run across a node, and those that run down through it. */
  readonly across: Int32Array;
  readonly down: Int32Array;
  readonly nodeAt: (point: Point) => number;
  readonly pointAt: (node: number) => Point;
  /** Close every node in a box, its edges included. */
  readonly close: (box: Box) => void;
  /** Whether a box is free of closed nodes and of wires. */
  readonly free: (box: Box) => boolean;
}

/** A field over an area, whose corner is on the grid. */
export function createField(area: Box): Field {
  const columns = Math.round(area.width / GRID) + 1;
  const rows = Math.round(area.height / GRID) + 1;
  const closed = new Uint8Array(columns * rows);
  const across = new Int32Array(columns * rows);
  const down = new Int32Array(columns * rows);
  const column = (x: number): number => (x - area.x) / GRID;
  const row = (y: number): number => (y - area.y) / GRID;
  /** Whether a condition holds for every node in a box. */
  const everyIn = (box: Box, holds: (node: number) => boolean): boolean => {
    const slack = 1e-6;
    const left = Math.max(0, Math.ceil(column(box.x) - slack));
    const right = Math.min(columns - 1, Math.floor(column(box.x + box.width) + slack));
    const top = Math.max(0, Math.ceil(row(box.y) - slack));
    const bottom = Math.min(rows - 1, Math.floor(row(box.y + box.height) + slack));
    for (let y = top; y <= bottom; y += 1)
      for (let x = left; x <= right; x += 1) if (!holds(y * columns + x)) return false;
    return true;
  };
  return {
    columns,
    rows,
    closed,
    across,
    down,
    nodeAt: ({ x, y }) => {
      const at = Math.round(column(x));
      const line = Math.round(row(y));
      return at < 0 || at >= columns || line < 0 || line >= rows ? -1 : line * columns + at;
    },
    pointAt: (node) => ({
      x: area.x + (node % columns) * GRID,
      y: area.y + Math.floor(node / columns) * GRID,
    }),
    close: (box) => {
      everyIn(box, (node) => {
        closed[node] = 1;
        return true;
      });
    },
    free: (box) => {
      if (box.x < area.x || box.y < area.y) return false;
      if (box.x + box.width > area.x + area.width || box.y + box.height > area.y + area.height) return false;
      return everyIn(box, (node) => closed[node] === 0 && across[node] === 0 && down[node] === 0);
    },
  };
}
