/**
 * The one analysis of a vessel that every face reads. Everything here is plain data or a pure function of it.
 */
import type { DataWant } from './data/data.js';
import type {
  Backbone,
  Feed,
  Grade,
  Link,
  Medium,
  Pane,
  Port,
  Run,
  Vessel,
  View,
  Wanted,
} from '../vessel/model.js';
import type { Spot } from '../vessel/origin.js';
import type { BusAnalysis } from './buses/buses.js';
import type { Line } from './lines/lines.js';
import type { Passage } from './cables/passages.js';
import type { DeviceMargin } from './power/circuit/margins.js';
import type { Energy } from './power/energy/energy.js';
import type { Loads } from './power/loads/loads.js';
import type { Counts, Finding, Unknown } from './finding.js';
import type { PanelResult } from './power/panels/panels.js';
import type { Prospective } from './power/protection/prospective.js';
import type { FeedResult } from './power/sizing/feeds.js';
import type { Sizing } from './power/sizing/sizing.js';
import type { SupplyGraph } from './power/supply/graph.js';

/** A port of a device, resolved. */
export interface PortOfDevice {
  readonly device: string;
  readonly port: Port;
}

/** A link with the ports it really uses; an end that could not be settled is undefined. */
export interface WiredLink {
  readonly link: Link;
  readonly medium: Medium | undefined;
  readonly a: PortOfDevice | undefined;
  readonly b: PortOfDevice | undefined;
}

/** A feed with the ports it really uses. */
export interface WiredFeed {
  readonly feed: Feed;
  readonly from: PortOfDevice | undefined;
  /** One for each end of the feed, in its order. */
  readonly to: readonly (PortOfDevice | undefined)[];
}

/** A device on a backbone: on a tee, on a branch of a drop, or at its end as the terminator. */
export interface BusMember {
  readonly device: string;
  /** Undefined where it could not be settled which port it is. */
  readonly port: Port | undefined;
  readonly via: 'tee' | 'branch' | 'terminator';
  readonly spot: Spot;
}

/** A backbone with what is on it, each device once. */
export interface WiredBackbone {
  readonly backbone: Backbone;
  readonly members: readonly BusMember[];
  /** What feeds it, in the order of its items; undefined where a port could not be settled. */
  readonly taps: readonly (PortOfDevice | undefined)[];
  /** Some end on it does not resolve: nothing may be concluded from a device's absence. */
  readonly open: boolean;
}

/** What is on a port. */
export interface PortUse {
  readonly device: string;
  readonly port: Port;
  /** Empty for a free port. Other ends as text, e.g. `hub.1`, `backbone nav`. */
  readonly on: readonly { readonly what: string; readonly spot: Spot }[];
}

/** Devices joined by ethernet through bridging devices. */
export interface Segment {
  /** Smallest member name, which names the segment. */
  readonly id: string;
  readonly devices: readonly string[];
  readonly links: readonly Link[];
}

/** How long a link's cable is and what is bought for it. */
export interface CableRun {
  readonly link: Link;
  /** Stable identity from the two ends, e.g. `hub.1--plotter.net1`. */
  readonly id: string;
  readonly cable: string | undefined;
  readonly zones: readonly string[];
  /** Runs along the way, in its order. */
  readonly runs: readonly Run[];
  /** What is stated, else the route with slack at both ends; undefined where unknown. */
  readonly neededMetres: number | undefined;
  /** The route with slack at both ends, whatever is stated; undefined where unknown. */
  readonly routeMetres: number | undefined;
  readonly statedMetres: number | undefined;
  /** Lengths bought, longest first: one stock length, or several joined. Empty for a captive tail or cut cable. */
  readonly pieces: readonly number[];
  readonly captiveMetres: number | undefined;
  /** Why there is no length: the fact that is missing. */
  readonly unknown: string | undefined;
}

/** interfaces.md: the closed list of verdicts. */
export const VERDICTS = [
  'reached',
  'not-linked',
  'wrong-medium',
  'grade-refused',
  'not-shared',
  'no-path',
  'family-differs',
  'not-shown',
  'not-powered',
  'unknown',
] as const;
export type VerdictKind = (typeof VERDICTS)[number];

/** One step of an answer, with the rule or statement that decided it and the element it stands on. */
export interface Hop {
  readonly device: string;
  readonly port: string | undefined;
  readonly why: string;
  readonly spot: Spot;
}

/** Whether a screen can show a signal of a source, and how. `visible` null and verdict `unknown` go together. */
export interface ViewAnswer {
  readonly screen: string;
  readonly source: string;
  readonly signal: string;
  readonly visible: boolean | null;
  readonly verdict: VerdictKind;
  readonly by: 'own' | 'network' | 'bus' | null;
  /** Devices from the source to the screen. */
  readonly path: readonly string[];
  /** Devices (other than source and screen) on the path that must be powered. */
  readonly needsPowered: readonly string[];
  readonly reason: string | null;
  /** What would make it right, where the analysis knows: "link it to plotter.sonar, which accepts hd". */
  readonly nearest: string | null;
  /** Up to and including the first that fails. */
  readonly hops: readonly Hop[];
}

/** A signal that a source can put on a screen. */
export interface SourceSignal {
  readonly source: string;
  readonly signal: string;
  readonly grade: Grade | undefined;
}

/** How a need came out. `met` null: the spec does not say enough. */
export interface NeedResult {
  readonly index: number;
  readonly spot: Spot;
  readonly text: string;
  readonly met: boolean | null;
  /** Needs of a later concern (cost) that no check judges yet are not judged: met null, with a reason. */
  readonly reason: string | null;
  readonly answers: readonly ViewAnswer[];
}

/** How a wanted thing comes out on a screen. `answers` carry the verdicts that decided. */
export interface Shown {
  readonly visible: boolean | null;
  readonly answers: readonly ViewAnswer[];
  readonly reason: string | null;
}

/** How one layer of a pane comes out on the screen of its view. */
export interface PaneResult {
  readonly view: View;
  readonly pane: Pane;
  readonly layer: Wanted;
  readonly shown: Shown;
}

/** What the needs exercise. */
export interface Coverage {
  readonly device: readonly {
    readonly name: string;
    readonly covered: boolean;
    readonly by: readonly string[];
    readonly spot: Spot;
  }[];
  readonly link: readonly {
    readonly id: string;
    readonly covered: boolean;
    readonly by: readonly string[];
    readonly spot: Spot;
  }[];
}

/** A line of the parts list. */
export interface PartLine {
  readonly kind: 'device' | 'cable' | 'joint';
  readonly model: string;
  readonly title: string | undefined;
  readonly part: string | undefined;
  readonly lengthMetres: number | undefined;
  readonly quantity: number;
  /** Null where no price is stated (never zero). */
  readonly unitPrice: number | null;
  readonly totalPrice: number | null;
  readonly currency: string | null;
  /** Devices that are aboard already cost nothing. */
  readonly existing: boolean;
}

/** What the boat no longer does with one element taken away. */
export interface Failure {
  readonly kind: 'device' | 'cable' | 'feed' | 'fuse' | 'bus';
  readonly name: string;
  /** A device's class, a cable's medium, `drop`, `feed` or `tap`, `fuse` or `breaker`. */
  readonly what: string;
  readonly spot: Spot;
  readonly needsLost: readonly string[];
  /** Panes of views, `Drift/left`. */
  readonly viewsLost: readonly string[];
  /** Other devices that have no power then, sorted. */
  readonly devicesDark: readonly string[];
  /** Engines that could not be started, as the switches stand, sorted. */
  readonly enginesLost: readonly string[];
  /** Needs and panes that rest on it, and still hold by another way. */
  readonly otherPath: readonly string[];
}

/** A need that is met with everything aboard, and what becomes of it as one thing fails. */
export interface NeedSurvival {
  readonly text: string;
  readonly spot: Spot;
  /** What alone costs it. */
  readonly costBy: readonly Failure[];
  /** What it rests on without being lost with it. */
  readonly otherPath: readonly Failure[];
}

/** The voltage of a device with the banks at their lowest, with everything aboard and with any one thing failed. */
export interface VoltageEnvelope {
  readonly device: string;
  /** Its port, or the stretch of the backbone that it lives on. */
  readonly terminal: string;
  readonly spot: Spot;
  /** The least that it works with; undefined where that is not stated. */
  readonly floorVolts: number | undefined;
  readonly normalVolts: number | undefined;
  /** The least over all failures that leave it fed. */
  readonly lowestVolts: number | undefined;
  /** The mode in which it has the least; undefined where none is declared. */
  readonly mode: string | undefined;
  /** The failure that gives it; undefined where none gives less than it has with everything aboard. */
  readonly failure: string | undefined;
  /** Failures with which its supply collapses. */
  readonly collapsing: readonly string[];
  /** Failures that leave it without power. */
  readonly darkBy: readonly string[];
  /** The fact that is missing: the figures are not known, or bounds from above. */
  readonly reason: string | undefined;
}

export interface FailureReport {
  readonly failures: readonly Failure[];
  readonly needs: readonly NeedSurvival[];
  readonly voltages: () => readonly VoltageEnvelope[];
  /** What cannot be told apart by taking things away: it is not known, or does not hold, with everything aboard. */
  readonly notAnalysed: readonly { readonly spot: Spot; readonly what: string; readonly why: string }[];
}

export interface Analysis {
  readonly vessel: Vessel;
  readonly links: readonly WiredLink[];
  readonly feeds: readonly WiredFeed[];
  readonly backbones: readonly WiredBackbone[];
  /** Each backbone read along its cable, in the same order. */
  readonly buses: readonly BusAnalysis[];
  /** NMEA 0183 lines by their talkers: `wind.talk`. */
  readonly lines: readonly Line[];
  /** The supply as a graph, and the wire and protection of each of its conductors. */
  readonly supply: SupplyGraph;
  readonly sizing: Sizing;
  /** Everything that is pulled along the runs. */
  readonly passages: readonly Passage[];
  readonly ports: readonly PortUse[];
  readonly segments: readonly Segment[];
  readonly cables: readonly CableRun[];
  readonly needs: readonly NeedResult[];
  readonly panes: readonly PaneResult[];
  readonly findings: readonly Finding[];
  readonly unknowns: readonly Unknown[];
  readonly rulesRun: number;
  readonly counts: Counts;
  /** Answers are worked out when asked for, and remembered. */
  readonly answer: (screen: string, source: string, signal: string, off?: ReadonlySet<string>) => ViewAnswer;
  /** What a device stands for on a screen: what it gives itself, what a black box hosts, the charts that a display shares. */
  readonly standsFor: (device: string) => readonly SourceSignal[];
  /** What a screen could be asked to show: every signal of every source. */
  readonly sources: readonly SourceSignal[];
  readonly screens: readonly string[];
  /** The direct-current side, worked out when asked for. */
  readonly power: {
    /** Every leg of every feed and tap: its wire, its protection, what it carries and what arrives. */
    readonly feeds: () => readonly FeedResult[];
    /** How much more the supply of the device at a terminal would carry. */
    readonly marginAt: (terminal: string) => DeviceMargin | undefined;
    /** A panel by its name, way by way; undefined for a device that is none. */
    readonly panel: (device: string) => PanelResult | undefined;
    /** What a short circuit at a terminal draws. */
    readonly shortCircuitAt: (terminal: string) => Prospective;
  };
  /** Everything that a device wants, with what brings it. */
  readonly data: () => readonly DataWant[];
  readonly coverage: () => Coverage;
  readonly parts: () => readonly PartLine[];
  readonly failures: () => FailureReport;
  /** What is drawn in each mode. */
  readonly loads: Loads;
  /** How long banks last in each mode, and how they fare over a day. */
  readonly energy: Energy;
}
