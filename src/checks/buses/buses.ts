/** The NMEA 2000 backbones of a vessel with everything that is worked out of them, each when it is first asked for. */
import type { Vessel } from '../../vessel/model.js';
import type { Lookup } from '../../vessel/lookup.js';
import type { Routes } from '../../vessel/routes.js';
import { once } from '../once.js';
import { createBuses as createReach } from '../sharing/bus.js';
import type { Circuits } from '../power/circuit/circuits.js';
import type { Loads } from '../power/loads/loads.js';
import type { Sizing } from '../power/sizing/sizing.js';
import type { SupplyGraph } from '../power/supply/graph.js';
import type { Wiring } from '../wiring/wiring.js';
import type { Bus, BusNode, Stretch } from './bus.js';
import { dropsOf, type Drops } from './drops.js';
import { feedingOf, type Feeding } from './feeding.js';
import { readBus } from './read.js';
import { trafficOf, type Traffic } from './traffic.js';

/** A stretch with what feeds it. */
export interface FedStretch {
  readonly stretch: Stretch;
  readonly feeding: Feeding;
  readonly drops: Drops;
  /** Volts lost from the source to a device: before the tap and on the backbone. */
  readonly lostAt: (node: BusNode) => number;
  /** Volts at a device with the battery at its lowest; undefined where that is not known. */
  readonly lowestAt: (node: BusNode) => number | undefined;
}

export interface BusAnalysis {
  readonly bus: Bus;
  /** Stretches that something feeds. */
  readonly fed: () => readonly FedStretch[];
  readonly traffic: () => Traffic;
  /** The least voltage on it with the battery at its lowest; undefined where something for it is not known. */
  readonly lowest: () => { readonly node: BusNode; readonly volts: number } | undefined;
}

/** What backbones are worked out of. */
export interface BusSources {
  readonly vessel: Vessel;
  readonly lookup: Lookup;
  readonly routes: Routes;
  readonly wiring: Wiring;
  readonly supply: SupplyGraph;
  readonly sizing: Sizing;
  readonly loads: Loads;
  readonly circuits: Circuits;
}

export function createBackbones(sources: BusSources): readonly BusAnalysis[] {
  const { vessel, lookup, wiring, supply } = sources;
  const ground = sources;
  const buses = wiring.backbones.map((wired) => readBus(ground, supply, wired));
  const traffic = once(() => trafficOf(vessel, lookup, buses, linesOnto(vessel, lookup, wiring)));
  return buses.map((bus) => {
    const fed = once(() => bus.stretches.flatMap((stretch) => fedStretch(sources, bus, stretch) ?? []));
    return {
      bus,
      fed,
      traffic: () => traffic().get(bus.name) ?? NOTHING,
      lowest: once(() => lowestOf(bus, fed())),
    };
  });
}

const NOTHING: Traffic = {
  messages: [],
  worst: 0,
  typical: 0,
  worstShare: 0,
  typicalShare: 0,
  talkers: [],
  missing: [],
};

function fedStretch(sources: BusSources, bus: Bus, stretch: Stretch): FedStretch | undefined {
  const drops = dropsOf(bus, stretch);
  if (drops === undefined) return undefined;
  const feeding = once(() => feedingOf(sources, drops.tap, drops.amps));
  return {
    stretch,
    get feeding() {
      return feeding();
    },
    drops,
    lostAt: (node) => feeding().lostBefore + (drops.nodes.get(node) ?? 0),
    lowestAt: (node) => {
      const { tapVolts } = feeding();
      return tapVolts === undefined ? undefined : tapVolts - (drops.nodes.get(node) ?? 0);
    },
  };
}

/** Not known where a stretch with devices has no tap, or where a length, a load or a voltage is missing. */
function lowestOf(bus: Bus, fed: readonly FedStretch[]): ReturnType<BusAnalysis['lowest']> {
  if (bus.open || bus.stretches.some((stretch) => stretch.nodes.length > 0 && stretch.taps.length === 0))
    return undefined;
  let lowest: ReturnType<BusAnalysis['lowest']>;
  for (const { stretch, drops, lowestAt } of fed) {
    if (drops.missing !== undefined) return undefined;
    for (const node of stretch.nodes) {
      const volts = lowestAt(node);
      if (volts === undefined) return undefined;
      if (lowest === undefined || volts < lowest.volts) lowest = { node, volts };
    }
  }
  return lowest;
}

/** What comes onto each backbone from NMEA 0183, through gateways. */
function linesOnto(vessel: Vessel, lookup: Lookup, wiring: Wiring): Parameters<typeof trafficOf>[3] {
  const brought = new Map<
    string,
    { readonly device: string; readonly signal: string; readonly by: string }[]
  >();
  const converts = vessel.devices.some((device) => {
    const model = lookup.modelOf(device.name);
    return model?.passes.some((passing) => {
      const to = lookup.portOf(device.name, passing.to);
      return (
        to?.medium === 'nmea2000' &&
        passing.from.some((from) => lookup.portOf(device.name, from)?.medium === 'nmea0183')
      );
    });
  });
  if (!converts) return brought;
  const reach = createReach(vessel, lookup, wiring);
  for (const { name, leaving } of vessel.devices) {
    const model = lookup.modelOf(name);
    if (leaving || reach.backbonesOf(name).length > 0) continue;
    if (model?.ports.some((port) => port.serial?.talksBaud !== undefined) !== true) continue;
    for (const { signal } of model.gives)
      for (const { from, over } of reach.reach(name, signal, new Set()).arrivals.values()) {
        const bus = /^backbone (.+)$/.exec(over)?.[1];
        if (bus === undefined) continue;
        const list = brought.get(bus) ?? [];
        if (!list.some((one) => one.device === name && one.signal === signal))
          brought.set(bus, [...list, { device: name, signal, by: from }]);
      }
  }
  return brought;
}
