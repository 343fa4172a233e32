/**
 * Numbers of cables: one numbering for drawings, schedules and labels. A number is worked out of the cable's own identity (its two
 * ends, its place on a backbone), so that another cable, added or taken away, changes none: `E417`. A label that the spec gives stands
 * in its place.
 */
import type { Analysis } from '../checks/analysis.js';
import type { Medium } from '../vessel/model.js';
import type { Origin } from '../vessel/origin.js';
import { compareText } from '../vessel/words.js';
import { MEDIUM_LETTERS } from './style.js';

export interface Numbering {
  /** The number of the cable that an element stands for: a link, a feed, a tap, a span or a tee's drop. */
  readonly of: (origin: Origin) => string | undefined;
  /** Every cable with its number, by origin. */
  readonly all: ReadonlyMap<Origin, string>;
}

interface Numbered {
  readonly origin: Origin;
  readonly medium: Medium | undefined;
  readonly label: string | undefined;
}

/** Numbers run from 100 to 999, so that they are equally wide. */
const FIRST = 100;
const COUNT = 900;

/** Number every cable of a boat. */
export function numberCables(analysis: Pick<Analysis, 'links' | 'vessel'>): Numbering {
  const cables: Numbered[] = [
    ...analysis.links
      .filter(({ medium }) => medium !== 'wireless')
      .map(({ link, medium }) => ({ origin: link.origin, medium, label: link.label })),
    ...analysis.vessel.feeds.map((feed) => ({
      origin: feed.origin,
      medium: 'dc' as const,
      label: feed.label,
    })),
    ...analysis.vessel.backbones.flatMap((backbone) =>
      backbone.items.flatMap((item): readonly Numbered[] => {
        if (item.kind === 'tap') return [{ origin: item.origin, medium: 'dc', label: item.conductor.label }];
        if (item.kind === 'span' || (item.kind === 'tee' && item.end !== undefined))
          return [{ origin: item.origin, medium: 'nmea2000', label: undefined }];
        return [];
      }),
    ),
  ];
  const all = new Map<Origin, string>();
  const claimed = new Map<string, Origin[]>();
  for (const cable of cables) {
    if (cable.label !== undefined) {
      all.set(cable.origin, cable.label);
      continue;
    }
    const letter = cable.medium === undefined ? 'X' : MEDIUM_LETTERS[cable.medium];
    const number = `${letter}${FIRST + (hashOf(placeOf(cable.origin)) % COUNT)}`;
    const others = claimed.get(number);
    if (others === undefined) claimed.set(number, [cable.origin]);
    else others.push(cable.origin);
  }
  const given = new Set(all.values());
  for (const [number, origins] of claimed) {
    // Two that fall on one number keep it, with a letter.
    const sorted = [...origins].sort(compareText);
    sorted.forEach((origin, index) => {
      let name = sorted.length === 1 ? number : `${number}${suffix(index)}`;
      while (given.has(name)) name += 'x';
      all.set(origin, name);
    });
  }
  return { of: (origin) => all.get(origin), all };
}

/**
 * A link without its count: one that an option lays anew between the same ends keeps its number, and of two that lie side by side each
 * gets a letter.
 */
const placeOf = (origin: Origin): string =>
  origin.startsWith('link ') ? origin.replace(/ \(\d+\)$/, '') : origin;

function suffix(index: number): string {
  const letter = String.fromCharCode(97 + (index % 26));
  return index < 26 ? letter : `${suffix(Math.floor(index / 26) - 1)}${letter}`;
}

/** FNV-1a over code units, folded: the same on every machine. */
export function hashOf(text: string): number {
  let hash = 0x811c9dc5;
  for (let index = 0; index < text.length; index += 1) {
    hash ^= text.charCodeAt(index);
    hash = Math.imul(hash, 0x01000193);
  }
  hash ^= hash >>> 15;
  return hash >>> 0;
}
