/** Figures of repeated measurements. All times are milliseconds. */
import { processorTime } from './processor.js';

/** How long something took: by the clock, and on a core where the system tells. */
export interface Span {
  readonly clock: number;
  readonly core: number | undefined;
}

/** The value that a share of the measurements, 0 to 1, does not exceed (nearest rank); NaN for none. */
function percentile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.max(0, Math.ceil(share * sorted.length) - 1)] ?? NaN;
}

export const median = (values: readonly number[]): number => percentile(values, 0.5);

/** Starts a stopwatch on a process; the returned function stops it. */
export function startWatch(pid: number | 'self' = 'self'): () => Span {
  const core = processorTime(pid);
  const clock = performance.now();
  return () => {
    const passed = performance.now() - clock;
    const now = processorTime(pid);
    return { clock: passed, core: core === undefined || now === undefined ? undefined : now - core };
  };
}

/** A percentile of both times of several spans. */
export function percentileOf(spans: readonly Span[], share: number): Span {
  const cores = spans.flatMap((span) => span.core ?? []);
  return {
    clock: percentile(
      spans.map((span) => span.clock),
      share,
    ),
    core: cores.length === spans.length && cores.length > 0 ? percentile(cores, share) : undefined,
  };
}

/**
 * Collects young garbage, where Node was started with --expose-gc, so that one measurement doesn't pay for another. A whole
 * collection would drop compiled code and shrink the young generation, which no session of an editor meets.
 */
export function settle(): void {
  globalThis.gc?.({ type: 'minor' });
}
