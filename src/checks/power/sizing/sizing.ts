/**
 * The wire and the protection of every conductor: as written, or worked out where the spec leaves it to the tool. The conductors
 * are taken outwards from the sources, so that what is lost upstream and what protects upstream count for what comes after.
 */
import { ampacity } from '../../../vessel/conductors/ampacity.js';
import { ohmsPerMetre } from '../../../vessel/conductors/drop.js';
import { largestRating } from '../../../vessel/conductors/protection.js';
import type { ConductorSize, Vessel } from '../../../vessel/model.js';
import type { Lookup } from '../../../vessel/lookup.js';
import { once } from '../../once.js';
import type { Loads } from '../loads/loads.js';
import type { FaultNet } from '../protection/net.js';
import { createProtection, type Protection } from '../protection/protection.js';
import { systemOn } from '../supply/circuitVolts.js';
import type { PlacedDevice, SupplyEdge, SupplyGraph } from '../supply/graph.js';
import { gatherAllowances, lengthOf } from './asked.js';
import { dropOf, type Drop } from './drops.js';
import { sizeExempt } from './exempt.js';
import { createFlows, type FlowOf } from './flows.js';
import type { Gap } from '../protection/protection.js';
import { fuseAt, protectionOf } from './protecting.js';
import { chooseWire, type DropAsked, type Governing } from './wire.js';
import { createWays, type Ways } from './ways.js';

export interface SizedWire {
  /** Undefined where it is left to the tool and no conductor suffices, or a fact is missing. */
  readonly size: ConductorSize | undefined;
  readonly computed: boolean;
  /** What decided a computed size. */
  readonly governedBy: Governing | undefined;
  /** Why there is none: nothing in the practice's tables is enough for this. */
  readonly none: { readonly by: Governing; readonly largest: ConductorSize | undefined } | undefined;
}

/** A fuse or breaker on a conductor. Computed ones have amps where one can be found that fits. */
export interface SizedDevice {
  readonly device: PlacedDevice;
  readonly computed: boolean;
}

export interface SizedEdge {
  readonly edge: SupplyEdge;
  readonly wire: SizedWire;
  readonly protection: readonly SizedDevice[];
  /** Through its start: all legs together. */
  readonly typicalAmps: number;
  readonly maxAmps: number;
  readonly ampacityAmps: number | undefined;
  /** Ends that need a device for which none can be found, by the terminal. */
  readonly unfitted: readonly string[];
  /** The fact that is missing for the wire; undefined where none is. */
  readonly missing: string | undefined;
}

export interface Sizing {
  readonly of: (edge: SupplyEdge) => SizedEdge;
  readonly all: readonly SizedEdge[];
  readonly flowOf: FlowOf;
  readonly ways: Ways;
  /** Protection with what was worked out, too. */
  readonly protection: Protection;
  readonly sizeOf: (edge: SupplyEdge) => ConductorSize | undefined;
  /** The wire that the tool would use, whatever is written; undefined where none suffices or a fact is missing. */
  readonly advised: (edge: SupplyEdge) => ConductorSize | undefined;
  /** The fuse that closes a gap; undefined where none fits, or what flows there or the wire is not known. */
  readonly fuseFor: (edge: SupplyEdge, gap: Gap) => PlacedDevice | undefined;
  /** What is lost on the way to the end of a leg. */
  readonly dropOf: (edge: SupplyEdge, leg: number) => Drop;
  /** Ohms of both conductors of a leg; undefined where its size or length is not known. */
  readonly legOhms: (edge: SupplyEdge, leg: number) => number | undefined;
}

export interface SizingGround {
  readonly vessel: Vessel;
  readonly lookup: Lookup;
  readonly supply: SupplyGraph;
  /** The supply as fault current sees it. */
  readonly net: FaultNet;
  readonly loads: Loads;
}

/** Prepare the sizing of a boat: all of it is worked out when the first part of it is asked for. */
export function createSizing(ground: SizingGround): Sizing {
  const { vessel, supply, loads } = ground;
  const ways = once(() => createWays(supply));
  const flows = once(() => createFlows(supply, loads, ways()));
  const sized = new Map<SupplyEdge, SizedEdge>();
  const fitted = new Map<SupplyEdge, readonly PlacedDevice[]>();
  const protection = createProtection(vessel, supply, (edge) => fitted.get(edge) ?? edge.devices, ground.net);
  const sizeOf = (edge: SupplyEdge): ConductorSize | undefined => sized.get(edge)?.wire.size ?? edge.size;
  const legOhms = (edge: SupplyEdge, leg: number): number | undefined => {
    const size = sizeOf(edge);
    const metres = edge.legs[leg]?.lengthMetres;
    if (size === undefined || metres === undefined || vessel.practice === undefined) return undefined;
    const ohms = ohmsPerMetre(size, vessel.practice);
    return ohms === undefined ? undefined : 2 * metres * ohms;
  };
  const prepared = once((): Parts => {
    const { practice } = vessel;
    const allowances =
      practice === undefined
        ? undefined
        : gatherAllowances(
            { graph: supply, ways: ways(), practice, flowOf: flows() },
            loads.starters.map(({ terminal }) => terminal),
          );
    return { ...ground, ways: ways(), flowOf: flows(), protection, sizeOf, legOhms, allowances };
  });
  const all = once((): readonly SizedEdge[] => {
    const parts = prepared();
    for (const edge of ways().net.outward) {
      const one = sizeEdge(parts, edge);
      sized.set(edge, one);
      fitted.set(
        edge,
        one.protection.map(({ device }) => device),
      );
    }
    return supply.edges.flatMap((edge) => sized.get(edge) ?? []);
  });
  return {
    of: (edge) => {
      all();
      const found = sized.get(edge);
      if (found === undefined) throw new Error(`${edge.text} is no conductor of ${vessel.name}`);
      return found;
    },
    get all() {
      return all();
    },
    advised: (edge) => {
      all();
      const parts = prepared();
      return edge.size === undefined ? sizeOf(edge) : wireOf(parts, edge, null).size;
    },
    fuseFor: (edge, { end, at }) => {
      all();
      const parts = prepared();
      const known = edge.legs.every((leg) => parts.flowOf(edge, leg.index).missing === undefined);
      const ampacityAmps = sized.get(edge)?.ampacityAmps;
      if (!known || ampacityAmps === undefined || vessel.practice === undefined) return undefined;
      return fuseAt(parts, edge, end, {
        through: throughStart(parts, edge),
        limitAmps: largestRating(ampacityAmps, vessel.practice),
        at,
      });
    },
    dropOf: (edge, leg) => {
      all();
      return dropOf(prepared(), sized.get(edge)?.missing, edge, leg);
    },
    flowOf: (edge, leg) => flows()(edge, leg),
    get ways() {
      return ways();
    },
    get protection() {
      all();
      return protection;
    },
    sizeOf: (edge) => {
      all();
      return sizeOf(edge);
    },
    legOhms: (edge, leg) => {
      all();
      return legOhms(edge, leg);
    },
  };
}

/** What sizing one conductor rests on; what is upstream of it has been sized before. */
export interface Parts extends SizingGround {
  readonly ways: Ways;
  readonly flowOf: FlowOf;
  readonly protection: Protection;
  readonly sizeOf: (edge: SupplyEdge) => ConductorSize | undefined;
  readonly legOhms: (edge: SupplyEdge, leg: number) => number | undefined;
  readonly allowances: ReturnType<typeof gatherAllowances> | undefined;
}

function sizeEdge(parts: Parts, edge: SupplyEdge): SizedEdge {
  const { typicalAmps, maxAmps } = throughStart(parts, edge);
  const wire = wireOf(parts, edge);
  const ampacityAmps = ampacityOf(parts, edge, wire.size);
  const limit =
    ampacityAmps === undefined || parts.vessel.practice === undefined
      ? undefined
      : largestRating(ampacityAmps, parts.vessel.practice);
  const { devices, unfitted } = protectionOf(parts, edge, { typicalAmps, maxAmps }, limit);
  return {
    edge,
    wire,
    protection: devices,
    typicalAmps,
    maxAmps,
    ampacityAmps,
    unfitted,
    missing: wire.missing ?? parts.protection.layingOf(edge).missing,
  };
}

/** What all legs together bring through the start, or through the leg by which it is fed. */
function throughStart(
  { flowOf, ways }: Parts,
  edge: SupplyEdge,
): { readonly typicalAmps: number; readonly maxAmps: number } {
  const root = ways.net.rootOf(edge);
  const fed = root === undefined ? undefined : ways.stepOf(edge, root)[0]?.leg;
  const legs = fed === undefined ? edge.legs.map((leg) => leg.index) : [fed];
  let typicalAmps = 0;
  let maxAmps = 0;
  for (const leg of legs) {
    const flow = flowOf(edge, leg);
    typicalAmps += flow.typicalAmps;
    maxAmps += flow.maxAmps;
  }
  return { typicalAmps, maxAmps };
}

function ampacityOf(
  { vessel, protection }: Parts,
  edge: SupplyEdge,
  size: ConductorSize | undefined,
): number | undefined {
  const { laying } = protection.layingOf(edge);
  return size === undefined || laying === undefined || vessel.practice === undefined
    ? undefined
    : ampacity(size, laying, vessel.practice);
}

/** Ampacity asked of a starter's cable, as a share of what it carries for seconds: common practice, no source. */
const CRANKING_SHARE = 0.5;

type Wire = SizedWire & { readonly missing: string | undefined };

function wireOf(parts: Parts, edge: SupplyEdge, written: ConductorSize | null | undefined = edge.size): Wire {
  const { vessel, protection, flowOf } = parts;
  const { practice } = vessel;
  if (written !== undefined && written !== null)
    return { size: written, computed: false, governedBy: undefined, none: undefined, missing: undefined };
  const lacking = (missing: string): Wire => ({
    size: undefined,
    computed: true,
    governedBy: undefined,
    none: undefined,
    missing,
  });
  if (practice === undefined) return lacking(`${vessel.name} does not say its practice`);
  const { laying, missing } = protection.layingOf(edge);
  if (laying === undefined) return lacking(missing ?? `how ${edge.text} lies is not known`);
  const flows = edge.legs.map((leg) => flowOf(edge, leg.index));
  const silent = flows.find((flow) => flow.missing !== undefined)?.missing;
  if (silent !== undefined) return lacking(silent);
  const unmeasured = edge.legs.find((leg) => leg.lengthMetres === undefined);
  if (unmeasured !== undefined)
    return lacking(unmeasured.missing ?? `the length of ${edge.text} is not known`);
  if (systemOn(parts.supply, edge)?.nominalVolts === undefined)
    return lacking(systemOn(parts.supply, edge)?.missing ?? `the voltage of ${edge.text} is not known`);
  const crankingAmps = flows.reduce((most, flow) => Math.max(most, flow.crankingAmps), 0);
  if (edge.conductor.cranking && crankingAmps === 0)
    return lacking(`what is started through ${edge.text} is not known`);
  const through = throughStart(parts, edge);
  const choice = chooseWire({
    practice,
    laying,
    amps: flows.reduce((most, flow) => Math.max(most, flow.maxAmps, flow.crankingAmps * CRANKING_SHARE), 0),
    drops: edge.legs.flatMap((leg) => dropsAsked(parts, edge, leg.index)),
    fuseAmps: standingAmps(parts, edge),
    fuseFits: (limit) => protectionOf(parts, edge, through, limit).unfitted.length === 0,
    sheathed: edge.sheathed,
    exempt: sizeExempt(parts.supply, edge),
  });
  if (choice.kind === 'none' && edge.conductor.cranking)
    return lacking(`one conductor alone may not do for ${edge.text}: say which is fitted`);
  return choice.kind === 'chosen'
    ? {
        size: choice.size,
        computed: true,
        governedBy: choice.governedBy,
        none: undefined,
        missing: undefined,
      }
    : { size: undefined, computed: true, governedBy: undefined, none: choice, missing: undefined };
}

/** What may be lost on a leg, once what is lost before it is taken off. */
function dropsAsked(parts: Parts, edge: SupplyEdge, leg: number): readonly DropAsked[] {
  const { allowances, flowOf, ways, supply, legOhms } = parts;
  const flow = flowOf(edge, leg);
  const metres = lengthOf({ edge, leg });
  const amps = { load: flow.maxAmps, charge: flow.chargeAmps, cranking: flow.crankingAmps };
  const [way] = ways.waysFrom(edge, supply.stateIn());
  return (allowances?.(edge, leg) ?? []).flatMap((one): DropAsked[] => {
    if (!(amps[one.kind] > 0) || metres === 0) return [];
    const before =
      one.kind === 'charge'
        ? 0
        : (way?.crossings ?? []).reduce((sum, crossing) => {
            if (crossing.edge === edge) return sum;
            const upstream = flowOf(crossing.edge, crossing.leg);
            const through = one.kind === 'load' ? upstream.maxAmps : upstream.crankingAmps;
            return sum + through * (legOhms(crossing.edge, crossing.leg) ?? 0);
          }, 0);
    const share = metres / (metres + one.furtherMetres);
    return [{ amps: amps[one.kind], metres, allowedVolts: (one.limitVolts - before) * share }];
  });
}

/** The largest device that protects the conductor already: its own, or the nearest upstream of one that is said to be protected. */
function standingAmps({ protection, ways }: Parts, edge: SupplyEdge): number {
  const own = edge.devices.flatMap(({ amps }) => amps ?? []);
  if (own.length > 0 || !edge.conductor.protectedUpstream) return Math.max(0, ...own);
  const root = ways.net.rootOf(edge);
  const end = root === undefined || root === edge.from ? 'from' : (ways.stepOf(edge, root)[0]?.leg ?? 'from');
  const upstream = protection.reach(edge, end, () => true).stoppedAt;
  return Math.max(0, ...upstream.flatMap(({ device }) => device.amps ?? []));
}
