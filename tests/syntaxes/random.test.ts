/**
 * Random trees: whatever the grammar allows comes up, with keywords as names wherever they may be. A line-by-line
 * grammar cannot be right everywhere; how far it may be off is stated here for each layout.
 */
import fc from 'fast-check';
import { EmptyFileSystem } from 'langium';
import { beforeAll, describe, expect, it } from 'vitest';
import type { IGrammar } from 'vscode-textmate';
import { format } from '../../src/language/formatting/format.js';
import { createCoreServices } from '../../src/language/module.js';
import { TreeMaker, write } from '../language/support/random-trees.js';
import { agreement } from './agreement.js';
import { loadColours } from './colours.js';

const trees = 300;
const services = createCoreServices(EmptyFileSystem).Wireloft;
const maker = new TreeMaker(services.Grammar);
const tape = (length: number): fc.Arbitrary<number[]> =>
  fc.array(fc.nat(0xffff), { minLength: length, maxLength: length, size: 'max' });

/** How a tree's words are laid out, and what share of their colours may be wrong. */
const layouts: readonly {
  readonly name: string;
  readonly most: number;
  readonly write: (words: readonly string[], layout: readonly number[]) => string;
}[] = [
  { name: 'in one line', most: 0.005, write: (words) => write(words, undefined) },
  { name: 'as the formatter lays it out', most: 0.005, write: (words) => format(write(words, undefined), services) },
  // A comment or a line end between any two words, which nobody writes.
  { name: 'in any layout', most: 0.03, write: (words, layout) => write(words, layout) },
];

describe('the colours of a random text', () => {
  let grammar: IGrammar;
  beforeAll(async () => {
    grammar = await loadColours();
  });

  it.each(layouts)('agree with the parser, $name', ({ name, most, write: lay }) => {
    let count = 0;
    const wrong: string[] = [];
    for (const [choices, layout] of fc.sample(fc.tuple(tape(250), tape(80)), trees)) {
      const made = maker.make(choices);
      if (made.misread.length > 0) continue;
      const found = agreement(grammar, lay(made.words, layout));
      expect(found.errors).toEqual([]);
      count += found.count;
      wrong.push(...found.wrong);
    }
    const share = wrong.length / count;
    console.log(`${name}: ${String(count)} tokens, ${(100 * share).toFixed(2)} % wrong`);
    expect(count).toBeGreaterThan(trees * 10);
    expect(share, wrong.slice(0, 20).join('\n')).toBeLessThan(most);
  });
});
