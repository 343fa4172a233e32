/**
 * What catalogues and the bundled library declare: models with their ports, cables, families, signals and fuse types.
 * Units as in model.ts.
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
  /** Fuse types that the port's own holder takes. */
  readonly holds: readonly string[];
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
  /** What goes in or out of a port of video, audio, trigger, alternating current or a maker's own plug. */
  readonly direction: 'in' | 'out' | undefined;
  /** NMEA 2000 load equivalency number, 50 mA each. */
  readonly len: number | undefined;
  /** The most that it takes from an NMEA 2000 bus, where its maker says that instead of load units. */
  readonly draws?: Draw | undefined;
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
