/** What flows into and out of each bank in a mode, on average. Amperes at the bank's own voltage. */
import type { Interval, Mode } from '../../../vessel/model.js';
import { createUnionFind } from '../../../vessel/unionFind.js';
import { averageAmps, type TerminalLoad } from '../loads/load.js';
import type { Bank } from '../supply/graph.js';
import type { Pool } from './pools.js';
import type { ChargeSource } from './sources.js';
import { storeOf, takenPerHour, type Store } from './store.js';

/** A load of a pool with its average. */
export interface Carried {
  readonly load: TerminalLoad;
  /** As much of it as is known. */
  readonly amps: number;
  readonly missing: string | undefined;
}

/** A bank in a mode. */
export interface BankFlow {
  readonly bank: Bank;
  readonly mode: Mode | undefined;
  readonly store: Store | undefined;
  /** Banks that are joined with it, by name. */
  readonly beside: readonly string[];
  /** What the joined banks carry together, the greatest first. */
  readonly carries: readonly Carried[];
  readonly sources: readonly ChargeSource[];
  /** This bank's share (0..1) of what the joined banks carry: by capacity. */
  readonly share: number;
  /** Average of its share of the loads. */
  readonly drawsAmps: number;
  /** What is left of that for the bank to give, after what charges; negative where there is a surplus to charge it. */
  readonly netAmps: number;
  /** Hours from full to the planned depth, by the upper and the lower exponent; endless where nothing is taken. */
  readonly hours: Interval | undefined;
  /** A fact without which the hours are at most that many: a draw that is not known. */
  readonly atMost: string | undefined;
  /** A fact without which they are at least that many: what a source gives. */
  readonly atLeast: string | undefined;
  /** A fact without which nothing can be said. */
  readonly missing: string | undefined;
}

/** The flows of every bank, by the pools of a mode. */
export function flowsIn(mode: Mode | undefined, pools: readonly Pool[]): readonly BankFlow[] {
  const drawn = pools.map((pool) => carriedBy(pool));
  const totals = drawn.map((all) => all.reduce((sum, { amps }) => sum + amps, 0));
  const left = afterCharging(pools, totals);
  return pools.flatMap((pool, index) => {
    const carries = drawn[index] ?? [];
    const total = totals[index] ?? 0;
    const net = left[index] ?? total;
    const stores = pool.banks.map((bank) => storeOf(bank));
    const mute = stores.find((store) => 'missing' in store);
    const alone = pool.banks.length === 1;
    const capacity = pool.banks.reduce((sum, { ampHours }) => sum + (ampHours ?? 0), 0);
    const unlike = unlikeIn(pool.banks);
    return pool.banks.map((bank, n): BankFlow => {
      const store = stores[n];
      const known = store === undefined || 'missing' in store ? undefined : store;
      const share = alone ? 1 : capacity > 0 ? (bank.ampHours ?? 0) / capacity : 0;
      const missing =
        pool.missing ?? unlike ?? (mute !== undefined && 'missing' in mute ? mute.missing : undefined);
      return {
        bank,
        mode,
        store: known,
        beside: pool.banks.filter((one) => one !== bank).map(({ device }) => device),
        carries,
        sources: pool.sources,
        share,
        drawsAmps: total * share,
        netAmps: net * share,
        hours: known === undefined || missing !== undefined ? undefined : hoursOf(known, net * share),
        atMost: carries.find((one) => one.missing !== undefined)?.missing,
        atLeast: pool.sources.find((one) => one.missing !== undefined)?.missing,
        missing,
      };
    });
  });
}

function carriedBy(pool: Pool): readonly Carried[] {
  const volts = pool.banks[0]?.nominalVolts;
  return pool.loads
    .map((load): Carried => {
      const amps = averageAmps(load, volts);
      const missing =
        load.missing ??
        (amps !== undefined
          ? undefined
          : volts === undefined
            ? `${pool.banks[0]?.model.name ?? 'its battery'} does not say its voltage`
            : `it is not said what ${load.device} draws`);
      return { load, amps: amps ?? 0, missing };
    })
    .sort((a, b) => b.amps - a.amps);
}

/** Banks of several kinds that are joined do not share by capacity. */
function unlikeIn(banks: readonly Bank[]): string | undefined {
  const [first, ...others] = banks;
  const other = others.find(
    (bank) => bank.chemistry !== first?.chemistry || bank.nominalVolts !== first?.nominalVolts,
  );
  return first === undefined || other === undefined
    ? undefined
    : `${first.device} and ${other.device} are joined and not alike, so that it is not known how they share`;
}

/**
 * What each pool has to give after charging. A source covers loads first, of all the pools that it reaches in one proportion;
 * what it has over charges banks, as a negative figure, by their capacity.
 */
function afterCharging(pools: readonly Pool[], totals: readonly number[]): readonly number[] {
  const sets = createUnionFind<Pool>();
  const first = new Map<string, Pool>();
  for (const pool of pools)
    for (const { device } of pool.sources) {
      const known = first.get(device);
      if (known === undefined) first.set(device, pool);
      else sets.join(known, pool);
    }
  const groups = new Map<Pool, { drawn: number; capacity: number; readonly given: Map<string, number> }>();
  pools.forEach((pool, index) => {
    const root = sets.find(pool);
    const group = groups.get(root) ?? { drawn: 0, capacity: 0, given: new Map<string, number>() };
    group.drawn += totals[index] ?? 0;
    group.capacity += capacityOf(pool);
    for (const { device, amps } of pool.sources) group.given.set(device, amps ?? 0);
    groups.set(root, group);
  });
  return pools.map((pool, index) => {
    const total = totals[index] ?? 0;
    const group = groups.get(sets.find(pool));
    if (group === undefined) return total;
    const given = [...group.given.values()].reduce((sum, amps) => sum + amps, 0);
    if (given <= group.drawn) return group.drawn > 0 ? total * (1 - given / group.drawn) : 0;
    return group.capacity > 0 ? (-(given - group.drawn) * capacityOf(pool)) / group.capacity : 0;
  });
}

const capacityOf = (pool: Pool): number => pool.banks.reduce((sum, { ampHours }) => sum + (ampHours ?? 0), 0);

/** Hours from full to the planned depth. */
function hoursOf(store: Store, netAmps: number): Interval {
  if (!(netAmps > 0)) return { low: Infinity, high: Infinity };
  const usable = store.ampHours * store.depth;
  const taken = takenPerHour(store, netAmps);
  return { low: usable / taken.high, high: usable / taken.low };
}
