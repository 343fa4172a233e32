/**
 * Reads words along the grammar's network in every way they can be taken at once. A text that goes wrong is read on from the
 * next word that begins something, as the parser does.
 */
import { asWord, grown, newPart, type Part } from './parts.js';
import { firstOf, type Edge, type Match, type RuleNetwork, type State } from './network.js';
import type { Word } from './words.js';

/** A rule that waits for the one it called. */
interface Frame {
  readonly to: State;
  /** The part of the calling rule; undefined where the called rule makes the same part. */
  readonly part: Part | undefined;
  readonly property: string | undefined;
  readonly below: Frame | undefined;
  /** The states that wait, this one and those below: equal for two readings that can go on in the same ways. */
  readonly key: string;
}

/** One way in which the words so far can be taken. */
export interface Reading {
  readonly state: State;
  readonly part: Part;
  readonly frame: Frame | undefined;
}

/** A part that holds another, and under which property. */
export interface Owner {
  readonly part: Part;
  readonly property: string | undefined;
}

export type TokenEdge = Extract<Edge, { kind: 'token' }>;

/** A word that may come next. */
export interface Step {
  readonly reading: Reading;
  readonly edge: TokenEdge;
}

export function begin(entry: RuleNetwork): Reading[] {
  return [{ state: entry.start, part: { ...newPart(entry.type, false), open: true }, frame: undefined }];
}

/** The parts around what is being read, from the inside out. */
export function ownersOf(reading: Reading): Owner[] {
  const owners: Owner[] = [];
  for (let frame = reading.frame; frame; frame = frame.below)
    if (frame.part) owners.push({ part: frame.part, property: frame.property });
  return owners;
}

/**
 * Every word that may come next, with the reading that waits for it, in the order of the grammar. Where a word is given, those
 * that it cannot be may be left out.
 */
export function stepsOf(readings: readonly Reading[], word?: Word): Step[] {
  const steps: Step[] = [];
  for (const reading of readings) visit(reading, new Map(), steps, word);
  return steps;
}

function begins(rule: RuleNetwork, word: Word): boolean {
  const first = firstOf(rule);
  return first.has(word.text) || word.terminals.some((terminal) => first.has(terminal));
}

type Seen = Map<Frame | undefined, Set<State>>;

/** Collects the steps that a reading can take; those that a word cannot take may be left out. */
function visit(reading: Reading, seen: Seen, steps: Step[], word?: Word): void {
  const { state, frame } = reading;
  let states = seen.get(frame);
  if (!states) seen.set(frame, (states = new Set()));
  if (states.has(state)) return;
  states.add(state);
  for (const edge of state.edges)
    if (edge.kind === 'token') steps.push({ reading, edge });
    else if (!word || edge.kind === 'free' || begins(edge.rule, word))
      visit(followed(reading, edge), seen, steps, word);
  if (state.final && frame) visit(left(reading, frame), seen, steps, word);
}

function followed(reading: Reading, edge: Exclude<Edge, TokenEdge>): Reading {
  const { part, frame } = reading;
  if (edge.kind === 'free')
    return { state: edge.to, part: edge.type === undefined ? part : { ...part, type: edge.type }, frame };
  const { rule, property, to } = edge;
  // A rule that is called by itself makes the node of its caller, or adds to the caller's text.
  if (property === undefined && (!rule.isText || part.isText))
    return {
      state: rule.start,
      part: rule.isText ? part : { ...part, type: rule.type },
      frame: waiting(to, undefined, property, frame),
    };
  return {
    state: rule.start,
    part: newPart(rule.type, rule.isText),
    frame: waiting(to, part, property, frame),
  };
}

function waiting(
  to: State,
  part: Part | undefined,
  property: string | undefined,
  below: Frame | undefined,
): Frame {
  return { to, part, property, below, key: `${to.id} ${below?.key ?? ''}` };
}

/** Goes back from a rule to its caller. */
function left({ part }: Reading, frame: Frame): Reading {
  const content = part.isText ? asWord(part) : part;
  return {
    state: frame.to,
    part: frame.part ? (content ? grown(frame.part, frame.property, content) : frame.part) : part,
    frame: frame.below,
  };
}

/**
 * The readings that take a word. Of those that can go on in the same ways only the first is kept, which is the one that the
 * parser takes: `sealed` behind a port is the port's.
 */
function advance(readings: readonly Reading[], word: Word): Reading[] {
  const next = new Map<string, Reading>();
  for (const step of stepsOf(readings, word)) {
    if (!matches(step.edge.match, word)) continue;
    const key = `${step.edge.to.id} ${step.reading.frame?.key ?? ''}`;
    if (!next.has(key)) next.set(key, taken(step, word));
  }
  return [...next.values()];
}

/** The reading that has taken a word along an edge. */
export function taken({ reading, edge }: Step, word: Word): Reading {
  return { state: edge.to, part: grown(reading.part, edge.property, word), frame: reading.frame };
}

const matches = (match: Match, word: Word): boolean =>
  'keyword' in match ? match.keyword === word.text : word.terminals.includes(match.terminal);

export interface ReadOn {
  readonly readings: readonly Reading[];
  /** How many words could not be taken where they stand. */
  readonly passed: number;
}

/** Reads words one after another; what cannot be taken is passed over. Stops where `most` words or more are. */
export function readOn(readings: readonly Reading[], words: Iterable<Word>, most = Infinity): ReadOn {
  let now = readings;
  let passed = 0;
  for (const word of words) {
    if (passed >= most) break;
    const next = advance(now, word);
    if (next.length === 0) passed++;
    now = next.length > 0 ? next : recovered(now, word);
  }
  return { readings: now, passed };
}

/** Gives up the innermost rules until one can take a word that begins something or closes a block. */
function recovered(readings: readonly Reading[], word: Word): readonly Reading[] {
  if (!word.anchor && word.text !== '}') return readings;
  for (let open = readings; open.length > 0;) {
    open = open.flatMap((reading) => (reading.frame ? [left(reading, reading.frame)] : []));
    const next = advance(open, word);
    if (next.length > 0) return next;
  }
  return readings;
}

/** The readings with what was begun inside the innermost braces, or on the file's own floor, left as it is. */
export function givenUp(readings: readonly Reading[]): Reading[] {
  return readings.map((reading) => {
    let at = reading;
    while (at.frame && !(at.part.open && at.part.first)) at = left(at, at.frame);
    return at;
  });
}

/** All that was read, with every part that is still open taken for whole. */
export function wholeOf(reading: Reading): Part {
  let at = reading;
  while (at.frame) at = left(at, at.frame);
  return at.part;
}
