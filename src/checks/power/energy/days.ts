/** The charge of each bank over a declared day, from full and repeated until it settles. Ampere-hours of rated capacity. */
import type { Day } from '../../../vessel/model.js';
import type { Bank } from '../supply/graph.js';
import type { BankFlow } from './flow.js';
import { takenPerHour } from './store.js';

export interface BankDay {
  readonly day: Day;
  readonly bank: Bank;
  /** Taken out by the loads, and put in that comes out again; of the day as it settles, else of the first. */
  readonly outAmpHours: number;
  readonly inAmpHours: number;
  /** Least that the bank holds at the end of a part, 0..1 of its capacity. */
  readonly lowest: number;
  /** Each day ends as full as it began, sooner or later. */
  readonly comesBack: boolean;
  /** Days from full until it is drawn deeper than planned; undefined where it never is. */
  readonly daysToDepth: number | undefined;
  readonly hours: number;
  /** The fact that is missing; the figures are then no more than a bound. */
  readonly missing: string | undefined;
}

/** Days after which a bank that is still falling is said to. */
const MOST_DAYS = 400;
/** Of the capacity: no more than this between one day and the next counts as settled. */
const SETTLED = 1e-4;

/** One bank over one day; undefined where nothing is known of what it holds. */
export function bankDay(
  day: Day,
  bank: Bank,
  flowIn: (mode: string) => BankFlow | undefined,
): BankDay | undefined {
  const parts = day.parts.map(({ mode, seconds }) => ({
    mode,
    flow: flowIn(mode),
    hours: (seconds ?? NaN) / 3600,
  }));
  const store = parts.find(({ flow }) => flow?.store !== undefined)?.flow?.store;
  if (store === undefined) return undefined;
  const { ampHours, depth, returns } = store;
  let missing =
    returns === undefined ? `${bank.model.name} does not say a chemistry that is known` : undefined;
  let total = 0;
  for (const { mode, flow, hours } of parts) {
    missing ??=
      flow === undefined ? `${mode} is not declared` : (flow.missing ?? flow.atMost ?? flow.atLeast);
    if (Number.isNaN(hours)) missing ??= `it is not said how long ${mode} lasts`;
    else total += hours;
  }

  let drawn = 0;
  let daysToDepth: number | undefined;
  let first: { readonly out: number; readonly into: number; readonly deepest: number } | undefined;
  for (let number = 1; ; number++) {
    const began = drawn;
    let [out, into, deepest] = [0, 0, began];
    for (const { flow, hours } of parts) {
      if (flow === undefined || !(hours > 0)) continue;
      if (flow.netAmps > 0) {
        const taken = Math.min(ampHours - drawn, takenPerHour(store, flow.netAmps).high * hours);
        drawn += taken;
        out += taken;
      } else {
        const put = Math.min(drawn, -flow.netAmps * hours * (returns ?? 1));
        drawn -= put;
        into += put;
      }
      deepest = Math.max(deepest, drawn);
    }
    // A little beyond the depth is no more than the rounding of the figures.
    if (deepest > (depth + SETTLED) * ampHours) daysToDepth ??= number;
    const turn = { out, into, deepest };
    first ??= turn;
    const settled = Math.abs(drawn - began) <= SETTLED * ampHours;
    if (!settled && number < MOST_DAYS) continue;
    // At the bottom it may settle too, dark for a part of each day.
    const comesBack = settled && deepest < ampHours * (1 - SETTLED);
    const { out: taken, into: put, deepest: most } = comesBack ? turn : first;
    return {
      day,
      bank,
      outAmpHours: taken,
      inAmpHours: put,
      lowest: Math.max(0, 1 - most / ampHours),
      comesBack,
      daysToDepth,
      hours: total,
      missing,
    };
  }
}
