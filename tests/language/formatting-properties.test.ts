/**
 * What holds of every text: formatting twice is formatting once, no word and no comment is lost or changes its place, the syntax tree
 * stays the same, and what has a syntax error stays as it is.
 */
import fc from 'fast-check';
import { EmptyFileSystem } from 'langium';
import { describe, expect, it } from 'vitest';
import { apply } from '../../src/language/formatting/edits.js';
import { format, formattingChanges } from '../../src/language/formatting/format.js';
import { isComment, piecesOf, type Piece } from '../../src/language/formatting/pieces.js';
import type { Spec } from '../../src/language/generated/ast.js';
import { createCoreServices } from '../../src/language/module.js';
import { corpus } from './support/corpus.js';
import { plainTree, TreeMaker, write } from './support/random-trees.js';

const { Wireloft: services } = createCoreServices(EmptyFileSystem);
const { Lexer: lexer, LangiumParser: parser } = services.parser;
const maker = new TreeMaker(services.Grammar);
const runs = Number(process.env['WIRELOFT_RUNS'] ?? 250);
const tape = (length: number): fc.Arbitrary<number[]> =>
  fc.array(fc.nat(0xffff), { minLength: length, maxLength: length, size: 'max' });
/** The text of a random tree in a random layout. */
const textOf = fc
  .tuple(tape(250), tape(80))
  .map(([choices, layout]) => write(maker.make(choices).words, layout));
const files = corpus('examples', 'tests', 'src/language/library');

const piecesIn = (text: string): readonly Piece[] => piecesOf(text, lexer.tokenize(text)).list;

/** For each comment, whether it shares a line with what is before and after it. */
function neighbours(pieces: readonly Piece[]): { comment: string; before: boolean; after: boolean }[] {
  return pieces.flatMap((piece, index) => {
    if (!isComment(piece)) return [];
    const before = pieces[index - 1]?.endLine === piece.line;
    const after = pieces[index + 1]?.line === piece.endLine;
    return [{ comment: piece.text, before, after }];
  });
}

function expectKept(text: string): string {
  const formatted = format(text, services);
  const [was, is] = [piecesIn(text), piecesIn(formatted)];
  expect(is.map((piece) => piece.text)).toEqual(was.map((piece) => piece.text));
  // A comment on a line of its own stays so; one at a line's end stays with that line; one amid a line stays with either side.
  const [stood, stands] = [neighbours(was), neighbours(is)];
  const moved = stood.filter(({ before, after }, index) => {
    const now = stands[index];
    return before ? (after ? !now?.before && !now?.after : !now?.before) : now?.before;
  });
  expect(moved, formatted).toEqual([]);
  expect(format(formatted, services)).toBe(formatted);
  return formatted;
}

function expectSameTree(text: string, formatted: string): void {
  const before = parser.parse(text);
  const after = parser.parse(formatted);
  expect(plainTree(after.value)).toEqual(plainTree(before.value));
  expect(after.parserErrors.length).toBe(before.parserErrors.length);
}

describe('every text that the project keeps', () => {
  it.each(files.map((file) => [file.path, file.text]))('%s', (_path, text) => {
    expectSameTree(text, expectKept(text));
    const crlf = text.replaceAll(/\r?\n/g, '\r\n');
    expect(format(crlf, services)).toBe(
      format(text.replaceAll('\r\n', '\n'), services).replaceAll('\n', '\r\n'),
    );
  });

  it('and a reader may copy is laid out so', () => {
    const shown = files.filter(({ path }) => /^(?:examples|src)\//.test(path));
    const other = shown.filter(({ text }) => format(text, services) !== text).map(({ path }) => path);
    expect(other).toEqual([]);
  });

  it('is laid out the same from one long line', () => {
    for (const { text } of files) {
      if (parser.parse(text).parserErrors.length > 0) continue;
      const words = lexer.tokenize(text).tokens.map((token) => token.image);
      const formatted = format(words.join(' '), services);
      expect(format(words.join('\n'), services).replaceAll(/\s+/g, ' ')).toBe(
        formatted.replaceAll(/\s+/g, ' '),
      );
      expectSameTree(text, formatted);
    }
  });
});

describe('a random tree in a random layout', () => {
  it('keeps its words, comments and meaning', () => {
    let changed = 0;
    let comments = 0;
    let lines = 0;
    fc.assert(
      fc.property(textOf, (text) => {
        const formatted = expectKept(text);
        expectSameTree(text, formatted);
        if (formatted !== text) changed++;
        comments += piecesIn(text).filter(isComment).length;
        lines += formatted.split('\n').length;
      }),
      { numRuns: runs },
    );
    console.log(`${runs} trees, ${changed} changed by formatting, ${comments} comments, ${lines} lines`);
    expect(changed).toBeGreaterThan(runs / 2);
    expect(comments).toBeGreaterThan(runs);
  });

  it('with syntax errors keeps its words and comments', () => {
    const seen = { broken: 0, whole: 0, above: 0, below: 0 };
    const noise = ['}', '{', '"open', ':', '--', '5..', '€', 'at', '12/24', 'a-b'] as const;
    const broken = fc
      .tuple(tape(200), tape(80), fc.nat(), fc.constantFrom(...noise, 'cut off', 'whole', 'whole', 'whole'))
      .map(([choices, layout, place, word]) => {
        const { words } = maker.make(choices);
        const at = words.length === 0 ? 0 : place % words.length;
        const half =
          word === 'whole'
            ? words
            : [...words.slice(0, at), ...(word === 'cut off' ? [] : [word, ...words.slice(at)])];
        return `zone  before   exposed\n${write(half, layout)}\nzone   after  exposed\n`;
      });
    fc.assert(
      fc.property(broken, (text) => {
        const formatted = expectKept(text);
        const { parserErrors, lexerErrors } = parser.parse<Spec>(text);
        const wrong = parserErrors.length + lexerErrors.length > 0;
        seen[wrong ? 'broken' : 'whole']++;
        if (formatted.startsWith('zone before exposed\n')) seen.above++;
        if (formatted.endsWith('\nzone after exposed\n')) seen.below++;
      }),
      { numRuns: runs },
    );
    console.log(
      `${runs} texts: ${seen.broken} with a syntax error, ${seen.whole} without; laid out above ${seen.above}, below ${seen.below}`,
    );
    expect(seen.broken).toBeGreaterThanOrEqual(20);
    expect(seen.whole).toBeGreaterThanOrEqual(20);
  });

  it('cut off on one line stays as it is to the letter', () => {
    let cutOff = 0;
    const half = fc.tuple(tape(150), fc.nat()).map(([choices, place]) => {
      const { words } = maker.make(choices, 'Statement');
      return write(words.slice(0, 1 + (place % words.length)), undefined);
    });
    fc.assert(
      fc.property(half, (statement) => {
        if (parser.parse(statement).parserErrors.length === 0) return;
        cutOff++;
        const text = `zone  before   exposed\n  ${statement}\nzone   after  exposed\n`;
        expect(format(text, services)).toContain(`zone before exposed\n  ${statement}\nzone `);
      }),
      { numRuns: runs },
    );
    expect(cutOff).toBeGreaterThan(runs / 4);
  });

  it('changes only lines in the range that is asked for', () => {
    fc.assert(
      fc.property(textOf, fc.nat(40), fc.nat(10), (text, first, more) => {
        const all = formattingChanges(text, services);
        const lines = { first, last: first + more };
        const some = formattingChanges(text, services, { lines });
        expect(all).toEqual(expect.arrayContaining([...some]));
        const source = text.split(/\r\n|\n/);
        const result = apply(text, some).split(/\r\n|\n/);
        expect(result.slice(0, first)).toEqual(source.slice(0, first));
        const below = source.slice(lines.last + 1);
        expect(below.length === 0 ? [] : result.slice(-below.length)).toEqual(below);
      }),
      { numRuns: runs },
    );
  });
});
