/** What starting an engine takes out of a bank, and how many starts it holds. */
import type { Interval } from '../../../vessel/model.js';
import type { Starter } from '../loads/loads.js';
import { takenPerHour, type Store } from './store.js';

/** Ampere-hours of one start, by the lower and the upper exponent; undefined where the model does not say for how long it cranks. */
export function startAmpHours(store: Store, { amps, seconds }: Starter): Interval | undefined {
  if (seconds === undefined) return undefined;
  const taken = takenPerHour(store, amps);
  return { low: (taken.low * seconds) / 3600, high: (taken.high * seconds) / 3600 };
}

/** Whole starts, one after another, out of what may be used of a full bank; undefined where a start takes nothing or is not known. */
export function startsIn(store: Store, starter: Starter): Interval | undefined {
  const each = startAmpHours(store, starter);
  if (each === undefined || !(each.low > 0) || !Number.isFinite(each.high)) return undefined;
  const usable = store.ampHours * store.depth;
  return { low: Math.floor(usable / each.high), high: Math.floor(usable / each.low) };
}
