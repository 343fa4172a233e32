/**
 * NMEA 0183 (IEC 61162-1, and -2 for 38400 bit/s): how long sentences are, and how many a line carries.
 *
 * The lengths of GGA, RMC, VTG, HDT, DPT, MWV and VHW are published figures for usual field widths; the shape that leads to each is
 * written out in sentences.ts, and those of the others are from memory in the same manner.
 */
import { own } from './lookup.js';
import { SENTENCES, type Sentence } from './sentences.js';

/** One start bit, eight data bits, one stop bit (IEC 61162-1). */
const BITS_PER_CHARACTER = 10;

/** From the start to the carriage return and line feed, both counted (IEC 61162-1). */
export const LONGEST_SENTENCE = 82;

/** The two speeds of the standard, in bit/s: IEC 61162-1 and -2. */
export const SPEEDS = { standard: 4800, high: 38400 } as const;

/** A listener draws at most this much, at 2 V (IEC 61162-1). */
export const LISTENER_AMPS = 0.002;

/** How many such listeners an RS-422 driver can carry, derived from its current; three or four in practice. */
export const MOST_LISTENERS = 10;

/** A sentence by its formatter; undefined where it is not one of the table. */
export function sentence(formatter: string): Sentence | undefined {
  return own(SENTENCES, formatter);
}

/** Characters of a sentence with usual field widths, carriage return and line feed included; undefined where it is not known. */
export function charactersOf(formatter: string): number | undefined {
  const shape = sentence(formatter)?.shape;
  return shape === undefined ? undefined : shape.length + 2;
}

/** Characters a second that a line of so many bit/s carries. */
export function capacity(baud: number): number {
  return baud / BITS_PER_CHARACTER;
}

/** The share of a line that so many characters a second take; undefined for a line without a speed. */
export function share(charactersPerSecond: number, baud: number): number | undefined {
  return baud > 0 ? charactersPerSecond / capacity(baud) : undefined;
}

/**
 * What a word is as the name of a sentence: one of the table; of the right form but not in the table (a maker's own begins with P,
 * IEC 61162-1); or no name of a sentence at all.
 */
export function kindOf(formatter: string): 'known' | 'proprietary' | 'unlisted' | 'malformed' {
  if (sentence(formatter) !== undefined) return 'known';
  if (formatter.length + '$*hh'.length + 2 > LONGEST_SENTENCE) return 'malformed';
  if (/^P[A-Z][A-Z0-9]{2,}$/.test(formatter)) return 'proprietary';
  return /^[A-Z]{3}$/.test(formatter) ? 'unlisted' : 'malformed';
}
