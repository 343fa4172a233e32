/** How far two devices are apart, as far as their places say. */
import type { Device } from '../../vessel/model.js';
import type { Lookup } from '../../vessel/lookup.js';

export interface Apart {
  /** Metres forward, to starboard and up from the first to the second; undefined where they do not share an origin. */
  readonly offset: readonly [number, number, number] | undefined;
  /** They are no nearer than that. */
  readonly atLeastMetres: number;
}

/** How far from its zone's place something may be that has no offset. Common practice, no source. */
const ZONE_METRES = 2;

/** The distance of two devices: exact in one zone with offsets, else what the zones' own places leave sure. */
export function apart(lookup: Lookup, first: Device, second: Device): Apart {
  const [a, b] = [first.offsetMetres, second.offsetMetres];
  if (first.zone !== undefined && first.zone === second.zone) {
    if (a === undefined || b === undefined) return { offset: undefined, atLeastMetres: 0 };
    const offset = [b[0] - a[0], b[1] - a[1], b[2] - a[2]] as const;
    return { offset, atLeastMetres: Math.hypot(...offset) };
  }
  const [here, there] = [lookup.zone(first.zone), lookup.zone(second.zone)];
  // Aft counts from the bow, and an offset counts forward.
  const along = between(here?.aftMetres, there?.aftMetres, minus(a?.[0]), minus(b?.[0]));
  const up = between(here?.heightMetres, there?.heightMetres, a?.[2], b?.[2]);
  return { offset: undefined, atLeastMetres: Math.hypot(along, up) };
}

function minus(value: number | undefined): number | undefined {
  return value === undefined ? undefined : -value;
}

function between(
  zoneA: number | undefined,
  zoneB: number | undefined,
  a: number | undefined,
  b: number | undefined,
): number {
  if (zoneA === undefined || zoneB === undefined) return 0;
  const slack = (a === undefined ? ZONE_METRES : 0) + (b === undefined ? ZONE_METRES : 0);
  return Math.max(0, Math.abs(zoneB + (b ?? 0) - zoneA - (a ?? 0)) - slack);
}
