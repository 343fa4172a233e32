/**
 * The canonical layout of a text. It changes white space and nothing else, and leaves a statement that has a syntax error exactly
 * as it is written, so it works above and below a half-typed line.
 */
import type { AstNode, LangiumParser, Lexer, ParseResult } from 'langium';
import type { Spec } from '../generated/ast.js';
import { passedLimit } from '../parsing/limits.js';
import { align } from './alignment.js';
import { apply, changesOf, type Change } from './edits.js';
import { layGaps } from './gaps.js';
import { outline } from './outline.js';
import { piecesOf, type Pieces } from './pieces.js';
import { Flat } from './spacing.js';

/** What the formatter needs of the language's services. */
export interface FormattingServices {
  readonly parser: { readonly Lexer: Lexer; readonly LangiumParser: LangiumParser };
}

/** Lines from 0, both included. */
export interface LineRange {
  readonly first: number;
  readonly last: number;
}

export interface FormatOptions {
  /** Only what lies in these lines is changed. */
  readonly lines?: LineRange;
  /** The text's syntax tree, where there is one already. */
  readonly parsed?: ParseResult<Spec>;
}

/** The text in its canonical layout. */
export function format(text: string, services: FormattingServices, options: FormatOptions = {}): string {
  return apply(text, formattingChanges(text, services, options));
}

/** The changes that give a text its canonical layout, in order. A text that passes a limit of the parser stays as it is. */
export function formattingChanges(
  text: string,
  services: FormattingServices,
  options: FormatOptions = {},
): readonly Change[] {
  if (passedLimit(text)) return [];
  const { Lexer: lexer, LangiumParser: parser } = services.parser;
  const pieces = piecesOf(text, lexer.tokenize(text));
  const parsed = options.parsed ?? parser.parse<Spec>(text);
  const broken = parsed.parserErrors.length > 0;
  const parts = outline(
    pieces,
    parsed.value.statements,
    broken ? (statement) => alone(parser, statement) : undefined,
  );
  const flat = new Flat(pieces, parts);
  const laid = layGaps(pieces, parts, flat);
  align(pieces, laid, flat);
  const changes = changesOf(pieces, laid.gaps).filter(
    (change) => !options.lines || within(pieces, change, options.lines),
  );
  const formatted = apply(text, changes);
  return sameWords(pieces, piecesOf(formatted, lexer.tokenize(formatted))) ? changes : [];
}

/** A statement read by itself; undefined if it has a syntax error. */
function alone(parser: LangiumParser, text: string): AstNode | undefined {
  const { value, parserErrors } = parser.parse<Spec>(text);
  return parserErrors.length === 0 && value.statements.length === 1 ? value.statements[0] : undefined;
}

/** Guards the promise that white space is all that changes. */
function sameWords(before: Pieces, after: Pieces): boolean {
  return (
    before.list.length === after.list.length &&
    before.list.every((piece, index) => piece.text === after.list[index]?.text)
  );
}

function within(pieces: Pieces, change: Change, lines: LineRange): boolean {
  const start = pieces.lineStarts[lines.first] ?? Infinity;
  const end = pieces.lineStarts[lines.last + 1] ?? pieces.text.length + 1;
  return change.start >= start && change.end < end;
}
