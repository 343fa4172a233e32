/** The editor's rules for typing: brackets, indentation, comments, words. */
import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { EmptyFileSystem } from 'langium';
import { describe, expect, it } from 'vitest';
import { createCoreServices } from '../../src/language/module.js';

interface Configuration {
  readonly wordPattern: { readonly pattern: string; readonly flags: string };
  readonly indentationRules: {
    readonly increaseIndentPattern: string;
    readonly decreaseIndentPattern: string;
  };
  readonly folding: { readonly markers: { readonly start: string; readonly end: string } };
  readonly onEnterRules: readonly { readonly beforeText: string }[];
}

const root = join(import.meta.dirname, '..', '..');
const configuration = JSON.parse(
  readFileSync(join(root, 'language-configuration.json'), 'utf8'),
) as Configuration;
const more = new RegExp(configuration.indentationRules.increaseIndentPattern);
const less = new RegExp(configuration.indentationRules.decreaseIndentPattern);
const examples = readdirSync(join(root, 'examples'), { recursive: true, encoding: 'utf8' })
  .filter((name) => name.endsWith('.loft'))
  .map((name) => `examples/${name}`);

describe('a word', () => {
  const word = new RegExp(configuration.wordPattern.pattern, `g${configuration.wordPattern.flags}`);

  it.each(['plotter', '_x1', 'größe', 'Ωmega', '舵', 'e\u0301cran', '2.5', '12'])('%s is one', (text) => {
    expect(text.match(word)).toEqual([text]);
  });

  it('ends at a dot, a sign and a space', () => {
    expect('link a.net1 -- hub.2'.match(word)).toEqual(['link', 'a', 'net1', 'hub', '2']);
  });

  it.each(examples)('is what the lexer takes for one in %s', (name) => {
    const { Wireloft } = createCoreServices(EmptyFileSystem);
    const { tokens } = Wireloft.parser.Lexer.tokenize(readFileSync(join(root, name), 'utf8'));
    const images = new Set(tokens.map((token) => token.image).filter((image) => /^[\p{L}_]/u.test(image)));
    // A rule's code is several words.
    const split = [...images].filter((image) => !image.includes('/') && image.match(word)?.[0] !== image);
    expect(images.size).toBeGreaterThan(5);
    expect(split).toEqual([]);
  });
});

describe('indentation', () => {
  it.each([
    ['model Tern13 : display {', true],
    ['vessel Boat "a \\" { quoted" {  // why', true],
    ['backbone nav { terminator', true],
    ['device x : Y at z { parallel 2 }', false],
    ['device x : Y  // { not a block', false],
    ['zone bow exposed', false],
    ['  note "an open { brace"', false],
    ['/// {', false],
  ])('%s', (line, expected) => {
    expect(more.test(line)).toBe(expected);
  });

  it('goes back at a closing brace', () => {
    expect(less.test('  }')).toBe(true);
    expect(less.test('  x }')).toBe(false);
  });

  it.each(examples)('is that of the formatted text in %s', (name) => {
    const wrong: string[] = [];
    let above = '';
    let compared = 0;
    for (const [index, line] of readFileSync(join(root, name), 'utf8').split('\n').entries()) {
      if (line.trim() === '') continue;
      const spaces = (text: string): number => /^ */.exec(text)?.[0].length ?? 0;
      const step = (more.test(above) ? 2 : 0) - (less.test(line) ? 2 : 0);
      // Comments that go on and lists that are broken have an indentation of their own.
      const free = /^\s*(?:\/\/|\*)/.test(line) || /,\s*(?:\/\/.*)?$/.test(above) || /^\s*\/\//.test(above);
      if (!free) {
        compared++;
        if (spaces(line) !== spaces(above) + step) wrong.push(`${String(index + 1)}: ${line}`);
      }
      above = line;
    }
    expect(wrong).toEqual([]);
    expect(compared).toBeGreaterThan(10);
  });

  it('takes no time on a long line', () => {
    const started = performance.now();
    more.test('"\\"{}/*'.repeat(20_000));
    more.test(`${'{'.repeat(20_000)}}`);
    expect(performance.now() - started).toBeLessThan(2_000);
  });
});

describe('comments and folding', () => {
  const [rule] = configuration.onEnterRules;

  it.each([
    ['/// Takes green water.', true],
    ['  ///text', true],
    ['///', false],
    ['//// a ruler', false],
    ['// a comment', false],
    ['zone bow exposed /// no', false],
  ])('%s goes on as documentation: %s', (line, expected) => {
    expect(new RegExp(rule?.beforeText ?? '(?!)').test(line)).toBe(expected);
  });

  it('knows regions', () => {
    expect(new RegExp(configuration.folding.markers.start).test('  // #region Power')).toBe(true);
    expect(new RegExp(configuration.folding.markers.end).test('//#endregion')).toBe(true);
    expect(new RegExp(configuration.folding.markers.start).test('// regional')).toBe(false);
  });
});
