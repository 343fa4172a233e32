/** The conditions that a way from a source to a screen has to meet, in the order in which language.md names the reasons. */
import type { Grade } from '../../vessel/model.js';
import type { Spot } from '../../vessel/origin.js';
import type { Hop, VerdictKind, ViewAnswer } from '../analysis.js';

/** One condition: met, not met, or not to be judged (null), and the hop that says so. */
export interface Condition {
  readonly holds: boolean | null;
  /** The verdict where it does not hold. */
  readonly verdict: VerdictKind;
  readonly hop: Hop;
  /** What would make it hold; worked out only where it is asked for. */
  readonly nearest: () => string | null;
}

/** One way that a signal might go. */
export interface Attempt {
  readonly by: 'own' | 'network' | 'bus';
  readonly conditions: readonly Condition[];
  readonly path: readonly string[];
  readonly needsPowered: readonly string[];
}

/** What is asked: can this screen show this signal of this source while these devices are off? */
export interface Question {
  readonly screen: string;
  readonly source: string;
  readonly signal: string;
  readonly grade: Grade | undefined;
  readonly off: ReadonlySet<string>;
  /** The bus gives figures, which a device may want without showing them as a picture. */
  readonly hearing: boolean;
}

/** A condition with its hop. */
export function condition(
  holds: boolean | null,
  verdict: VerdictKind,
  at: { readonly device: string; readonly port?: string | undefined; readonly spot?: Spot },
  why: string,
  nearest: () => string | null = () => null,
): Condition {
  return {
    holds,
    verdict,
    hop: { device: at.device, port: at.port, why, spot: at.spot ?? { origin: `device ${at.device}` } },
    nearest,
  };
}

/** The order of reasons: the first that holds is the one that is given. */
const RANK: readonly VerdictKind[] = [
  'not-linked',
  'wrong-medium',
  'grade-refused',
  'not-shared',
  'no-path',
  'family-differs',
  'not-shown',
  'not-powered',
];

/** What an attempt comes to. */
interface Judged {
  readonly attempt: Attempt;
  readonly visible: boolean | null;
  readonly verdict: VerdictKind;
  /** How many conditions were met before the one that decides. */
  readonly met: number;
}

function judge(attempt: Attempt): Judged {
  const { conditions } = attempt;
  let open = -1;
  for (let index = 0; index < conditions.length; index++) {
    const one = conditions[index];
    if (one?.holds === false) return { attempt, visible: false, verdict: one.verdict, met: index };
    if (one?.holds === null && open < 0) open = index;
  }
  if (open >= 0) return { attempt, visible: null, verdict: 'unknown', met: open };
  return { attempt, visible: true, verdict: 'reached', met: conditions.length };
}

const ORDER: readonly Attempt['by'][] = ['own', 'network', 'bus'];

/** Whether one outcome is to be told rather than another that came before it. */
function beats(one: Judged, other: Judged): boolean {
  const [rank, otherRank] = [standing(one.visible), standing(other.visible)];
  if (rank !== otherRank) return rank > otherRank;
  if (one.visible === null) return false;
  const kind = ORDER.indexOf(one.attempt.by) - ORDER.indexOf(other.attempt.by);
  if (one.visible) return kind !== 0 ? kind < 0 : one.attempt.path.length < other.attempt.path.length;
  const came = RANK.indexOf(one.verdict) - RANK.indexOf(other.verdict);
  return came !== 0 ? came > 0 : kind < 0;
}

/** How good an answer is: yes, then not known, then no. */
export function standing(visible: boolean | null): number {
  return visible === true ? 2 : visible === null ? 1 : 0;
}

/**
 * The answer from all attempts: the first that succeeds (own, network, bus; the shortest of a kind); else unknown where one
 * cannot be judged; else no, for the reason of the attempt that came furthest.
 */
export function answerFrom(question: Question, attempts: readonly Attempt[]): ViewAnswer {
  let best: Judged | undefined;
  for (const attempt of attempts) {
    const one = judge(attempt);
    if (best === undefined || beats(one, best)) best = one;
  }
  const { screen, source, signal } = question;
  if (best === undefined) {
    return unknownAnswer(screen, source, signal, `nothing is known of a way from ${source} to ${screen}`);
  }
  const { conditions } = best.attempt;
  const deciding = best.visible === true ? undefined : conditions[best.met];
  const succeeded = best.visible === true;
  return {
    screen,
    source,
    signal,
    visible: best.visible,
    verdict: best.verdict,
    by: succeeded ? best.attempt.by : null,
    path: succeeded ? best.attempt.path : [],
    needsPowered: succeeded ? best.attempt.needsPowered : [],
    reason: deciding?.hop.why ?? null,
    nearest: deciding?.nearest() ?? null,
    hops: hopsOf(conditions, deciding, succeeded ? conditions.length : best.met + 1),
  };
}

/** The first hops of a way, without those that could not be judged and did not decide. */
function hopsOf(
  conditions: readonly Condition[],
  deciding: Condition | undefined,
  count: number,
): readonly Hop[] {
  const hops: Hop[] = [];
  for (const one of conditions.slice(0, count))
    if (one === deciding || one.holds !== null) hops.push(one.hop);
  return hops;
}

/** The answer where nothing may be concluded. */
export function unknownAnswer(screen: string, source: string, signal: string, reason: string): ViewAnswer {
  const hops: readonly Hop[] = [
    { device: source, port: undefined, why: reason, spot: { origin: `device ${source}` } },
  ];
  return {
    screen,
    source,
    signal,
    visible: null,
    verdict: 'unknown',
    by: null,
    path: [],
    needsPowered: [],
    reason,
    nearest: null,
    hops,
  };
}
