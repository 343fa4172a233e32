/** The fuse or breaker to fit where the spec leaves it to the tool. */
import { chooseRating, type RatingLimits } from '../../../vessel/conductors/protection.js';
import type { FuseType, Vessel } from '../../../vessel/model.js';
import { compareText } from '../../../vessel/words.js';
import { interruptsAt, ratingsOf } from '../protection/ratings.js';
import type { PlacedDevice } from '../supply/graph.js';

export interface FuseAsked extends RatingLimits {
  /** The type that is written or that the holder takes; else any will do. */
  readonly types: readonly FuseType[] | undefined;
  /** The highest voltage of the circuit and that of its class; undefined where not known. */
  readonly circuitVolts: number | undefined;
  readonly nominalVolts: number | undefined;
  /** What a short circuit can draw there; undefined where not known. */
  readonly prospectiveAmps: number | undefined;
  /** It lies in a petrol space. */
  readonly ignition: boolean;
}

export interface FuseChoice {
  readonly amps: number;
  readonly type: FuseType | undefined;
}

/** The smallest fuse that fits; of several types, one that can interrupt what may flow, and no more than needed. */
export function chooseFuse(vessel: Vessel, asked: FuseAsked): FuseChoice | undefined {
  const found = (asked.types ?? Object.values(vessel.fuseTypes)).flatMap((type) => {
    if (asked.types === undefined && !suits(type, asked)) return [];
    const amps = chooseRating(type.ratingsAmps, asked);
    return amps === undefined ? [] : [{ amps, type, interrupts: interruptsOf(type, asked) ?? 0 }];
  });
  const [best] = [...found].sort(
    (a, b) => a.amps - b.amps || a.interrupts - b.interrupts || compareText(a.type.name, b.type.name),
  );
  return best && { amps: best.amps, type: best.type };
}

/** The breaker that fits. */
export function chooseBreaker(
  vessel: Vessel,
  device: PlacedDevice,
  limits: RatingLimits,
): FuseChoice | undefined {
  const amps = chooseRating(ratingsOf(vessel, device), limits);
  return amps === undefined ? undefined : { amps, type: undefined };
}

function suits(type: FuseType, asked: FuseAsked): boolean {
  const { circuitVolts, prospectiveAmps, ignition } = asked;
  if (ignition && !type.ignitionProtected) return false;
  if (circuitVolts !== undefined && type.ratedVolts !== undefined && type.ratedVolts < circuitVolts)
    return false;
  return prospectiveAmps === undefined || (interruptsOf(type, asked) ?? 0) >= prospectiveAmps;
}

function interruptsOf(type: FuseType, { nominalVolts }: FuseAsked): number | undefined {
  return interruptsAt(type, nominalVolts ?? 0);
}
