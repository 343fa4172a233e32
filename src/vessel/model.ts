/**
 * The vessel model: plain, readonly data in SI units, with every name resolved as far as the spec allows.
 *
 * Lengths are metres, money is in the currency's main unit, temperatures are degrees Celsius, ratios are 0..1 and times
 * are seconds unless a name says otherwise. A fact the spec does not state is `undefined` and means *unknown*, never a default.
 * Nothing here holds a source position: every element carries an `origin`, and `Places` (a side table) says where that is,
 * so that moving text about gives an equal vessel.
 */
import type {
  Cable,
  ConductorSize,
  Family,
  FuseType,
  Medium,
  Model,
  Money,
  Practice,
  Signal,
} from './catalogue.js';
import type { Origin } from './origin.js';

export * from './catalogue.js';

/** What a place does to gear. The bundled library declares them: exposed, sheltered, interior, machinery. */
export interface Exposure {
  readonly name: string;
  /** IP codes asked of a device's face there, each of which must hold. */
  readonly asks: readonly string[];
  /** An open connector in such a place takes harm. */
  readonly wet: boolean;
  /** The ambient of an engine space holds here. */
  readonly hot: boolean;
}

export interface Zone {
  readonly origin: Origin;
  readonly name: string;
  readonly exposure: Exposure | undefined;
  readonly fuel: 'petrol' | 'diesel' | undefined;
  readonly aftMetres: number | undefined;
  readonly heightMetres: number | undefined;
  readonly side: string | undefined;
  readonly deck: string | undefined;
}

export interface Run {
  readonly origin: Origin;
  readonly name: string | undefined;
  readonly from: string;
  readonly to: string;
  readonly lengthMetres: number | undefined;
  /** Bore of the conduit, if it is one. */
  readonly conduitMetres: number | undefined;
  readonly conduit: boolean;
  readonly loom: boolean;
}

export interface Device {
  readonly origin: Origin;
  readonly name: string;
  /** Names in `Vessel.models`; the first is the base, the rest are open choices. Empty where unresolved. */
  readonly models: readonly string[];
  readonly zone: string | undefined;
  /** Zone of the back of a flush-mounted device, where its plugs are. */
  readonly back: string | undefined;
  readonly existing: boolean;
  readonly leaving: boolean;
  readonly doc: string | undefined;
  readonly note: string | undefined;
  readonly series: number | undefined;
  readonly parallel: number | undefined;
  /** Metres forward, to starboard and up from the zone's origin. */
  readonly offsetMetres: readonly [number, number, number] | undefined;
  readonly instance: number | undefined;
  readonly normally: string | undefined;
  readonly syncedWith: readonly string[];
}

/**
 * One end of a connection as written. `device` is undefined where the name does not resolve; then nothing may be concluded
 * from the connection's absence. `port` is undefined where it is left to the tool.
 */
export interface End {
  readonly device: string | undefined;
  readonly port: string | undefined;
  /** A port was written but is not one of the device's. */
  readonly portUnresolved: boolean;
}

/** A plug, gland or extension in a cable. */
export interface Joining {
  readonly model: string | undefined;
  readonly zone: string | undefined;
}

export interface Link {
  readonly origin: Origin;
  readonly a: End;
  readonly b: End;
  readonly cable: string | undefined;
  readonly joins: readonly Joining[];
  /** Names of runs to go along; empty for the shortest route. */
  readonly by: readonly string[];
  readonly lengthMetres: number | undefined;
  readonly label: string | undefined;
  readonly existing: boolean;
}

/** A fuse or breaker as written. */
export interface Protection {
  readonly device: 'fuse' | 'breaker';
  readonly amps: number | undefined;
  readonly type: string | undefined;
  readonly ratedVolts: number | undefined;
  readonly interruptsAmps: number | undefined;
  /** The device at whose end it sits. */
  readonly at: string | undefined;
  readonly afterMetres: number | undefined;
}

/** How a supply conductor is made and protected; shared by feeds and backbone taps. */
export interface Conductor {
  readonly protections: readonly Protection[];
  readonly protectedUpstream: boolean;
  readonly cranking: boolean;
  readonly sheathed: boolean;
  readonly wire: ConductorSize | undefined;
  readonly wireRatedCelsius: number | undefined;
  readonly cable: string | undefined;
  readonly joins: readonly Joining[];
  readonly by: readonly string[];
  readonly lengthMetres: number | undefined;
  readonly label: string | undefined;
}

export interface Feed extends Conductor {
  readonly origin: Origin;
  readonly from: End;
  /** What the panel's way is called. */
  readonly wayLabel: string | undefined;
  readonly to: readonly End[];
  readonly existing: boolean;
}

/** Something on a drop. */
export interface Drop {
  readonly end: End;
  readonly lengthMetres: number | undefined;
}

/** The items of a backbone in the order of its cable. */
export type BackboneItem =
  | { readonly kind: 'terminator'; readonly origin: Origin; readonly in: string | undefined }
  | {
      readonly kind: 'tee';
      readonly origin: Origin;
      readonly end: End | undefined;
      /** Undefined where not said; a capped tee has neither end nor drop. */
      readonly dropMetres: number | undefined;
      readonly cable: string | undefined;
      readonly zone: string | undefined;
      readonly branches: readonly Drop[];
    }
  | {
      readonly kind: 'span';
      readonly origin: Origin;
      readonly lengthMetres: number | undefined;
      /** Zones it runs between where no length is given. */
      readonly between: readonly [string, string] | undefined;
      readonly cable: string | undefined;
    }
  | {
      readonly kind: 'tap';
      readonly origin: Origin;
      readonly from: End;
      readonly zone: string | undefined;
      readonly conductor: Conductor;
    }
  | { readonly kind: 'isolate'; readonly origin: Origin }
  | { readonly kind: 'ground'; readonly origin: Origin };

export interface Backbone {
  readonly origin: Origin;
  readonly name: string;
  readonly cable: string | undefined;
  readonly items: readonly BackboneItem[];
}

/**
 * What a need or a pane asks for: a device (and what it gives and hosts), a device's one signal, or a signal from anywhere.
 * Neither set means that the name does not resolve.
 */
export interface Wanted {
  readonly device: string | undefined;
  readonly signal: string | undefined;
  /** As written, for messages. */
  readonly text: string;
}

export type Need = { readonly origin: Origin } & (
  | {
      readonly kind: 'show';
      readonly screens: readonly string[];
      readonly wanted: readonly Wanted[];
      /** Devices that are off. */
      readonly without: readonly string[];
      /** Some name in it does not resolve, so that the need can't be judged whole. */
      readonly incomplete: boolean;
    }
  | {
      readonly kind: 'hear';
      readonly devices: readonly string[];
      readonly signals: readonly string[];
      readonly incomplete: boolean;
    }
  | {
      readonly kind: 'last';
      readonly bank: string | undefined;
      readonly seconds: number | undefined;
      readonly mode: string | undefined;
      readonly cranks: readonly string[];
    }
  | {
      readonly kind: 'spare';
      readonly count: number;
      readonly medium: Medium | undefined;
      readonly on: readonly string[];
      readonly incomplete: boolean;
    }
  | { readonly kind: 'cost'; readonly under: Money | undefined }
);

/** What a device does in a mode. Ratios are 0..1. */
export type Duty =
  | {
      readonly kind: 'on';
      readonly device: string;
      readonly duty: number | undefined;
      readonly atMax: boolean;
    }
  | { readonly kind: 'others' }
  | { readonly kind: 'set'; readonly device: string; readonly position: string }
  | { readonly kind: 'charge'; readonly device: string; readonly level: number | undefined };

export interface Mode {
  readonly origin: Origin;
  readonly name: string;
  readonly duties: readonly Duty[];
}

export interface Day {
  readonly origin: Origin;
  readonly name: string;
  readonly parts: readonly { readonly mode: string; readonly seconds: number | undefined }[];
}

export interface Pane {
  readonly origin: Origin;
  readonly name: string;
  /** From the top layer down: `chart over radar`. */
  readonly layers: readonly Wanted[];
}

export interface View {
  readonly origin: Origin;
  readonly name: string;
  readonly screen: string | undefined;
  readonly panes: readonly Pane[];
}

/** Banks whose negatives are said to be joined or kept apart. */
export interface Negative {
  readonly origin: Origin;
  readonly banks: readonly string[];
  readonly joined: boolean;
}

export interface Preference {
  readonly origin: Origin;
  readonly signal: string;
  readonly from: readonly string[];
}

/** A waiver: `allow RULE because "..." until DATE` on the declaration `on`. */
export interface Waiver {
  readonly origin: Origin;
  readonly on: Origin;
  readonly rule: string;
  readonly reason: string;
  /** ISO date, inclusive; `'malformed'` counts as expired. */
  readonly until: string | undefined;
}

export interface Vessel {
  readonly origin: Origin;
  readonly name: string;
  readonly title: string | undefined;
  readonly practice: Practice | undefined;
  readonly currency: string | undefined;
  /** Service loop at each end of every cable. */
  readonly slackMetres: number | undefined;
  readonly wiringCelsius: number | undefined;
  readonly hull: string | undefined;
  /** AIS targets to reckon with. */
  readonly aisTargets: number | undefined;
  readonly labour:
    | {
        readonly perHour: Money;
        readonly endSeconds: number | undefined;
        readonly deviceSeconds: number | undefined;
      }
    | undefined;
  readonly owner: string | undefined;
  readonly yard: string | undefined;
  readonly drawingNumber: string | undefined;
  readonly revision: string | undefined;
  readonly status: string | undefined;
  /** From bow to stern. */
  readonly zones: readonly Zone[];
  readonly runs: readonly Run[];
  readonly devices: readonly Device[];
  readonly links: readonly Link[];
  readonly feeds: readonly Feed[];
  readonly backbones: readonly Backbone[];
  readonly needs: readonly Need[];
  readonly modes: readonly Mode[];
  readonly days: readonly Day[];
  readonly views: readonly View[];
  readonly negatives: readonly Negative[];
  readonly preferences: readonly Preference[];
  readonly waivers: readonly Waiver[];
  /** Every model, cable, family, signal and fuse type that the closure declares, by name. */
  readonly models: Readonly<Record<string, Model>>;
  readonly cables: Readonly<Record<string, Cable>>;
  readonly families: Readonly<Record<string, Family>>;
  readonly signals: Readonly<Record<string, Signal>>;
  readonly fuseTypes: Readonly<Record<string, FuseType>>;
  /** Devices, models and cables that an option names; they are not lying about unused. */
  readonly usedByOptions: readonly string[];
  /** The option this vessel was overlaid with, if any; several with commas between. */
  readonly option: string | undefined;
  /** Devices that the spec declares and that were taken out of this vessel, sorted. Needs may still name them. */
  readonly absent: readonly string[];
}
