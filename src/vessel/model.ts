/**
 * The vessel model: plain, readonly data in SI units, with every name resolved as far as the spec allows.
 *
 * Lengths are metres, money is in the currency's main unit, temperatures are degrees Celsius, ratios are 0..1 and times
 * are seconds unless a name says otherwise. A fact the spec does not state is `undefined` and means *unknown*, never a default.
 * Nothing here holds a source position: every element carries an `origin`, and `Places` (a side table) says where that is,
 * so that moving text about gives an equal vessel.
 */
import type { Origin } from './origin.js';

/** Every medium a port can be of; `own` is a maker's own plug, told apart by `Port.ownPlug`. */
export const MEDIA = [
  'ethernet',
  'nmea2000',
  'nmea0183',
  'transducer',
  'dc',
  'coax',
  'video',
  'audio',
  'usb',
  'wireless',
  'trigger',
  'ac',
  'own',
] as const;
export type Medium = (typeof MEDIA)[number];

/** What a device is. The bundled library documents each and says which properties it may have. */
export const CLASSES = [
  'display',
  'transducer',
  'sonar',
  'radar',
  'camera',
  'gnss',
  'heading',
  'compass',
  'pilot',
  'instrument',
  'radio',
  'transponder',
  'antenna',
  'gateway',
  'engine',
  'switch',
  'battery',
  'charger',
  'solar',
  'converter',
  'inverter',
  'combiner',
  'chargesplitter',
  'batteryswitch',
  'shunt',
  'panel',
  'busbar',
  'load',
  'joint',
  'teebox',
  'antennasplitter',
] as const;
export type DeviceClass = (typeof CLASSES)[number];

/** Sonar grades, from the lesser to the greater. */
export type Grade = 'standard' | 'hd';

/** Practices that size wires and fuses: ABYC E-11, or ISO 13297 (10133). */
export type Practice = 'abyc' | 'iso';

/** An amount in one currency (ISO 4217 code). Amounts of two currencies are never added. */
export interface Money {
  readonly amount: number;
  readonly currency: string;
}

/** A closed interval in SI units. */
export interface Interval {
  readonly low: number;
  readonly high: number;
}

/** A conductor size as it was written; the areas are worked out by the practice's tables. */
export interface ConductorSize {
  readonly standard: 'AWG' | 'mm2';
  /** `16`, `2/0`, `2.5` */
  readonly size: string;
}

/** A moulded cable tail that belongs to the device. */
export interface CaptiveTail {
  readonly lengthMetres: number | undefined;
  readonly odMetres: number | undefined;
  /** Diameter of the moulded connector that has to pass a conduit. */
  readonly headMetres: number | undefined;
}

/** A signal a device sends or wants. */
export interface SignalRate {
  readonly signal: string;
  readonly grade: Grade | undefined;
  readonly hertz: number | undefined;
}

/** A message a port sends: an NMEA 0183 sentence formatter or an NMEA 2000 parameter group number. */
export interface MessageRate {
  readonly message: string;
  readonly hertz: number | undefined;
}

/** The NMEA 0183 side of a port. */
export interface SerialPort {
  readonly talksBaud: number | undefined;
  readonly listensBaud: number | undefined;
  readonly signalling: 'single' | 'differential' | undefined;
  readonly isolated: boolean;
  /** How many listeners the driver carries. */
  readonly drives: number | undefined;
  readonly loadAmps: number | undefined;
}

/** A load's appetite, in amperes or in watts as declared. */
export interface Draw {
  readonly amount: number;
  readonly unit: 'A' | 'W';
}

/** The direct-current side of a port. Neither `in` nor `out` means both ways, with many conductors. */
export interface DcPort {
  readonly direction: 'in' | 'out' | undefined;
  readonly inVolts: Interval | undefined;
  readonly outVolts: number | undefined;
  readonly draws: Draw | undefined;
  readonly max: Draw | undefined;
  readonly standby: Draw | undefined;
  /** The fuse that the device's maker states. */
  readonly fuseAmps: number | undefined;
  /** Fuse type that the port's own holder takes. */
  readonly holds: string | undefined;
  readonly limitsAmps: number | undefined;
  readonly isolated: boolean;
  readonly cranks: { readonly amps: number; readonly seconds: number | undefined } | undefined;
  readonly cutoutVolts: number | undefined;
  readonly studs: number | undefined;
}

/** Power over ethernet at a port. A class is IEEE 802.3's; passive power is a voltage and a power. */
export interface PoePort {
  readonly role: 'gives' | 'wants';
  readonly poeClass: number | undefined;
  readonly passiveVolts: number | undefined;
  readonly watts: number | undefined;
}

export interface Port {
  readonly name: string;
  readonly medium: Medium;
  /** The maker's plug name when the medium is `own`. */
  readonly ownPlug: string | undefined;
  /** Ports declared together as a range (`1..5`) share a group and are interchangeable; others have a group each. */
  readonly group: string;
  readonly sealed: boolean;
  /** Grades a transducer port accepts; undefined where not stated. */
  readonly accepts: Grade | undefined;
  readonly outputWatts: number | undefined;
  /** NMEA 2000 load equivalency number, 50 mA each. */
  readonly len: number | undefined;
  readonly terminates: boolean;
  readonly sends: readonly MessageRate[];
  readonly serial: SerialPort | undefined;
  readonly dc: DcPort | undefined;
  readonly poe: PoePort | undefined;
  readonly captive: CaptiveTail | undefined;
  /** The cable carries power as well as the medium. */
  readonly withPower: boolean;
  /** What the port is fed with through its own plug. */
  readonly powered: boolean;
  /** Service of an antenna port, e.g. `vhf`, `ais`, `gnss`. */
  readonly service: string | undefined;
}

/** A position of a battery switch, with the sets of ports it joins. */
export interface SwitchPosition {
  readonly name: string;
  readonly joins: readonly string[];
}

/** Sentences a gateway lets through. */
export interface Passing {
  readonly from: readonly string[];
  readonly to: string;
  /** `without`: all but these; `with`: these alone. */
  readonly filter: { readonly kind: 'with' | 'without'; readonly messages: readonly string[] } | undefined;
}

export interface Model {
  readonly origin: Origin;
  readonly name: string;
  readonly class: DeviceClass;
  readonly title: string | undefined;
  readonly part: string | undefined;
  readonly price: Money | undefined;
  readonly note: string | undefined;
  readonly families: readonly string[];
  readonly ports: readonly Port[];
  readonly shows: readonly string[];
  readonly shares: readonly string[];
  readonly bridges: readonly Medium[];
  readonly wants: readonly SignalRate[];
  readonly gives: readonly SignalRate[];
  readonly passes: readonly Passing[];
  readonly bandsHertz: readonly Interval[];
  readonly takesWatts: number | undefined;
  /** Declared IP codes, e.g. `IPX6`. */
  readonly ingress: readonly string[];
  readonly screenMetres: number | undefined;
  readonly compassMetres: number | undefined;
  readonly ignitionProtected: boolean;
  readonly poeTotalWatts: number | undefined;
  readonly carriesAmps: number | undefined;
  readonly crankingAmps: number | undefined;
  readonly volts: number | undefined;
  readonly chargesVolts: number | undefined;
  readonly lowestVolts: number | undefined;
  readonly sagsVolts: number | undefined;
  readonly capacity: { readonly ampHours: number; readonly atHours: number | undefined } | undefined;
  readonly chemistry: string | undefined;
  readonly peukert: number | undefined;
  readonly depth: number | undefined;
  readonly ccaAmps: number | undefined;
  readonly resistanceOhms: number | undefined;
  readonly shortCircuitAmps: number | undefined;
  readonly positions: readonly SwitchPosition[];
  readonly closesVolts: number | undefined;
  readonly opensVolts: number | undefined;
  readonly forwardVolts: number | undefined;
  readonly efficiency: number | undefined;
  readonly peakWatts: number | undefined;
  /** What a `load` is: bilgepump, blower, navlight, motor, thruster, alarm, memory, trolling. */
  readonly kind: string | undefined;
  readonly automatic: boolean;
  readonly dsc: boolean;
  readonly maxDrop: number | undefined;
  /** Length that a joint adds to a cable. */
  readonly lengthMetres: number | undefined;
  /** How many drops a teebox has. */
  readonly teePorts: number | undefined;
  readonly odMetres: number | undefined;
  readonly sealed: boolean;
  readonly lossDecibels: number | undefined;
  readonly beamDegrees: number | undefined;
}

/** One length that a cable is sold in. */
export interface StockLength {
  readonly lengthMetres: number;
  readonly price: Money | undefined;
}

export interface Cable {
  readonly origin: Origin;
  readonly name: string;
  readonly medium: Medium;
  readonly ownPlug: string | undefined;
  readonly title: string | undefined;
  readonly part: string | undefined;
  readonly note: string | undefined;
  readonly sealed: boolean;
  readonly odMetres: number | undefined;
  readonly headMetres: number | undefined;
  /** Sorted from short to long; empty where the cable is cut to length. */
  readonly stock: readonly StockLength[];
  /** Price of a metre where the cable is cut from the reel. */
  readonly pricePerMetre: Money | undefined;
  /** Resistance of one conductor. */
  readonly ohmsPerMetre: number | undefined;
  readonly carriesAmps: number | undefined;
  readonly longestMetres: number | undefined;
  readonly loss: readonly { readonly decibelsPerMetre: number; readonly hertz: number }[];
  readonly size: ConductorSize | undefined;
  readonly ratedCelsius: number | undefined;
  readonly sheathed: boolean;
  readonly bendMetres: number | undefined;
}

export interface Family {
  readonly origin: Origin;
  readonly name: string;
  readonly title: string | undefined;
}

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
  | { readonly kind: 'tap'; readonly origin: Origin; readonly from: End; readonly zone: string | undefined; readonly conductor: Conductor }
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
  | { readonly kind: 'hear'; readonly devices: readonly string[]; readonly signals: readonly string[]; readonly incomplete: boolean }
  | {
      readonly kind: 'last';
      readonly bank: string | undefined;
      readonly seconds: number | undefined;
      readonly mode: string | undefined;
      readonly cranks: readonly string[];
    }
  | { readonly kind: 'spare'; readonly count: number; readonly medium: Medium | undefined; readonly on: readonly string[]; readonly incomplete: boolean }
  | { readonly kind: 'cost'; readonly under: Money | undefined }
);

/** What a device does in a mode. Ratios are 0..1. */
export type Duty =
  | { readonly kind: 'on'; readonly device: string; readonly duty: number | undefined; readonly atMax: boolean }
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

/** A fuse type of the bundled library. */
export interface FuseType {
  readonly name: string;
  readonly ratingsAmps: readonly number[];
  readonly interrupts: readonly { readonly amps: number; readonly volts: number | undefined }[];
  readonly ratedVolts: number | undefined;
  readonly ignitionProtected: boolean;
}

/** A signal of the tree: `sonar` covers `sonar.side`. */
export interface Signal {
  readonly name: string;
  readonly title: string | undefined;
  /** Default NMEA 2000 message and rate, where one exists. */
  readonly pgn: number | undefined;
  readonly hertz: number | undefined;
  /** Default NMEA 0183 sentence. */
  readonly sentence: string | undefined;
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
  readonly labour: { readonly perHour: Money; readonly endSeconds: number | undefined; readonly deviceSeconds: number | undefined } | undefined;
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
  /** The option this vessel was overlaid with, if any. */
  readonly option: string | undefined;
}
