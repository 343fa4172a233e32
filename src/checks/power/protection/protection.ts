/**
 * Where fault current can come from, and what would break it. A battery is a source on every conductor that reaches it, on
 * charging paths too; chargers, alternators and converters are limited by themselves where they say to what (33 CFR 183.455).
 */
import { largestRating } from '../../../vessel/conductors/protection.js';
import { ampacity } from '../../../vessel/conductors/ampacity.js';
import { sizeText } from '../../../vessel/conductors/sizes.js';
import type { Vessel } from '../../../vessel/model.js';
import type { PlacedDevice, SupplyEdge, SupplyGraph } from '../supply/graph.js';
import { createLayings, type LayingOf } from './laying.js';
import {
  type Arc,
  createFaultNet,
  type FaultNet,
  endsOf,
  isUnlimited,
  sitsAt,
  terminalAt,
  type EdgeEnd,
  type Node,
} from './net.js';

/** A device on some conductor. */
export interface Fitted {
  readonly edge: SupplyEdge;
  readonly device: PlacedDevice;
}

/** What feeds a fault. */
export interface FaultSource {
  readonly device: string;
  /** A battery; else something that does not say what it limits its current to. */
  readonly certain: boolean;
}

/** What a walk towards the sources comes upon. */
export interface Reach {
  /** A source with nothing between that would break the fault. */
  readonly source: FaultSource | undefined;
  /** Devices at which it ended, each the nearest on its way. */
  readonly stoppedAt: readonly Fitted[];
  /** Devices that it passed because they are too large. */
  readonly passed: readonly Fitted[];
  /** The end itself, or something on the way, is not settled. */
  readonly open: boolean;
}

/** An end at which a conductor lacks a device. */
export interface Gap {
  readonly end: EdgeEnd;
  /** The device at that end. */
  readonly at: string;
  readonly source: FaultSource;
  /** Devices upstream that are too large for it. */
  readonly passed: readonly Fitted[];
}

/** How large a device may be for a conductor, or what is missing to say so. */
export interface WireLimit {
  /** Amperes; undefined where it is not known. */
  readonly amps: number | undefined;
  readonly ampacityAmps: number | undefined;
  readonly missing: string | undefined;
}

export interface Protection {
  /** Conductors by their distance from a bank: work outwards, and what was chosen upstream counts downstream. */
  readonly outward: readonly SupplyEdge[];
  /** Follow fault current from an end back to its sources, as far as a device that breaks it. */
  readonly reach: (edge: SupplyEdge, end: EdgeEnd, breaks: (device: PlacedDevice) => boolean) => Reach;
  /**
   * The ends of a conductor that fault current can come to and at which no device of at most `limitAmps` stands between, its
   * own devices counted. The limit is the written wire's unless it is given; without one, any device will do.
   */
  readonly gapsOf: (edge: SupplyEdge, limitAmps?: number) => readonly Gap[];
  /** The end at which a conductor that hangs on a branch is fed; undefined where it lies between sources, or nothing feeds it. */
  readonly fedAt: (edge: SupplyEdge) => EdgeEnd | undefined;
  /** Ways by which current can come to a node: up its branch, or about among the sources. */
  readonly waysTo: (node: Node) => readonly Arc[];
  /** What a branch hangs on; undefined for what lies among the sources. */
  readonly rootOf: (node: Node) => Node | undefined;
  /** How it lies: worst of its legs. */
  readonly layingOf: (edge: SupplyEdge) => LayingOf;
  /** The largest rating for its written wire; undefined where the wire is left to the tool. */
  readonly wireLimitOf: (edge: SupplyEdge) => WireLimit | undefined;
}

/**
 * Prepare the protection of a boat. `devicesOf` says what is fitted on a conductor and is asked anew each time, so that
 * devices that are worked out outwards from the sources count for what comes after.
 */
export function createProtection(
  vessel: Vessel,
  graph: SupplyGraph,
  devicesOf: (edge: SupplyEdge) => readonly PlacedDevice[] = (edge) => edge.devices,
  net: FaultNet = createFaultNet(graph),
): Protection {
  const { practice } = vessel;
  const layingOf = createLayings(vessel, graph);
  const at = (edge: SupplyEdge, end: EdgeEnd): readonly PlacedDevice[] =>
    devicesOf(edge).filter((device) => sitsAt(device, end));

  const reach: Protection['reach'] = (edge, end, breaks) => {
    const start = terminalAt(edge, end);
    if (start === undefined) return { source: undefined, stoppedAt: [], passed: [], open: true };
    const stoppedAt: Fitted[] = [];
    const passed: Fitted[] = [];
    let maybe: FaultSource | undefined;
    const seen = new Set<Node>([edge, start]);
    const queue: Node[] = net.rootOf(start) === edge ? [] : [start];
    for (const node of queue) {
      if (typeof node === 'string') {
        const bank = graph.bankAt(node);
        if (bank !== undefined)
          return { source: { device: bank.device, certain: true }, stoppedAt, passed, open: false };
        if (isUnlimited(graph, node))
          maybe ??= { device: graph.outputAt(node)?.device ?? node, certain: false };
      }
      for (const arc of net.waysTo(node)) {
        if (!arc.comes || seen.has(arc.to)) continue;
        const fitted = arc.edge === undefined || arc.end === undefined ? [] : at(arc.edge, arc.end);
        const stop = fitted.find(breaks);
        if (arc.edge !== undefined) {
          const on = arc.edge;
          for (const device of stop === undefined ? fitted : [stop])
            (stop === undefined ? passed : stoppedAt).push({ edge: on, device });
        }
        if (stop !== undefined) continue;
        seen.add(arc.to);
        queue.push(arc.to);
      }
    }
    return { source: maybe, stoppedAt, passed, open: false };
  };

  const wireLimitOf = (edge: SupplyEdge): WireLimit | undefined => {
    if (edge.size === undefined) return undefined;
    const unknown = (missing: string): WireLimit => ({ amps: undefined, ampacityAmps: undefined, missing });
    if (practice === undefined) return unknown(`${vessel.name} does not say its practice`);
    const { laying, missing } = layingOf(edge);
    if (laying === undefined) return unknown(missing ?? `how ${edge.text} lies is not known`);
    const amps = ampacity(edge.size, laying, practice);
    return amps === undefined
      ? unknown(
          `no ampacity is known for ${sizeText(edge.size)} rated ${laying.ratedCelsius} C${laying.engineSpace ? ' in an engine space' : ''}`,
        )
      : { amps: largestRating(amps, practice), ampacityAmps: amps, missing: undefined };
  };

  return {
    get outward() {
      return net.outward;
    },
    reach,
    waysTo: net.waysTo,
    rootOf: net.rootOf,
    layingOf,
    wireLimitOf,
    gapsOf: (edge, limitAmps = wireLimitOf(edge)?.amps ?? Infinity) => {
      if (edge.conductor.cranking) return [];
      const breaks = (device: PlacedDevice): boolean => breaksAt(device, limitAmps);
      const own = devicesOf(edge);
      const gaps = endsOf(edge).flatMap((end): Gap[] => {
        if (own.some((device) => device.end === end && breaks(device))) return [];
        const found = reach(edge, end, breaks);
        if (found.source === undefined) return [];
        const leg = end === 'from' ? undefined : edge.legs[end];
        const at = deviceAt(graph, terminalAt(edge, end)) ?? leg?.text ?? edge.fromText;
        return [{ end, at, source: found.source, passed: found.passed }];
      });
      // What does not say where it sits is at one of the ends that need it.
      return gaps.slice(own.filter((device) => device.end === undefined && breaks(device)).length);
    },
    fedAt: (edge) => {
      const root = net.rootOf(edge);
      return root === undefined ? undefined : endsOf(edge).find((end) => terminalAt(edge, end) === root);
    },
  };
}

/** Whether a device breaks a fault on a conductor that takes at most `limitAmps`. One whose rating is not known is not doubted. */
function breaksAt({ amps }: PlacedDevice, limitAmps: number): boolean {
  return amps === undefined || amps <= limitAmps * (1 + 1e-9);
}

function deviceAt(graph: SupplyGraph, terminal: string | undefined): string | undefined {
  const found = terminal === undefined ? undefined : graph.terminals.get(terminal);
  return found?.kind === 'port' ? found.device : undefined;
}
