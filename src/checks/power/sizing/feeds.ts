/** Every feed and tap, leg by leg, as plain data: for lists, hovers, hints and drawings. */
import { counterpart, sizeText } from '../../../vessel/conductors/sizes.js';
import type { Origin } from '../../../vessel/origin.js';
import type { Context } from '../../context.js';
import type { SupplyEdge } from '../supply/graph.js';
import { lostVolts } from './drops.js';
import { legLimit } from './limits.js';
import type { SizedDevice } from './sizing.js';
import type { Governing } from './wire.js';

export interface FeedWire {
  /** `14 AWG`; undefined where it is left to the tool and can't be worked out. */
  readonly size: string | undefined;
  readonly computed: boolean;
  /** The nearest size of the other standard that is no thinner. */
  readonly other: string | undefined;
  /** What decided a computed size. */
  readonly governedBy: Governing | undefined;
}

export interface FeedProtection {
  readonly device: 'fuse' | 'breaker';
  readonly amps: number | undefined;
  readonly type: string | undefined;
  /** The device at whose end it sits; undefined where not said. */
  readonly at: string | undefined;
  readonly computed: boolean;
}

export interface FeedResult {
  /** The feed or the backbone's tap. */
  readonly origin: Origin;
  readonly kind: 'feed' | 'tap';
  readonly from: string;
  readonly to: string;
  readonly label: string | undefined;
  /** One way; both conductors lie along it. */
  readonly lengthMetres: number | undefined;
  readonly zones: readonly string[];
  readonly wire: FeedWire;
  readonly cable: string | undefined;
  readonly sheathed: boolean;
  readonly ratedCelsius: number | undefined;
  readonly engineSpace: boolean | undefined;
  /** Conductors that are loaded together in its fullest bundle, itself counted. */
  readonly loadedConductors: number | undefined;
  readonly protection: readonly FeedProtection[];
  readonly protectedUpstream: boolean;
  readonly typicalAmps: number | undefined;
  readonly maxAmps: number | undefined;
  /** What a starter draws through it for its seconds; undefined where none does. */
  readonly crankingAmps: number | undefined;
  readonly ampacityAmps: number | undefined;
  /** Along the whole way from the source, and on this leg alone. */
  readonly dropVolts: number | undefined;
  readonly dropPercent: number | undefined;
  readonly ownDropVolts: number | undefined;
  readonly allowedPercent: number | undefined;
  readonly loadVolts: number | undefined;
  /** The mode in which most is lost. */
  readonly mode: string | undefined;
  /** The fact that is missing where a figure is. */
  readonly missing: string | undefined;
}

/** Work out every leg, in the order of the feeds and then of the taps. */
export function feedResults(context: Context): readonly FeedResult[] {
  return context.supply.edges.flatMap((edge) => edge.legs.map((leg) => resultOf(context, edge, leg.index)));
}

function resultOf({ vessel, supply, sizing }: Context, edge: SupplyEdge, index: number): FeedResult {
  const leg = edge.legs[index];
  const sized = sizing.of(edge);
  const flow = sizing.flowOf(edge, index);
  const drop = sizing.dropOf(edge, index);
  const dropVolts = lostVolts(drop);
  const { laying } = sizing.protection.layingOf(edge);
  const { size, computed, governedBy } = sized.wire;
  const other = size === undefined ? undefined : counterpart(size);
  const share = (volts: number | undefined): number | undefined =>
    volts === undefined || drop.nominalVolts === undefined ? undefined : (100 * volts) / drop.nominalVolts;
  const limit =
    vessel.practice === undefined || edge.conductor.cranking
      ? undefined
      : legLimit(supply, edge, index, vessel.practice);
  const known = flow.missing === undefined;
  return {
    origin: edge.origin,
    kind: edge.kind,
    from: edge.from ?? edge.fromText,
    to: leg?.to ?? leg?.text ?? '?',
    label: edge.conductor.label ?? edge.feed?.wayLabel,
    lengthMetres: leg?.lengthMetres,
    zones: leg?.zones ?? [],
    wire: {
      size: size === undefined ? undefined : sizeText(size),
      computed,
      other: other === undefined ? undefined : sizeText(other),
      governedBy,
    },
    cable: edge.conductor.cable,
    sheathed: edge.sheathed,
    ratedCelsius: edge.ratedCelsius,
    engineSpace: leg?.engineSpace,
    loadedConductors: laying?.loadedConductors,
    protection: sized.protection
      .filter(({ device }) => typeof device.end !== 'number' || device.end === index)
      .map((one) => protectionOf(one, edge)),
    protectedUpstream: edge.conductor.protectedUpstream,
    typicalAmps: known ? flow.typicalAmps : undefined,
    maxAmps: known ? flow.maxAmps : undefined,
    crankingAmps: flow.crankingAmps > 0 ? flow.crankingAmps : undefined,
    ampacityAmps: sized.ampacityAmps,
    dropVolts,
    dropPercent: share(dropVolts),
    ownDropVolts: drop.ownVolts,
    allowedPercent: limit === undefined ? undefined : limit.share * 100,
    loadVolts: drop.loadVolts,
    mode: drop.mode?.name,
    missing: sized.missing ?? leg?.missing ?? flow.missing ?? drop.missing,
  };
}

function protectionOf({ device, computed }: SizedDevice, edge: SupplyEdge): FeedProtection {
  const { protection, end } = device;
  const near =
    end === 'from'
      ? edge.fromText.split('.')[0]
      : end === undefined
        ? undefined
        : edge.legs[end]?.text.split('.')[0];
  return {
    device: protection.device,
    amps: device.amps,
    type: device.type?.name ?? protection.type,
    at: protection.at ?? near,
    computed,
  };
}
