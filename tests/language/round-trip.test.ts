/**
 * Random syntax tree to text to the same tree, in any layout. Whatever the grammar allows comes up, with keywords as names wherever
 * they may be. WIRELOFT_RUNS sets the number of trees.
 */
import fc from 'fast-check';
import { EmptyFileSystem } from 'langium';
import { describe, expect, it } from 'vitest';
import { createCoreServices } from '../../src/language/module.js';
import { keywordsOf, RESERVED } from '../../src/language/parsing/tokens.js';
import { plainTree, TreeMaker, write } from './support/random-trees.js';

const { Wireloft: services } = createCoreServices(EmptyFileSystem);
const parser = services.parser.LangiumParser;
const maker = new TreeMaker(services.Grammar);
const runs = Number(process.env['WIRELOFT_RUNS'] ?? 4000);
const tape = (length: number): fc.Arbitrary<number[]> =>
  fc.array(fc.nat(0xffff), { minLength: length, maxLength: length, size: 'max' });

class Tally {
  private readonly counts = new Map<string, number>();

  add(name: string): void {
    this.counts.set(name, this.of(name) + 1);
  }

  of(name: string): number {
    return this.counts.get(name) ?? 0;
  }
}

describe('a random tree', () => {
  it('is read back from its text, however that is laid out', () => {
    const rules = new Tally();
    const names = new Tally();
    const misread = new Tally();
    let words = 0;
    fc.assert(
      fc.property(tape(250), tape(80), (choices, layout) => {
        const made = maker.make(choices);
        made.misread.forEach((reading) => misread.add(reading));
        if (made.misread.length > 0) return;
        made.rules.forEach((rule) => rules.add(rule));
        made.names.forEach((kind) => names.add(kind));
        words += made.words.length;
        for (const text of [write(made.words, undefined), write(made.words, layout)]) {
          const { value, parserErrors, lexerErrors } = parser.parse(text);
          const problems = [...lexerErrors, ...parserErrors].map((error) => error.message);
          expect({ text, problems, tree: plainTree(value) }).toEqual({ text, problems: [], tree: made.tree });
        }
      }),
      { numRuns: runs },
    );

    const counted = maker.ruleNames
      .map((rule) => ({ rule, count: rules.of(rule) }))
      .sort((a, b) => a.count - b.count);
    console.log(
      [
        `${runs} trees, ${words} words, ${maker.ruleNames.length} rules`,
        `rarest rules: ${counted
          .slice(0, 8)
          .map(({ rule, count }) => `${rule} ${count}`)
          .join(', ')}`,
        `commonest rules: ${counted
          .slice(-5)
          .map(({ rule, count }) => `${rule} ${count}`)
          .join(', ')}`,
        `names: ${['identifier', 'keyword', 'reserved'].map((kind) => `${kind} ${names.of(kind)}`).join(', ')}`,
        `left out, as their text is read otherwise: ${misreadings.map((reading) => `${reading} ${misread.of(reading)}`).join('; ')}`,
      ].join('\n'),
    );
    expect(counted.filter(({ count }) => count < 20)).toEqual([]);
    for (const kind of ['identifier', 'keyword', 'reserved'])
      expect(names.of(kind)).toBeGreaterThanOrEqual(20);
    expect(misreadings.reduce((sum, reading) => sum + misread.of(reading), 0)).toBeLessThan(runs / 10);
  });
});

const misreadings = [
  'a unit left out before a plain word',
  'sealed, after a port',
  'od, after a captive tail',
] as const;

describe('words', () => {
  const errors = (text: string): number => parser.parse(text).parserErrors.length;

  it('that glue statements are no names', () => {
    for (const word of RESERVED) expect(errors(`zone ${word} exposed`), word).toBeGreaterThan(0);
  });

  it('of every other kind are names, first on a line or not', () => {
    const others = keywordsOf(services.Grammar).filter(
      (word) => /^[a-z]/.test(word) && !RESERVED.some((reserved) => reserved === word),
    );
    expect(others.length).toBeGreaterThan(150);
    for (const word of others) {
      expect(errors(`zone ${word} exposed device\n${word} : ${word}\nat ${word}`), word).toBe(0);
      expect(errors(`backbone ${word} {\ntee\n${word}\n.\n${word}\nspan\n${word}\n--\n${word} }`), word).toBe(
        0,
      );
    }
  });

  it('that glue statements are names where nothing else can stand', () => {
    for (const word of RESERVED) {
      const text = `model M : m { port ${word} : dc  positions ${word} joins ${word}  passes a -> ${word} } link a.${word} -- b.${word}`;
      expect(errors(`${text} device d : M { normally ${word} } mode x { set d ${word} }`), word).toBe(0);
    }
  });
});
