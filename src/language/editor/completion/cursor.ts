/** Where the cursor stands: in the text, and in the grammar. */
import type { LangiumDocument, Lexer } from 'langium';
import { specOf } from '../../naming/facts.js';
import type { WireloftTokenBuilder } from '../../parsing/tokens.js';
import type { RuleNetwork } from './reading/network.js';
import { findPart, type Part } from './reading/parts.js';
import {
  begin,
  givenUp,
  readOn,
  stepsOf,
  taken,
  wholeOf,
  type Reading,
  type Step,
} from './reading/reading.js';
import { wordsOf, type Stretch, type Word } from './reading/words.js';

export interface Span {
  readonly start: number;
  readonly end: number;
}

/** Inside a string: nothing is offered there but the path of a `use`. */
export interface InString {
  readonly kind: 'string';
  /** The string with its quotes. */
  readonly span: Span;
  readonly before: Word | undefined;
}

export interface InText {
  readonly kind: 'text';
  readonly offset: number;
  /** The word that the cursor is in or behind; empty where it is in none. */
  readonly span: Span;
  /** What may stand in place of that word. */
  readonly steps: readonly Step[];
  /** What may stand there where the item that was begun is left as it is. */
  readonly givenUp: () => readonly Step[];
  /** The word before. */
  readonly before: Word | undefined;
  /** Nothing but white space stands before the word on its line. */
  readonly fresh: boolean;
  /** Of the word's start. */
  readonly column: number;
  /** Indentation of the line that a word stands on. */
  readonly indentOf: (word: Word) => number;
  /** A part with what the text says of it behind the cursor as well. */
  readonly whole: (part: Part) => Part;
}

export type Cursor = InString | InText;

export interface Reader {
  readonly lexer: Lexer;
  readonly builder: WireloftTokenBuilder;
  readonly network: RuleNetwork;
}

/** The cursor's place; undefined in a comment. `at` is what to replace, where it is not the word that the cursor is in. */
export function cursorAt(
  document: LangiumDocument,
  offset: number,
  reader: Reader,
  at?: Span,
): Cursor | undefined {
  const text = document.textDocument.getText();
  const { start, end } = stretchAround(document, text, offset);
  const stretch = wordsOf(document, start, end, reader.lexer, reader.builder);
  if (inComment(stretch, offset)) return undefined;
  const { words } = stretch;
  const string = words.find((word) => isInside(word, offset));
  if (string) return inString(string, words);
  const span = at ?? wordAround(text, offset);
  const behind = words.findIndex((word) => word.end > span.start);
  const head = behind < 0 ? words : words.slice(0, behind);
  const { readings } = readOn(begin(reader.network), head);
  const steps = stepsOf(readings);
  const tail = words.filter((word) => word.offset >= span.end);
  const lineStart = text.lastIndexOf('\n', span.start - 1) + 1;
  return {
    kind: 'text',
    offset,
    span,
    steps,
    givenUp: () => stepsOf(givenUp(readings)),
    before: head.at(-1),
    fresh: text.slice(lineStart, span.start).trim() === '',
    column: span.start - lineStart,
    indentOf: (word) => indentAt(text, word.offset),
    whole: wholeIn(readings, steps, tail),
  };
}

// ---------------------------------------------------------------- the text

/** From the line of the statement that the cursor is in to the start of the next one. */
function stretchAround(document: LangiumDocument, text: string, offset: number): Span {
  let start = 0;
  let end = text.length;
  const lineStart = text.lastIndexOf('\n', offset - 1) + 1;
  for (const statement of specOf(document).statements) {
    const cst = statement.$cstNode;
    if (!cst) continue;
    const own = text.lastIndexOf('\n', cst.offset - 1) + 1;
    if (text.slice(own, cst.offset).trim() !== '') continue;
    // One that begins on the cursor's own line may be what is being typed over.
    if (own < lineStart || cst.offset < offset) start = own;
    else if (cst.offset > offset) {
      end = cst.offset;
      break;
    }
  }
  return { start, end };
}

const inComment = ({ comments }: Stretch, offset: number): boolean =>
  comments.some(
    (comment) => comment.offset < offset && (comment.line ? offset <= comment.end : offset < comment.end),
  );

const isInside = (word: Word, offset: number): boolean =>
  word.text.startsWith('"') &&
  word.offset < offset &&
  (offset < word.end || (offset === word.end && !/^"(\\.|[^"\\])*"$/.test(word.text)));

function inString(string: Word, words: readonly Word[]): InString {
  return {
    kind: 'string',
    span: { start: string.offset, end: string.end },
    before: words[words.indexOf(string) - 1],
  };
}

/** A rule's code, a number as far as it is typed, or a name. */
const BEFORE = [
  /[a-z][a-z0-9]*\/[a-z0-9-]*$/,
  /(?<![\p{L}\p{M}\p{Nd}_.])\d+[./]?\d*$/u,
  /[\p{L}\p{M}\p{Nd}_]+$/u,
];
const BEHIND = /^[\p{L}\p{M}\p{Nd}_]+/u;
const CODE_BEHIND = /^[a-z0-9/-]+/;

function wordAround(text: string, offset: number): Span {
  const line = text.slice(text.lastIndexOf('\n', offset - 1) + 1, offset);
  const before = BEFORE.map((pattern) => pattern.exec(line)?.[0]).find((found) => found !== undefined) ?? '';
  const code = before.includes('/') && /^[a-z]/.test(before);
  const behind =
    before === '' ? '' : ((code ? CODE_BEHIND : BEHIND).exec(text.slice(offset, offset + 80))?.[0] ?? '');
  return { start: offset - before.length, end: offset + behind.length };
}

function indentAt(text: string, offset: number): number {
  const line = text.lastIndexOf('\n', offset - 1) + 1;
  return /^[ \t]*/.exec(text.slice(line, offset))?.[0].length ?? 0;
}

// ---------------------------------------------------------------- the grammar

/**
 * Reads the words behind the cursor as if something stood at it, and as if nothing did: whichever goes further tells what the
 * parts that are open here come to.
 */
function wholeIn(
  readings: readonly Reading[],
  steps: readonly Step[],
  tail: readonly Word[],
): (part: Part) => Part {
  let wholes: readonly Part[] | undefined;
  return (part) => {
    wholes ??= eitherWay(readings, steps, tail).map(wholeOf);
    for (const whole of wholes) {
      const found = findPart(whole, part.id);
      if (found) return found;
    }
    return part;
  };
}

function eitherWay(
  readings: readonly Reading[],
  steps: readonly Step[],
  tail: readonly Word[],
): readonly Reading[] {
  const [next] = tail;
  if (!next) return readings;
  const something: Word = {
    ...next,
    text: '',
    terminals: ['NAME', 'ANYNAME', 'ID', 'NUMBER'],
    anchor: false,
  };
  const empty = readOn(readings, tail);
  if (empty.passed === 0) return empty.readings;
  const filled = steps.filter(({ edge }) => 'terminal' in edge.match).map((step) => taken(step, something));
  const other = readOn(filled, tail, empty.passed);
  return filled.length > 0 && other.passed < empty.passed ? other.readings : empty.readings;
}
