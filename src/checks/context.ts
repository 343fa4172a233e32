/** What the rules look at: the vessel with everything that is worked out of it, each once and when first asked for. */
import type { Vessel } from '../vessel/model.js';
import { createLookup, type Lookup } from '../vessel/lookup.js';
import { createRoutes, type Routes } from '../vessel/routes.js';
import type { NeedResult, PaneResult, PartLine } from './analysis.js';
import { createBackbones, type BusAnalysis } from './buses/buses.js';
import { collectPassages, type Passage } from './cables/passages.js';
import { computeCables, type RoutedCable } from './cables/cables.js';
import { createHearing, type Hearing } from './data/data.js';
import { createEthernet, type Ethernet } from './network/ethernet.js';
import { computeLines, type Line } from './lines/lines.js';
import { computeNeeds } from './needs/needs.js';
import { computePanes } from './needs/panes.js';
import { once } from './once.js';
import { createCircuits, type Circuits } from './power/circuit/circuits.js';
import { createLoads, type Loads } from './power/loads/loads.js';
import { createEnergy, type Energy } from './power/energy/energy.js';
import { computeParts } from './parts/parts.js';
import { createFaultNet } from './power/protection/net.js';
import { createProtection, type Protection } from './power/protection/protection.js';
import { createSizing, type Sizing } from './power/sizing/sizing.js';
import type { SupplyGraph } from './power/supply/graph.js';
import { createSupply } from './power/supply/supply.js';
import { createSharing, type Sharing } from './sharing/sharing.js';
import { resolveWiring } from './wiring/resolve.js';
import type { Wiring } from './wiring/wiring.js';

export interface Context {
  readonly vessel: Vessel;
  readonly lookup: Lookup;
  readonly routes: Routes;
  readonly wiring: Wiring;
  readonly ethernet: Ethernet;
  /** Terminals, conductors and what joins them: the direct-current side. */
  readonly supply: SupplyGraph;
  /** Where fault current can come from, and what breaks it. */
  readonly protection: Protection;
  /** What is drawn where in each mode. */
  readonly loads: Loads;
  /** Voltages, mode by mode. */
  readonly circuits: Circuits;
  /** Wires and fuses, written or worked out. */
  readonly sizing: Sizing;
  /** How long banks last, and how they fare over a day. */
  readonly energy: Energy;
  readonly sharing: Sharing;
  /** The NMEA 2000 backbones, in the order of the spec. */
  readonly buses: readonly BusAnalysis[];
  /** NMEA 0183: each talker's port with what listens to it. */
  readonly lines: readonly Line[];
  /** Who hears what. */
  readonly hearing: Hearing;
  readonly cables: readonly RoutedCable[];
  /** Everything that is pulled along the runs. */
  readonly passages: readonly Passage[];
  /** The parts list. */
  readonly parts: () => readonly PartLine[];
  readonly needs: readonly NeedResult[];
  readonly panes: readonly PaneResult[];
}

/** Set a vessel up for checking. */
export function createContext(vessel: Vessel): Context {
  const lookup = createLookup(vessel);
  const routes = createRoutes(vessel);
  const wiring = resolveWiring(vessel, lookup);
  const ethernet = createEthernet(vessel, lookup, wiring);
  const sharing = createSharing(vessel, lookup, wiring, ethernet);
  const hearing = createHearing(vessel, lookup, ethernet, sharing);
  const supply = createSupply(vessel, lookup, routes, wiring);
  const loads = createLoads(vessel, lookup, supply);
  const energy = createEnergy(vessel, supply, loads);
  const net = createFaultNet(supply);
  const sizing = createSizing({ vessel, lookup, supply, net, loads });
  const circuits = createCircuits(() => context);
  const cables = computeCables(vessel, lookup, routes, wiring);
  const parts = once(() => computeParts({ vessel, lookup, cables }));
  const context: Context = {
    vessel,
    lookup,
    routes,
    wiring,
    ethernet,
    supply,
    protection: createProtection(vessel, supply, undefined, net),
    loads,
    sizing,
    energy,
    circuits,
    sharing,
    buses: createBackbones({ vessel, lookup, routes, wiring, supply, sizing, loads, circuits }),
    lines: computeLines(vessel, lookup, wiring),
    hearing,
    cables,
    passages: collectPassages({ vessel, lookup, routes, cables }),
    parts,
    needs: computeNeeds(vessel, { lookup, wiring, sharing, hearing, energy, parts }),
    panes: computePanes(vessel, lookup, sharing),
  };
  return context;
}
