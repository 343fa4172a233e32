/**
 * Every construct of the language, cell by cell, and the page that shows them. `npx vitest run tests/constructs -u` writes the
 * page anew.
 */
import { AstUtils, CstUtils, GrammarAST, isLeafCstNode } from 'langium';
import { beforeAll, describe, expect, it } from 'vitest';
import { keywordsOf } from '../../src/language/parsing/tokens.js';
import type { Construct } from './construct.js';
import { GROUPS } from './data/index.js';
import { constructsPage } from './page.js';
import { Workbench, type Bench } from './workbench.js';

const bench = new Workbench();
beforeAll(() => bench.prepare());

const rows = GROUPS.flatMap((group) =>
  group.constructs.map((construct) => ({
    title: `${group.title}: ${construct.name}`,
    construct,
    frame: construct.frame ?? group.frame,
  })),
);
const cells = rows.map(({ title, construct, frame }) => [title, construct, frame] as const);

/** A text without the indent of its lines. */
const flush = (text: string): string => text.replaceAll(/^[ \t]+/gm, '');

/** Leaves of the syntax tree that belong to a construct. */
function leavesOf({ document, start, end }: Bench) {
  const root = document.parseResult.value.$cstNode;
  return root
    ? CstUtils.streamCst(root)
        .filter(isLeafCstNode)
        .filter((leaf) => !leaf.hidden && leaf.offset >= start && leaf.end <= end)
    : [];
}

describe.each(cells)('%s', (_title, construct: Construct, frame) => {
  it('parses', async () => {
    const put = await bench.put(frame, construct.text);
    expect(put.document.parseResult.parserErrors.map((error) => error.message)).toEqual([]);
    expect(bench.faults(put).map((fault) => `${fault.rule}: ${fault.message}`)).toEqual([]);
  });

  it('resolves', async () => {
    const put = await bench.put(frame, construct.text);
    const references = put.document.references.filter(
      ({ $refNode: node }) => node && node.offset >= put.start && node.end <= put.end,
    );
    if (construct.resolves === undefined) {
      expect(references.map((reference) => reference.$refText)).toEqual([]);
      return;
    }
    const [name = '', target = ''] = construct.resolves.split(' -> ');
    const found = references.find((reference) => reference.$refText === name);
    expect(references.map((reference) => reference.$refText)).toContain(name);
    const targets = await bench.targets(put, found?.$refNode?.offset ?? 0);
    expect(targets.map(({ line }) => line.replaceAll(/ +/g, ' '))).toEqual([expect.stringContaining(target)]);
  });

  it('has a mistake told', async () => {
    const [text, rule, message, place] = construct.wrong;
    const found = bench.problems(await bench.put(place ?? frame, text));
    const told = found
      .filter((problem) => problem.severity === 'error')
      .map((problem) => `${problem.rule}: ${problem.message}`);
    const meant = told.filter((fault) => fault.startsWith(`${rule}: `) && fault.includes(message));
    expect(meant, `is told: ${told.join('\n')}`).not.toEqual([]);
  });

  it('is laid out', () => {
    const formatted = bench.format(frame, construct.text);
    expect(flush(formatted)).toContain(flush(construct.text));
    expect(construct.ugly).not.toBe(construct.text);
    expect(bench.format(frame, construct.ugly)).toBe(formatted);
  });

  it('is completed', async () => {
    const [text, items, place] = construct.completes;
    const offered = await bench.completions(await bench.put(place ?? frame, text));
    const labels = offered.map((item) => item.label);
    const wanted = items.split(' ').filter((item) => !item.startsWith('-'));
    expect(labels).toEqual(expect.arrayContaining(wanted));
    expect(labels.filter((label) => items.split(' ').includes(`-${label}`))).toEqual([]);
    const bare = offered.filter(
      ({ detail }) => detail === undefined || detail === '' || detail.includes('\n'),
    );
    expect(
      bare.map((item) => item.label),
      'each item says in a line what it is',
    ).toEqual([]);
  });

  it('says what it is', async () => {
    const [text, says, place] = construct.hovers;
    expect(await bench.hover(await bench.put(place ?? frame, text))).toContain(says);
  });
});

describe('the constructs', () => {
  it('are all that the grammar has', async () => {
    const { Grammar: grammar } = bench.services.Wireloft;
    const rules = new Set<string>();
    const keywords = new Set<string>();
    for (const { construct, frame } of rows)
      for (const leaf of leavesOf(await bench.put(frame, construct.text))) {
        const source = leaf.grammarSource;
        if (GrammarAST.isKeyword(source)) keywords.add(source.value);
        for (
          let node: GrammarAST.AbstractElement | undefined = source;
          node;
          node = AstUtils.getContainerOfType(node.$container, GrammarAST.isAbstractElement)
        ) {
          const rule = AstUtils.getContainerOfType(node, GrammarAST.isParserRule);
          if (rule) rules.add(rule.name);
        }
      }
    expect(keywordsOf(grammar).filter((keyword) => !keywords.has(keyword))).toEqual([]);
    const missing = grammar.rules
      .filter((rule) => GrammarAST.isParserRule(rule) && !rule.entry)
      .map((rule) => rule.name)
      .filter((name) => !rules.has(name));
    // Rules that only choose between others have no word of their own.
    const choices = missing.filter((name) =>
      grammar.rules.some(
        (rule) =>
          rule.name === name &&
          !AstUtils.streamAst(rule).some(
            (node) => GrammarAST.isKeyword(node) || GrammarAST.isAssignment(node),
          ),
      ),
    );
    expect(missing.filter((name) => !choices.includes(name))).toEqual([]);
  });

  it('are shown on their page', async () => {
    await expect(await constructsPage(GROUPS)).toMatchFileSnapshot('../../docs/constructs.md');
  });
});
