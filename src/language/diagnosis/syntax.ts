/** Faults of the text itself: encoding, limits, characters and syntax. One finding a line, and the common slips by name. */
import type { LangiumDocument } from 'langium';
import { nearest } from '../naming/nearest.js';
import { MOST_FINDINGS, MOST_SYNTAX_ERRORS, passedLimit } from '../parsing/limits.js';
import { RESERVED } from '../parsing/tokens.js';
import type { Fix, Problem } from '../project/report.js';
import { placeAt, problem, replaceFix } from './problem.js';

const REPLACEMENT = '\uFFFD';

/** Syntax findings of a document, at most `MOST_FINDINGS` and one that counts the rest. */
export function syntaxProblems(document: LangiumDocument, keywords: readonly string[]): Problem[] {
  const text = document.textDocument.getText();
  const limit = passedLimit(text);
  if (limit) return [problem(limit.rule, limit.message, placeAt(document, 0, 0))];
  const broken = text.indexOf(REPLACEMENT);
  if (broken >= 0 || text.includes('\u0000')) {
    const at = broken >= 0 ? broken : text.indexOf('\u0000');
    return [
      problem(
        'encoding',
        'The file is not UTF-8 text: there is a byte here that stands for no character. Save it as UTF-8.',
        placeAt(document, at, at + 1),
      ),
    ];
  }
  const problems: Problem[] = [];
  const lines = new Set<number>();
  const add = (start: number, end: number, message: string, fixes: Fix[] = []): void => {
    const place = placeAt(document, start, Math.max(end, start));
    if (lines.has(place.range.start.line)) return;
    lines.add(place.range.start.line);
    problems.push(problem('syntax', message, place, { fixes }));
  };

  const { lexerErrors, parserErrors } = document.parseResult;
  const errors = [
    ...lexerErrors.map((e) => ({
      offset: e.offset,
      length: e.length,
      message: '',
      image: text.slice(e.offset, e.offset + e.length),
    })),
    ...parserErrors.map((e) => {
      const token = e.token;
      // An error at the end of the file is shown after the last thing that was written.
      const previous =
        'previousToken' in e ? (e.previousToken as { endOffset?: number } | undefined) : undefined;
      const end = text.trimEnd().length;
      // The token at the end of the file has no place of its own.
      const real = token.startOffset >= 0;
      const before = previous?.endOffset ?? -1;
      return {
        offset: real ? token.startOffset : Math.min((before >= 0 ? before : end - 1) + 1, text.length),
        length: real ? token.image.length : 0,
        message: e.message,
        image: token.image,
      };
    }),
  ].sort((a, b) => a.offset - b.offset);

  for (const error of errors) {
    const slip = slipAt(text, error.offset, error.image);
    if (slip) {
      const fixes =
        slip.text === undefined
          ? []
          : [replaceFix(`Write "${slip.text}"`, placeAt(document, slip.start, slip.end), slip.text)];
      add(slip.start, slip.end, slip.message, fixes);
      continue;
    }
    const end = error.offset + error.length;
    if (error.message === '') {
      add(error.offset, end, `The character "${error.image.slice(0, 10)}" has no meaning here.`);
      continue;
    }
    const meant = /^[a-z]+$/i.test(error.image) ? nearest(error.image, keywords) : undefined;
    if (meant && meant !== error.image)
      add(error.offset, end, `${error.message} Did you mean "${meant}"?`, [
        replaceFix(`Change to "${meant}"`, placeAt(document, error.offset, end), meant),
      ]);
    else if (
      (RESERVED as readonly string[]).includes(error.image) &&
      error.message.startsWith('Expected a name')
    )
      add(
        error.offset,
        end,
        `${error.message} "${error.image}" glues statements together and can't be a name here; choose another, such as "${error.image}1".`,
      );
    else add(error.offset, end, error.message);
  }

  for (const match of text.matchAll(/\/\*[\s\S]*?\*\/|\/\/[^\n\r]*|"(?:\\.|[^"\\\n\r])*("?)/g)) {
    if (match[0].startsWith('"') && match[1] === '')
      add(
        match.index,
        match.index + match[0].length,
        'A text in quotes ends on the line it begins on; close it with ".',
      );
    else if (match[0].startsWith('"') && match[0].length === 1)
      add(match.index, match.index + 1, 'A text in quotes ends on the line it begins on; close it with ".');
  }
  return problems;
}

/** At most `MOST_FINDINGS` problems, and one that counts the rest. */
export function capped(document: LangiumDocument, problems: Problem[]): Problem[] {
  if (problems.length <= MOST_FINDINGS) return problems;
  const count = (n: number): string => n.toLocaleString('en');
  const { parserErrors } = document.parseResult;
  const stopped =
    parserErrors.length >= MOST_SYNTAX_ERRORS
      ? parserErrors[parserErrors.length - 1]?.token.startLine
      : undefined;
  const message =
    stopped === undefined
      ? `${count(problems.length - MOST_FINDINGS)} more errors in this file are not listed (${count(problems.length)} in all). Repair the first ones and check again.`
      : `Reading stopped at line ${count(stopped)} after ${count(parserErrors.length)} syntax errors, of which the first ${count(MOST_FINDINGS)} are listed. Is this a spec? Repair the first ones and check again.`;
  return [...problems.slice(0, MOST_FINDINGS), problem('limit/findings', message, placeAt(document, 0, 0))];
}

interface Slip {
  readonly start: number;
  readonly end: number;
  readonly message: string;
  /** What to write instead, where that is plain. */
  readonly text?: string;
}

/** How far from an error a slip is looked for, in characters. */
const NEAR = 120;

/** The six slips that deserve words of their own. */
function slipAt(text: string, offset: number, image: string): Slip | undefined {
  // A slip lies within a few words of the error; a line may be endless.
  const lineStart = Math.max(text.lastIndexOf('\n', offset - 1) + 1, offset - NEAR);
  const lineEnd = text.indexOf('\n', offset);
  const line = text.slice(lineStart, Math.min(lineEnd < 0 ? text.length : lineEnd, offset + NEAR));
  const at = offset - lineStart;
  const around = (pattern: RegExp): RegExpMatchArray | undefined =>
    [...line.matchAll(pattern)].find((match) => match.index <= at && at <= match.index + match[0].length);
  const span = (match: RegExpMatchArray): { start: number; end: number } => ({
    start: lineStart + (match.index ?? 0),
    end: lineStart + (match.index ?? 0) + match[0].length,
  });

  const perUnit = around(/[0-9]\s*([a-z]+)\/([a-z0-9]+)/gi);
  if (perUnit && /^[a-z]/i.test(image || 'x')) {
    const unit = `${perUnit[1] ?? ''}/${perUnit[2] ?? ''}`;
    if (unit === 'm/s' || unit === 'km/h')
      return {
        ...span(perUnit),
        message: `Units are not written with a slash: there is no "${unit}" here. Speeds are in knots, "kn".`,
      };
    return {
      ...span(perUnit),
      message: `Units are not written with a slash. For "${unit}" write "${perUnit[1] ?? ''} per ${perUnit[2] ?? ''}".`,
    };
  }
  const slashed = around(/([0-9]+)\/([0-9]+)\s*V\b/g);
  if (slashed)
    return {
      ...span(slashed),
      message: `A device for both voltages is written as a range: "${slashed[1] ?? ''} V" and "${slashed[2] ?? ''} V" as, say, "10..32 V".`,
    };
  const comma = around(/([0-9]+),([0-9]+)(?=\s*[a-z%])/gi);
  if (comma)
    return {
      ...span(comma),
      message: `A decimal is written with a point: "${comma[1] ?? ''}.${comma[2] ?? ''}".`,
      text: `${comma[1] ?? ''}.${comma[2] ?? ''}`,
    };
  const hyphen = around(/[\p{L}_][\p{L}\p{M}\p{Nd}_]*(?:-[\p{L}\p{Nd}_]+)+/gu);
  if (hyphen && !hyphen[0].includes('--') && image.startsWith('-')) {
    const joined = camel(hyphen[0]);
    return {
      ...span(hyphen),
      message: `A name has no hyphen. Write "${joined}" for "${hyphen[0]}".`,
      text: joined,
    };
  }
  const digit = around(/(?<![\p{L}\p{M}\p{Nd}_.])([0-9]+)([\p{L}_][\p{L}\p{M}\p{Nd}_]*)/gu);
  if (
    digit &&
    /(^|\s)(zone|device|model|cable|family|run|mode|option|backbone|vessel|signal|link|--|->|:)\s*$/.test(
      line.slice(0, digit.index),
    )
  ) {
    const word = digit[2] ?? '';
    return {
      ...span(digit),
      message: `A name starts with a letter. Write "${word}${digit[1] ?? ''}" for "${digit[0]}".`,
      text: `${word}${digit[1] ?? ''}`,
    };
  }
  return undefined;
}

const camel = (name: string): string =>
  name.replace(/-+([\p{L}\p{Nd}_])/gu, (_, letter: string) => letter.toUpperCase());
