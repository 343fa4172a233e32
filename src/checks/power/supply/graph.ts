/**
 * The supply of a vessel as a graph: terminals, what joins them inside devices, and the conductors between devices. Plain data,
 * read by protection, sizing and the circuit. A fact that the spec does not state is undefined and means *unknown*.
 */
import type {
  Backbone,
  Conductor,
  ConductorSize,
  Feed,
  FuseType,
  Interval,
  Mode,
  Model,
  Port,
  Protection,
  Run,
} from '../../../vessel/model.js';
import type { Origin } from '../../../vessel/origin.js';
import type { Route } from '../../../vessel/routes.js';

/** A dc port of a device (`panel.1`), or a stretch of a backbone between its isolations (`backbone nav`). */
export type Terminal =
  | {
      readonly kind: 'port';
      readonly id: string;
      readonly device: string;
      readonly port: Port;
      readonly model: Model;
    }
  | {
      readonly kind: 'bus';
      readonly id: string;
      readonly backbone: Backbone;
      /** Counted from 0 along the cable. */
      readonly stretch: number;
    };

/**
 * What may join two terminals inside a device.
 *
 * - `solid`: a busbar, a shunt, a plug and socket; - `way`: from a panel's input to one of its ways;
 * - `switch`: a battery switch, in some of its positions; - `combiner`: a relay, while one side is charged;
 * - `diode`: a charge splitter, from `a` to `b` alone; - `converter`: a load at `a` and a source at `b`.
 */
export interface Join {
  readonly kind: 'solid' | 'way' | 'switch' | 'combiner' | 'diode' | 'converter';
  readonly device: string;
  readonly model: Model;
  readonly a: string;
  readonly b: string;
  /** Positions of a switch in which it is closed. */
  readonly positions: readonly string[];
  /** Resistance of a shunt. */
  readonly ohms: number | undefined;
  /** No galvanic connection: of a converter. */
  readonly isolated: boolean;
}

/** A fuse or breaker where it sits. */
export interface PlacedDevice {
  readonly protection: Protection;
  /** Its number among the conductor's own. */
  readonly index: number;
  /** `from`, or the number of a leg at whose far end it sits; undefined where not said. */
  readonly end: 'from' | number | undefined;
  /** It is said to be at a device that is at no end of the conductor. */
  readonly elsewhere: boolean;
  readonly amps: number | undefined;
  /** As written, else the one type that the way's holder takes. */
  readonly type: FuseType | undefined;
  /** In the holder of a panel's way. */
  readonly inWay: boolean;
  /** Metres from the source along the conductor: as stated, none in a way or on a battery's post; undefined where not said. */
  readonly afterMetres: number | undefined;
}

/** The stretch from the start of a conductor to one of its loads. Both conductors lie along it. */
export interface Leg {
  readonly index: number;
  /** Terminal; undefined where it is not settled. */
  readonly to: string | undefined;
  /** As written, for messages. */
  readonly text: string;
  /** One way: as stated, else the route with slack at both ends. */
  readonly lengthMetres: number | undefined;
  /** The fact that is missing where there is no length. */
  readonly missing: string | undefined;
  readonly route: Route | undefined;
  /** Zones passed, its ends included; empty where they are not known. */
  readonly zones: readonly string[];
  /** Part of it lies in a hot place; undefined where the way is not known. */
  readonly engineSpace: boolean | undefined;
  /** Conduits and looms that it shares with whatever else goes through them. */
  readonly bundles: readonly Run[];
}

/** A conductor: a feed, or the tap that feeds a backbone. */
export interface SupplyEdge {
  readonly origin: Origin;
  readonly kind: 'feed' | 'tap';
  /** `panel.1 -> plotter`, for messages. */
  readonly text: string;
  readonly conductor: Conductor;
  readonly feed: Feed | undefined;
  readonly from: string | undefined;
  readonly fromText: string;
  readonly legs: readonly Leg[];
  readonly devices: readonly PlacedDevice[];
  /** Size as written at the feed or stated by its cable; undefined where it is left to the tool. */
  readonly size: ConductorSize | undefined;
  /** Insulation rating: the wire's, the cable's or the vessel's. */
  readonly ratedCelsius: number | undefined;
  readonly sheathed: boolean;
}

/** A battery device with all that make it up, its figures those of the whole bank. */
export interface Bank {
  readonly device: string;
  readonly model: Model;
  readonly terminals: readonly string[];
  readonly series: number;
  readonly parallel: number;
  readonly nominalVolts: number | undefined;
  readonly lowestVolts: number | undefined;
  readonly chargesVolts: number | undefined;
  readonly sagsVolts: number | undefined;
  readonly ampHours: number | undefined;
  readonly ratedHours: number | undefined;
  readonly ohms: number | undefined;
  /** Stated short-circuit current; parallel batteries add theirs, those in series do not. */
  readonly shortCircuitAmps: number | undefined;
  readonly ccaAmps: number | undefined;
  readonly chemistry: string | undefined;
}

/** What gives current and is no battery. */
export interface Output {
  readonly device: string;
  readonly model: Model;
  readonly terminal: string;
  readonly kind: 'charger' | 'alternator' | 'solar' | 'converter' | 'other';
  readonly volts: number | undefined;
  /** It can give no more than this, into a short circuit either. */
  readonly limitsAmps: number | undefined;
}

/** Terminals that share a voltage in some position of the switches: everything joined but through converters and diodes. */
export interface System {
  /** Smallest name of a bank in it, else of a terminal. */
  readonly id: string;
  readonly terminals: readonly string[];
  readonly banks: readonly Bank[];
  readonly outputs: readonly Output[];
  /** Ids of systems that feed it through diodes. */
  readonly fedThroughDiodes: readonly string[];
  /** 12, 24, 36, 48: its banks', else its outputs'; undefined where not stated or where its banks differ. */
  readonly nominalVolts: number | undefined;
  /** From the lowest voltage to that of charging; undefined where not stated. */
  readonly volts: Interval | undefined;
  /** The fact that is missing where the range or the class is not known. */
  readonly missing: string | undefined;
}

/** How a switch is taken to stand. */
export interface Standing {
  readonly device: string;
  /** Undefined where neither the mode nor the device says. */
  readonly position: string | undefined;
  readonly by: 'mode' | 'device' | undefined;
}

/** What is closed and what charges in a mode, or as the boat lies where no mode is given. */
export interface SupplyState {
  readonly mode: Mode | undefined;
  readonly switches: ReadonlyMap<string, Standing>;
  /** Combiners that are taken to be closed, and what charges; those open are not in it. */
  readonly combined: ReadonlyMap<string, string>;
  /** Terminals of the sources that charge. */
  readonly charging: ReadonlySet<string>;
  /** Whether a join conducts; undefined where its state is not stated. */
  readonly closed: (join: Join) => boolean | undefined;
}

export interface SupplyGraph {
  readonly terminals: ReadonlyMap<string, Terminal>;
  readonly joins: readonly Join[];
  readonly edges: readonly SupplyEdge[];
  readonly banks: readonly Bank[];
  readonly outputs: readonly Output[];
  readonly systems: readonly System[];
  readonly joinsAt: (terminal: string) => readonly Join[];
  /** Conductors that begin or end at a terminal. */
  readonly edgesAt: (terminal: string) => readonly SupplyEdge[];
  readonly edgeOf: (origin: Origin) => SupplyEdge | undefined;
  readonly bankAt: (terminal: string) => Bank | undefined;
  readonly outputAt: (terminal: string) => Output | undefined;
  readonly systemOf: (terminal: string) => System | undefined;
  /** Conductors in a conduit or loom. */
  readonly sharing: (run: Run) => readonly SupplyEdge[];
  readonly stateIn: (mode?: Mode) => SupplyState;
}
