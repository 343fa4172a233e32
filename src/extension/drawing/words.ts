/** What is said of a source while it is pointed at, and of a drawing that has grown out of its sheets. */
import { count, listOf } from '../../vessel/words.js';
import type { DrawnDrift, Reach } from '../server/drawing/protocol.js';

/** "live: shown on plotter; not on bowScreen; not known on mate." */
export function reachText({ name, seen, blind, unknown }: Reach): string {
  const parts = [
    ...(seen.length === 0 ? [] : [`shown on ${everyOne(seen)}`]),
    ...(blind.length === 0 ? [] : [`not on ${everyOne(blind)}`]),
    ...(unknown.length === 0 ? [] : [`not known on ${everyOne(unknown)}`]),
  ];
  return `${name}: ${parts.length === 0 ? 'no other screen aboard' : parts.join('; ')}.`;
}

/** On the button: "Lay Out Anew saves 2 sheets". */
export function driftText(drifts: readonly DrawnDrift[]): string {
  const saved = drifts.reduce((sum, { sheets, anew }) => sum + sheets - anew, 0);
  return saved === 0 ? 'Lay Out Anew' : `Lay Out Anew saves ${count(saved, 'sheet')}`;
}

/** All of them: whoever cannot see it wants to be named. */
const everyOne = (names: readonly string[]): string => listOf(names, 'and', names.length);
