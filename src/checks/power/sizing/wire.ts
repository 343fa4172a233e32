/** The smallest wire that meets everything asked of a conductor, and which of it decided. */
import { ampacity, type Laying } from '../../../vessel/conductors/ampacity.js';
import { ohmsPerMetre } from '../../../vessel/conductors/drop.js';
import { isTooThin } from '../../../vessel/conductors/minimum.js';
import { largestRating } from '../../../vessel/conductors/protection.js';
import { choicesOf } from '../../../vessel/conductors/sizes.js';
import type { ConductorSize, Practice } from '../../../vessel/model.js';

/** What decides a size: the current, the voltage lost, the fuse, or the least that a standard allows. */
export type Governing = 'ampacity' | 'drop' | 'fuse' | 'minimum';

/** A voltage that may be lost along a leg, one way `metres` long. */
export interface DropAsked {
  readonly amps: number;
  readonly metres: number;
  readonly allowedVolts: number;
}

export interface WireAsked {
  readonly practice: Practice;
  readonly laying: Laying;
  /** The most of any leg. */
  readonly amps: number;
  readonly drops: readonly DropAsked[];
  /** The largest device that is there already. */
  readonly fuseAmps: number;
  /** Whether a device of at most this rating can be had that carries the load. */
  readonly fuseFits: (limitAmps: number) => boolean;
  readonly sheathed: boolean;
  /** The least size of the standard need not be kept. */
  readonly exempt: boolean;
}

export type WireChoice =
  | { readonly kind: 'chosen'; readonly size: ConductorSize; readonly governedBy: Governing }
  /** No conductor of the practice's tables suffices. */
  | { readonly kind: 'none'; readonly by: Governing; readonly largest: ConductorSize | undefined };

/** The order in which one of several that ask for the same size is named. */
const ORDER: readonly Governing[] = ['ampacity', 'drop', 'fuse', 'minimum'];

/** A hair of tolerance, so that a size which fits exactly is not lost to rounding. */
const HAIR = 1 + 1e-9;

export function chooseWire(asked: WireAsked): WireChoice {
  const choices = choicesOf(asked.practice);
  const largest = choices.at(-1);
  const most = largest && ampacity(largest, asked.laying, asked.practice);
  // Where no fuse would do on any wire, the wire is not to blame.
  const fuseFits =
    most !== undefined && asked.fuseFits(largestRating(most, asked.practice)) ? asked.fuseFits : () => true;
  let index = 0;
  let governedBy: Governing = 'minimum';
  for (const one of ORDER) {
    const least = choices.findIndex((size) => meets(size, one, { ...asked, fuseFits }));
    if (least < 0) return { kind: 'none', by: one, largest };
    if (least <= index) continue;
    index = least;
    governedBy = one;
  }
  const size = choices[index];
  return size === undefined
    ? { kind: 'none', by: governedBy, largest }
    : { kind: 'chosen', size, governedBy };
}

function meets(size: ConductorSize, what: Governing, asked: WireAsked): boolean {
  const { practice } = asked;
  if (what === 'minimum') return asked.exempt || !isTooThin(size, practice, asked.sheathed);
  if (what === 'drop') {
    const ohms = ohmsPerMetre(size, practice);
    return (
      ohms !== undefined &&
      asked.drops.every((drop) => drop.amps * 2 * drop.metres * ohms <= drop.allowedVolts * HAIR)
    );
  }
  const amps = ampacity(size, asked.laying, practice);
  if (amps === undefined) return false;
  if (what === 'ampacity') return asked.amps <= amps * HAIR;
  const limit = largestRating(amps, practice);
  return asked.fuseAmps <= limit * HAIR && asked.fuseFits(limit);
}
