/** What a mode says of each device: whether it is on, and for which share of the time. */
import type { Mode } from '../../../vessel/model.js';

/** Shares of the time, 0..1. */
export interface Running {
  /** For which it runs at all; it draws nothing for the rest. */
  readonly duty: number;
  /** For which it runs at its `max`; at what it `draws` for the rest of its duty. */
  readonly maxDuty: number;
}

/** How a device runs in a mode; undefined where the mode does not switch it on. */
export type RunningOf = (device: string) => Running | undefined;

const STEADY: Running = { duty: 1, maxDuty: 0 };

/**
 * What is on in a mode; without one, everything. `on hub 80 %` runs for 80 % of the time, `on vhf max 5 %` runs always and is at
 * its maximum for 5 % of the time, and what charges is running too. The first that a mode says of a device holds.
 */
export function dutiesOf(mode: Mode | undefined): RunningOf {
  if (mode === undefined) return () => STEADY;
  const named = new Map<string, Running | undefined>();
  let others = false;
  for (const one of mode.duties) {
    if (one.kind === 'others') others = true;
    if (one.kind !== 'on' || named.has(one.device)) continue;
    const share = Math.min(1, Math.max(0, one.duty ?? 1));
    if (one.atMax) named.set(one.device, { duty: 1, maxDuty: share });
    else named.set(one.device, share > 0 ? { duty: share, maxDuty: 0 } : undefined);
  }
  for (const one of mode.duties)
    if (one.kind === 'charge' && one.level !== 0 && !named.has(one.device)) named.set(one.device, STEADY);
  return (device) => (named.has(device) ? named.get(device) : others ? STEADY : undefined);
}
