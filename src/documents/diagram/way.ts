/** Ways in a field: of which wire, from where to where, and entered so that others keep off. */
import type { Point } from '../scene/scene.js';
import type { DiagramWire } from './diagram.js';
import type { Field } from './field.js';
import type { Row } from './place.js';
import type { Search } from './search.js';

/** A wire that is to have a way. */
export interface Job {
  readonly wire: DiagramWire;
  /** It counts from 1 in the field. */
  readonly index: number;
  readonly a: Row;
  readonly b: Row;
  /** Its length if nothing stood in the way. */
  readonly direct: number;
}

/** Nodes from end to end. */
export type Way = readonly number[];

/** Where the kept stretch of an end is over and its way begins. */
export function leadOf(row: Row): Point {
  return { x: row.x + (row.side === 'left' ? -row.reach : row.reach), y: row.y };
}

/** The cheapest way for a wire; undefined where none leads. */
export function lay(field: Field, search: Search, { a, b }: Job): Way | undefined {
  return search.find(field.nodeAt(leadOf(a)), field.nodeAt(leadOf(b)));
}

/** Keep the ends of a wire's way from others with 1, or open them with 0. */
export function hold(field: Field, { a, b }: Job, value: 0 | 1): void {
  for (const row of [a, b]) field.closed[field.nodeAt(leadOf(row))] = value;
}

/** Enter a way in the field, or take it out with 0. */
export function mark(field: Field, way: Way, index: number): void {
  way.forEach((node, place) => {
    const before = way[place - 1];
    const after = way[place + 1];
    const turns = before === undefined || after === undefined || after - node !== node - before;
    const isAcross = (other: number | undefined): boolean =>
      other !== undefined && Math.abs(other - node) === 1;
    if (turns || isAcross(before)) field.across[node] = index;
    if (turns || !isAcross(before)) field.down[node] = index;
  });
}
