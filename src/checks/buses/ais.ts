/** What other vessels' reports put on the bus, by their number. */
import { messageBits, pgnOf } from '../../vessel/pgns/pgns.js';
import { covers } from '../../vessel/signals.js';

/**
 * Seconds between reports (ITU-R M.1371): class A under way at up to 14 knots 10 s, class B over 2 knots 30 s, names and
 * voyages 6 min. Faster ships report every 6 or 2 s, those at anchor every 3 min; of a crowd, most lie still.
 */
const CLASS_A_SECONDS = 10;
const CLASS_B_SECONDS = 30;
const NAMES_SECONDS = 360;
/** Two channels of 2,250 slots a minute (ITU-R M.1371): however many targets, no more reports come in. */
const MOST_REPORTS_PER_SECOND = 75;

const CLASS_A = 129038;
const CLASS_B = 129039;
const CLASS_A_NAMES = 129794;
const CLASS_B_NAMES = 129809;
const CLASS_B_NAMES_MORE = 129810;

/** Messages that carry other vessels' reports, of which the targets decide how many there are. */
export const isTargetReport = (pgn: number): boolean => TARGET_REPORTS.has(pgn);
const TARGET_REPORTS: ReadonlySet<number> = new Set([
  CLASS_A,
  CLASS_B,
  129040,
  129041,
  CLASS_A_NAMES,
  CLASS_B_NAMES,
  CLASS_B_NAMES_MORE,
]);

/** Whether a signal is other vessels, as received: not the own report. */
export const isTargetSignal = (signal: string): boolean => covers('ais', signal) && signal !== 'ais.own';

export interface TargetTraffic {
  readonly messagesPerSecond: number;
  /** Bits a second. */
  readonly worst: number;
  readonly typical: number;
}

/**
 * At worst every target is of class A and under way; typically half are of class B (common practice, no source).
 */
export function targetTraffic(targets: number): TargetTraffic {
  const worst = reports([
    [CLASS_A, targets / CLASS_A_SECONDS],
    [CLASS_A_NAMES, targets / NAMES_SECONDS],
  ]);
  const half = targets / 2;
  const typical = reports([
    [CLASS_A, half / CLASS_A_SECONDS],
    [CLASS_B, half / CLASS_B_SECONDS],
    [CLASS_A_NAMES, half / NAMES_SECONDS],
    [CLASS_B_NAMES, half / NAMES_SECONDS],
    [CLASS_B_NAMES_MORE, half / NAMES_SECONDS],
  ]);
  return { messagesPerSecond: worst.perSecond, worst: worst.worst, typical: typical.typical };
}

function reports(list: readonly (readonly [pgn: number, perSecond: number])[]): {
  readonly perSecond: number;
  readonly worst: number;
  readonly typical: number;
} {
  const asked = list.reduce((sum, [, perSecond]) => sum + perSecond, 0);
  const share = asked > MOST_REPORTS_PER_SECOND ? MOST_REPORTS_PER_SECOND / asked : 1;
  let [worst, typical] = [0, 0];
  for (const [pgn, perSecond] of list) {
    const entry = pgnOf(pgn);
    if (entry === undefined) continue;
    const bits = messageBits(entry);
    worst += bits.worst * perSecond * share;
    typical += bits.typical * perSecond * share;
  }
  return { perSecond: asked * share, worst, typical };
}
