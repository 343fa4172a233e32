/**
 * An NMEA 2000 backbone read along its cable, as plain data. Positions are metres from the first end; a length that the spec
 * does not give leaves whatever depends on it undefined, and is named in `missing`.
 */
import type { Backbone, Cable, Model, Port } from '../../vessel/model.js';
import type { Origin, Spot } from '../../vessel/origin.js';
import type { SupplyEdge } from '../power/supply/graph.js';

/** A piece of cable with its length as stated, as its moulded tail has it, or along the runs with slack at both ends. */
export interface Piece {
  readonly origin: Origin;
  readonly lengthMetres: number | undefined;
  readonly stated: boolean;
  /** The fact that is missing where there is no length. */
  readonly missing: string | undefined;
  readonly cable: Cable | undefined;
  /** Why its cable is not known. */
  readonly cableMissing: string | undefined;
}

/** Where something is on the backbone: items between two spans share a point. */
export interface Position {
  /** Counted from the first end; each span and each isolation begins a new point. */
  readonly point: number;
  readonly stretch: number;
  readonly atMetres: number | undefined;
}

/** A device on the backbone. */
export interface BusNode extends Position {
  readonly device: string;
  readonly model: Model | undefined;
  readonly port: Port | undefined;
  readonly via: 'tee' | 'branch' | 'terminator';
  readonly spot: Spot;
  /** From the tee to the device, through a box if there is one. */
  readonly dropMetres: number | undefined;
  readonly dropMissing: string | undefined;
  /** Its moulded tail is longer than the drop that is written, and counts. */
  readonly byTail: boolean;
  /** As declared, else one for every 50 mA that it draws. */
  readonly loadUnits: number | undefined;
  readonly loadMissing: string | undefined;
}

/** What hangs on a tee: a device, or a box with what branches off it. */
export interface Tee extends Position {
  readonly origin: Origin;
  /** Undefined where it is capped, or where its device is not declared. */
  readonly device: string | undefined;
  readonly capped: boolean;
  /** The piece from the backbone to the device or the box; undefined where it is capped. */
  readonly drop: Piece | undefined;
  readonly branches: readonly { readonly device: string | undefined; readonly piece: Piece }[];
  /** Devices on it that are not on the backbone a second time. */
  readonly nodes: readonly BusNode[];
}

export interface Span {
  readonly piece: Piece;
  /** The point before it; the next one is after it. */
  readonly point: number;
  readonly stretch: number;
}

export interface Terminator extends Position {
  readonly origin: Origin;
  /** The device that it is built into. */
  readonly in: string | undefined;
  readonly end: 'first' | 'last' | undefined;
}

export interface Tap extends Position {
  readonly origin: Origin;
  readonly edge: SupplyEdge | undefined;
  /** `panel.3`, for messages. */
  readonly fromText: string;
  readonly zone: string | undefined;
}

export interface Mark extends Position {
  readonly origin: Origin;
}

/** What is fed together: from one isolation to the next. */
export interface Stretch {
  readonly number: number;
  /** As the supply graph names it. */
  readonly id: string;
  readonly firstPoint: number;
  readonly lastPoint: number;
  readonly taps: readonly Tap[];
  readonly nodes: readonly BusNode[];
  readonly spans: readonly Span[];
  readonly tees: readonly Tee[];
  readonly loadUnits: number;
}

export interface Bus {
  readonly name: string;
  readonly backbone: Backbone;
  readonly cable: Cable | undefined;
  /** Position of every item, by its origin. */
  readonly positions: ReadonlyMap<Origin, Position>;
  readonly points: number;
  readonly terminators: readonly Terminator[];
  readonly tees: readonly Tee[];
  readonly spans: readonly Span[];
  readonly taps: readonly Tap[];
  readonly isolations: readonly Mark[];
  readonly grounds: readonly Mark[];
  readonly stretches: readonly Stretch[];
  readonly nodes: readonly BusNode[];
  /** Sum of the spans; undefined where one is not known. */
  readonly backboneMetres: number | undefined;
  /** Every piece of drop and branch counted once; of those that are known. */
  readonly dropKnownMetres: number;
  readonly dropTotalMetres: number | undefined;
  /** Of those that are known. */
  readonly loadUnits: number;
  /** Something on it is not declared. */
  readonly open: boolean;
  /** Facts that its lengths and loads lack, each with where it would have to be said. */
  readonly missing: readonly { readonly at: Spot; readonly text: string }[];
}
