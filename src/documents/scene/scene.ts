/**
 * A drawing as plain data: what every format is written from. Lengths are millimetres from the upper left corner of the paper.
 * Nothing here knows what is drawn; nothing that writes a format knows what it means.
 */
import type { Origin } from '../../vessel/origin.js';

export interface Point {
  readonly x: number;
  readonly y: number;
}

export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export interface Stroke {
  readonly colour: string;
  readonly width: number;
  /** Lengths of dashes and gaps in mm; undefined for a full line. */
  readonly dash?: readonly number[] | undefined;
}

export interface RectItem extends Box {
  readonly kind: 'rect';
  readonly radius?: number;
  readonly stroke?: Stroke | undefined;
  readonly fill?: string | undefined;
}

export interface LineItem {
  readonly kind: 'line';
  readonly points: readonly Point[];
  readonly stroke: Stroke;
  readonly closed?: boolean;
  readonly fill?: string | undefined;
}

export interface DiscItem extends Point {
  readonly kind: 'disc';
  readonly radius: number;
  readonly fill?: string | undefined;
  readonly stroke?: Stroke | undefined;
}

export interface TextItem extends Point {
  readonly kind: 'text';
  /** One line; `y` is its baseline. */
  readonly text: string;
  /** Height of its capitals. */
  readonly height: number;
  readonly anchor: 'start' | 'middle' | 'end';
  readonly bold?: boolean;
  readonly colour?: string;
  /** The whole of what it says, where it was cut. */
  readonly whole?: string | undefined;
  /** Reads from below: turned a quarter to the left about its point. */
  readonly upright?: boolean;
}

/** What belongs together and means something: a device, a cable, a zone. */
export interface GroupItem {
  readonly kind: 'group';
  /** Unique in the set. */
  readonly id: string;
  readonly role: 'device' | 'link' | 'trunk' | 'zone' | 'note' | 'table' | 'frame';
  /** What it is called in the spec. */
  readonly name: string;
  /** A sentence for whoever does not see it. */
  readonly label: string;
  /** The element of the vessel that it shows. */
  readonly origin?: Origin | undefined;
  /** The id of the group on another sheet that this one leads to. */
  readonly leadsTo?: string | undefined;
  readonly items: readonly Item[];
}

export type Item = RectItem | LineItem | DiscItem | TextItem | GroupItem;

export interface Scene {
  /** Unique in the set, and a file's name: `network-1`. */
  readonly id: string;
  readonly title: string;
  readonly description: string;
  readonly width: number;
  readonly height: number;
  readonly items: readonly Item[];
  /** What a reader is led to here; its title where undefined. */
  readonly bookmarks?: readonly string[];
}

/** A number as it is written: to a thousandth, without a minus before nought. */
export function rounded(value: number): number {
  const exact = Math.round(value * 1000) / 1000;
  return Number.isFinite(exact) && exact !== 0 ? exact : 0;
}

/** Every group, outer ones first. */
export function* groupsOf(items: readonly Item[]): Generator<GroupItem> {
  for (const item of items) {
    if (item.kind !== 'group') continue;
    yield item;
    yield* groupsOf(item.items);
  }
}
