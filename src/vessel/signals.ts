/** The tree of signals: `sonar` covers `sonar.side`. */
import type { Vessel } from './model.js';
import { own } from './lookup.js';

/** Whether the first signal is the second or one above it in the tree. */
export function covers(general: string, signal: string): boolean {
  return general === signal || (signal.startsWith(general) && signal[general.length] === '.');
}

/** Whether some signal of a list covers the given one. */
export function anyCovers(list: readonly string[], signal: string): boolean {
  return list.some((general) => covers(general, signal));
}

/** Whether two signals have something in common: one covers the other. */
export function meet(first: string, second: string): boolean {
  return covers(first, second) || covers(second, first);
}

/** What a signal travels as on the two kinds of bus. */
export interface Carriage {
  readonly pgns: readonly number[];
  readonly sentences: readonly string[];
}

/**
 * How a signal travels on a bus: its own message, else the nearest one above it, else those below it.
 * Undefined where the signal is not in the vessel's table, so that nothing may be concluded.
 */
export function carriageOf(vessel: Vessel, signal: string): Carriage | undefined {
  if (own(vessel.signals, signal) === undefined) return undefined;
  const known = carriages.get(vessel.signals) ?? new Map<string, Carriage>();
  carriages.set(vessel.signals, known);
  let carriage = known.get(signal);
  if (carriage === undefined) known.set(signal, (carriage = findCarriage(vessel, signal)));
  return carriage;
}

/** What was found, for each table of signals: every rule about data asks again. */
const carriages = new WeakMap<Vessel['signals'], Map<string, Carriage>>();

function findCarriage(vessel: Vessel, signal: string): Carriage {
  for (let name = signal; name !== ''; name = name.slice(0, Math.max(0, name.lastIndexOf('.')))) {
    const entry = own(vessel.signals, name);
    if (entry !== undefined && (entry.pgn !== undefined || entry.sentence !== undefined)) {
      return {
        pgns: entry.pgn === undefined ? [] : [entry.pgn],
        sentences: entry.sentence === undefined ? [] : [entry.sentence],
      };
    }
  }
  const below = Object.values(vessel.signals).filter((entry) => covers(signal, entry.name));
  return {
    pgns: below.flatMap((entry) => entry.pgn ?? []),
    sentences: below.flatMap((entry) => entry.sentence ?? []),
  };
}
