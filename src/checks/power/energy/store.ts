/** What a bank holds, as far as its model says. Ampere-hours at its own voltage. */
import { chargeReturn, peukertFactor, peukertRange, plannedDepth } from '../../../vessel/battery.js';
import type { Interval } from '../../../vessel/model.js';
import type { Bank } from '../supply/graph.js';

export interface Store {
  readonly ampHours: number;
  /** Hours of the rating; undefined where the exponent is one and they do not matter. */
  readonly ratedHours: number | undefined;
  /** One figure where the model says it, else the range of its chemistry. */
  readonly exponent: Interval;
  /** How deep it is planned to be drawn, 0..1. */
  readonly depth: number;
  /** The depth is the model's own, and not that of common practice. */
  readonly depthStated: boolean;
  /** Share of a charge that comes out again; undefined where not known. */
  readonly returns: number | undefined;
}

/** The store of a bank, or the fact that is missing. */
export function storeOf({
  model,
  ampHours,
  ratedHours,
  chemistry,
}: Bank): Store | { readonly missing: string } {
  if (ampHours === undefined) return { missing: `${model.name} does not say its capacity` };
  const planned = plannedDepth(chemistry, model.depth);
  if (planned === undefined)
    return { missing: `${model.name} does not say its depth or a chemistry that is known` };
  const exponent = peukertRange(chemistry, model.peukert);
  if (exponent === undefined)
    return { missing: `${model.name} does not say its Peukert exponent or a chemistry that is known` };
  if (ratedHours === undefined && exponent.high > 1)
    return { missing: `${model.name} does not say at which hours its capacity is rated` };
  return {
    ampHours,
    ratedHours,
    exponent,
    depth: Math.min(1, Math.max(0, planned.depth)),
    depthStated: planned.stated,
    returns: chargeReturn(chemistry),
  };
}

/** Rated ampere-hours that an hour at `amps` takes, by the lower and the upper exponent. */
export function takenPerHour({ ampHours, ratedHours, exponent }: Store, amps: number): Interval {
  const by = (k: number): number =>
    ratedHours === undefined ? amps : amps * peukertFactor(ampHours, ratedHours, amps, k);
  return { low: by(exponent.low), high: by(exponent.high) };
}
