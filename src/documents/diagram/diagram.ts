/** A diagram before it has places: boxes in groups, and wires between their ports. Lengths in mm. */
import type { Origin } from '../../vessel/origin.js';
import type { Stroke } from '../scene/scene.js';
import type { SymbolName } from './symbols.js';

/** Everything stands on this grid, wires too. */
export const GRID = 2.5;

/** What became of something between two revisions, in a drawing of the difference. */
export type DiagramChange = 'added' | 'removed' | 'changed' | 'same';

/** A box. */
export interface DiagramNode {
  /** Unique in the diagram. */
  readonly id: string;
  readonly origin: Origin;
  readonly name: string;
  /** Under the name, such as model and part. */
  readonly lines: readonly string[];
  /** Codes of findings at it. */
  readonly marks: readonly string[];
  /** Aboard already: drawn with a dashed edge. */
  readonly existing: boolean;
  readonly symbol: SymbolName | undefined;
  /** Its wires end beside its name, and its ports are not named: for a box with one wire. */
  readonly compact?: boolean;
  /** Boxes of one row stand beside one another over all columns, where there is room; from the top, from 0. */
  readonly row?: number;
  /** In a drawing of a difference alone. */
  readonly change?: DiagramChange;
  /** What it is, in a sentence. */
  readonly label: string;
}

/** What is written at the end of a wire, in a place that is kept free for it. */
export interface Tag {
  /** Above the wire, beside the box. */
  readonly above: string;
  /** Below it; the row is then twice as high. */
  readonly below?: string | undefined;
  /** Drawn in the wire, beyond the text. */
  readonly device?: { readonly kind: 'fuse' | 'breaker'; readonly text: string } | undefined;
}

export interface WireEnd {
  readonly node: string;
  /** As it is written in the box, at its edge. */
  readonly port: string;
  readonly tag: Tag;
}

export interface DiagramWire {
  readonly id: string;
  readonly origin: Origin;
  /** Its number. */
  readonly name: string;
  readonly label: string;
  readonly stroke: Stroke;
  readonly a: WireEnd;
  readonly b: WireEnd;
  /** Type and length, written along it where there is room. */
  readonly caption: string;
  /** What is written where that has no room: the length alone. */
  readonly short?: string | undefined;
  readonly existing: boolean;
  /** In a drawing of a difference alone. */
  readonly change?: DiagramChange;
}

/** Boxes that stand together, such as those of a zone; in order. */
export interface DiagramGroup {
  readonly id: string;
  readonly origin: Origin | undefined;
  /** Written over them; undefined for a group that is only a column. */
  readonly title: string | undefined;
  readonly nodes: readonly DiagramNode[];
}

export interface Diagram {
  /** From left to right. */
  readonly groups: readonly DiagramGroup[];
  readonly wires: readonly DiagramWire[];
  readonly nodeWidth: number;
  /** Least room between the boxes of a column. */
  readonly gap: number;
  /** Short groups that are neighbours may stand over one another where that saves a page. */
  readonly pack: boolean;
  /** From left to right the groups stay in their order, as those of zones do. */
  readonly inOrder?: boolean;
}

/** Between the name of a box and the number of its part, where it is drawn in parts. */
export const PART = '#';

/** The name of the whole that a part belongs to. */
export const wholeOf = (node: string): string => node.split(PART)[0] ?? node;

/** What a reference calls the end that it leads to. */
export const endName = ({ node, port }: WireEnd): string =>
  `${wholeOf(node)}${port === '' ? '' : `.${port}`}`;
