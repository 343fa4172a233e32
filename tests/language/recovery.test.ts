/**
 * What a half-typed declaration costs its neighbours. Some 200 declarations of every kind stand in one file; one at a time is cut off at
 * a word's end, and every other declaration that is then missing or read differently counts as lost. WIRELOFT_EVERY_CUT=1 tries every
 * cut in place of every 29th.
 */
import { EmptyFileSystem, type AstNode } from 'langium';
import { expect, it } from 'vitest';
import type { Spec } from '../../src/language/generated/ast.js';
import { createCoreServices } from '../../src/language/module.js';
import { corpus } from './support/corpus.js';
import { plainTree } from './support/random-trees.js';

const { Wireloft: services } = createCoreServices(EmptyFileSystem);
const step = process.env['WIRELOFT_EVERY_CUT'] ? 1 : 29;
const MOST_OF_A_KIND = 12;

interface Declaration {
  readonly kind: string;
  readonly text: string;
  readonly tree: string;
}

const treeOf = (node: AstNode): string => JSON.stringify(plainTree(node));
const read = (text: string): Spec => services.parser.LangiumParser.parse<Spec>(text).value;

/** Up to twelve neighbours of each kind, kind after kind. */
function declarations(): Declaration[] {
  const kinds = new Map<string, Declaration[]>();
  const more =
    'day cruising { in a 4 h in b 2 h }\nnegative a, b joined\nprefer heading from a, b\nneed a show b';
  const texts = [...corpus('examples', 'src/language/library').map((file) => file.text), more];
  for (const statement of texts.flatMap((text) => read(text).statements)) {
    const list = kinds.get(statement.$type) ?? [];
    kinds.set(statement.$type, list);
    const tree = treeOf(statement);
    if (list.length >= MOST_OF_A_KIND || list.some((other) => other.tree === tree)) continue;
    list.push({ kind: statement.$type, text: statement.$cstNode?.text ?? '', tree });
  }
  return [...kinds.values()].flat();
}

/** The ends of a declaration's words, the last left out. */
function cuts(text: string): number[] {
  return services.parser.Lexer.tokenize(text)
    .tokens.slice(0, -1)
    .map((token) => token.startOffset + token.image.length);
}

interface Measure {
  cuts: number;
  lost: number;
  beside: number;
  readonly examples: string[];
}

/** Reads the file with one declaration replaced, and counts the others that are lost. */
function measure(all: readonly Declaration[], index: number, replacement: string, result: Measure): void {
  const text = all.map((declaration, i) => (i === index ? replacement : declaration.text)).join('\n');
  const found = new Map<string, number>();
  for (const statement of read(text).statements) {
    const tree = treeOf(statement);
    found.set(tree, (found.get(tree) ?? 0) + 1);
  }
  result.cuts++;
  all.forEach((declaration, i) => {
    if (i === index) return;
    const left = found.get(declaration.tree) ?? 0;
    found.set(declaration.tree, left - 1);
    if (left > 0) return;
    result.lost++;
    if (Math.abs(i - index) === 1) result.beside++;
    if (result.examples.length < 12)
      result.examples.push(`${replacement.slice(-60)} | loses ${declaration.text.slice(0, 40)}`);
  });
}

it('is at most one neighbour in a hundred', () => {
  const all = declarations();
  const kinds = new Set(all.map((declaration) => declaration.kind));
  expect(all.length).toBeGreaterThan(150);
  expect(kinds.size).toBe(24);

  const rest: Measure = { cuts: 0, lost: 0, beside: 0, examples: [] };
  const line: Measure = { cuts: 0, lost: 0, beside: 0, examples: [] };
  let count = 0;
  all.forEach(({ text }, index) => {
    for (const cut of cuts(text)) {
      if (count++ % step !== 0) continue;
      measure(all, index, text.slice(0, cut), rest);
      const lineEnd = text.indexOf('\n', cut);
      if (lineEnd > 0) measure(all, index, text.slice(0, cut) + text.slice(lineEnd), line);
    }
  });

  const others = all.length - 1;
  for (const [name, result] of [
    ['all that follows is missing', rest],
    ['the rest of its line is missing', line],
  ] as const) {
    const share = result.lost / (result.cuts * others);
    // The stricter figure: of the two declarations next to the one that is being typed.
    const beside = result.beside / (result.cuts * 2);
    console.log(
      `${name}: ${result.cuts} cuts among ${all.length} declarations, ${result.lost} neighbours lost (${(share * 100).toFixed(4)} %), ` +
        `of the two beside it ${(beside * 100).toFixed(2)} %\n  ${result.examples.join('\n  ')}`,
    );
    expect(share).toBeLessThan(0.01);
    expect(beside).toBeLessThan(0.01);
  }
}, 120_000);
