/** Every rule has a page, every page a rule, and what a page shows is what the rule does. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { pageOf, produceRulePages, rulePages, sourceOf } from '../../scripts/lib/rule-pages.mjs';
import { loadSolver } from '../../src/cli/suggest/highs.js';
import { RULES } from '../../src/checks/rules.js';
import type { Problem } from '../../src/language/project/report.js';
import { DEEPEST_NESTING, LARGEST_FILE, MOST_FINDINGS } from '../../src/language/parsing/limits.js';
import { filesOf, readPage, snippetsOf } from './support/snippets.js';
import { createWorkspace, problemsOf, type Check } from './support/workspace.js';

const root = join(import.meta.dirname, '..', '..');

/** Faults that no page could print. */
const UNPRINTABLE: Readonly<Record<string, string>> = {
  encoding: 'vessel Boat "\uFFFD"',
  'limit/file-size': ' '.repeat(LARGEST_FILE + 1),
  'limit/nesting': '{'.repeat(DEEPEST_NESTING + 1),
  'limit/findings': 'device : Tern13\n'.repeat(2 * MOST_FINDINGS),
};
/** Sections that every page has, in this order; one on how a figure is worked out may follow the second. */
const SECTIONS = ['What it means', 'Why it matters', 'How to put it right', 'Example'];
/** The snippets leave supply and buses out, so what these groups say of them is beside the point. */
const ASIDE = new Set(['power', 'bus', 'serial', 'data', 'radio', 'energy']);

const groupOf = (rule: string): string => rule.split('/')[0] ?? rule;
const told = (problem: Problem): string => `${problem.severity} ${problem.rule}: ${problem.message}`;

describe('docs/rules', () => {
  it('has a page for every rule, and no other', () => {
    expect(rulePages().sort()).toEqual(RULES.map((rule) => pageOf(rule.code)).sort());
  });

  it('says what the registry says', async () => {
    const expected = await produceRulePages(RULES);
    const current = [...expected.keys()].map((path) => [path, readFileSync(join(root, path), 'utf8')]);
    expect(Object.fromEntries(current), 'run "node scripts/rule-pages.mjs"').toEqual(
      Object.fromEntries(expected),
    );
  });
});

describe.each(RULES.map((rule) => [rule.code, rule] as const))('the page of %s', (code, rule) => {
  let check: Check;
  let page: string;
  beforeAll(async () => {
    check = await workspace();
    page = readPage(pageOf(code));
  });

  const found = async (word: string): Promise<readonly Problem[]> => {
    const snippets = snippetsOf(page).filter((snippet) => snippet.words.includes(word));
    const unprintable = word === 'bad' ? UNPRINTABLE[code] : undefined;
    expect(snippets.length > 0, `a snippet marked "${word}" that is printed`).toBe(unprintable === undefined);
    return problemsOf(
      await check(
        unprintable === undefined ? filesOf(snippets) : new Map([['boat.loft', unprintable]]),
        undefined,
        rule.apart === true ? await loadSolver() : undefined,
      ),
    );
  };

  it('has every section, and its source', () => {
    const titles = [...page.matchAll(/^## (.+)$/gm)].map((match) => match[1]);
    expect(titles.filter((title) => title !== 'How it is worked out')).toEqual(SECTIONS);
    expect(sourceOf(page)).toMatch(/.{3}/);
  });

  it('shows a fault that is found', async () => {
    const problems = await found('bad');
    const ours = problems.filter((problem) => problem.rule === code);
    expect(ours, problems.map(told).join('\n')).not.toEqual([]);
    for (const { severity } of ours) expect(rule.severities).toContain(severity);
    // A slip in a snippet must not stand for the fault that it is to show.
    const slips = problems.filter((problem) => ['syntax', 'type', 'use'].includes(groupOf(problem.rule)));
    if (!['syntax', 'encoding', 'limit', 'type', 'use'].includes(rule.group))
      expect(slips.map(told)).toEqual([]);
    else if (rule.group !== 'syntax' && rule.group !== 'limit')
      expect(slips.filter((problem) => problem.rule === 'syntax').map(told)).toEqual([]);
  });

  it('shows how it is put right', async () => {
    const problems = await found('good');
    expect(problems.filter((problem) => problem.rule === code).map(told)).toEqual([]);
    const errors = problems.filter((problem) => problem.severity === 'error' && problem.waived === null);
    expect(errors.filter((problem) => !ASIDE.has(groupOf(problem.rule))).map(told)).toEqual([]);
  });
});

let made: Promise<Check> | undefined;

/** One workspace for all pages: the catalogues are parsed once. */
function workspace(): Promise<Check> {
  made ??= createWorkspace();
  return made;
}
