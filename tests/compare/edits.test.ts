/** Comparing a boat with itself after edits at random: it never fails, nothing is different from itself, and both ways round agree. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Analysis } from '../../src/checks/analysis.js';
import { compare, isSame } from '../../src/documents/compare/compare.js';
import { comparisonMarkdown } from '../../src/documents/compare/markdown.js';
import { comparisonText } from '../../src/documents/compare/text.js';
import { createWorkspace, type Check } from '../docs/support/workspace.js';

const EXAMPLES = join(import.meta.dirname, '..', '..', 'examples');
const KITTIWAKE = readFileSync(join(EXAMPLES, 'kittiwake', 'kittiwake.loft'), 'utf8');

let check: Check;
beforeAll(async () => {
  check = await createWorkspace();
});

/** The first vessel of a text; undefined where the edits left none. */
async function analysed(text: string): Promise<Analysis | undefined> {
  const { vessels } = await check(new Map([['kittiwake/kittiwake.loft', text]]), 'none');
  return vessels[0]?.analysis;
}

interface Edit {
  readonly kind: 'delete' | 'twice' | 'swap' | 'number' | 'word' | 'letter' | 'rename';
  readonly at: number;
  readonly other: number;
}

const edits = fc.array(
  fc.record({
    kind: fc.constantFrom<Edit['kind'][]>('delete', 'twice', 'swap', 'number', 'word', 'letter', 'rename'),
    at: fc.nat(100_000),
    other: fc.nat(100_000),
  }),
  { minLength: 1, maxLength: 4 },
);

function edited(text: string, { kind, at, other }: Edit): string {
  const lines = text.split('\n');
  const line = at % lines.length;
  const second = other % lines.length;
  const own = lines[line] ?? '';
  const put = (...now: string[]): string =>
    [...lines.slice(0, line), ...now, ...lines.slice(line + 1)].join('\n');
  switch (kind) {
    case 'delete':
      return put();
    case 'twice':
      return put(own, own);
    case 'swap':
      return lines
        .map((one, index) => (index === line ? (lines[second] ?? '') : index === second ? own : one))
        .join('\n');
    case 'number':
      return put(own.replace(/\d+(\.\d+)?/, (value) => String((Number(value) * ((other % 7) + 1)) / 2)));
    case 'word': {
      const words = text.match(/[A-Za-z]\w+/g) ?? [];
      return put(own.replace(/[A-Za-z]\w+/, words[other % words.length] ?? ''));
    }
    case 'letter':
      return text.slice(0, at % text.length) + text.slice((at % text.length) + 1);
    case 'rename': {
      const names = [...text.matchAll(/^device (\w+)/gm)].map((match) => match[1] ?? '');
      const name = names[other % names.length] ?? '';
      return text.replace(new RegExp(`\\b${name}\\b`, 'g'), `${name}Two`);
    }
  }
}

describe('edits at random', () => {
  it('never break a comparison, which is the same from both sides', async () => {
    const base = await analysed(KITTIWAKE);
    if (!base) throw new Error('there is no vessel');
    const met = {
      compared: 0,
      same: 0,
      changes: 0,
      supply: 0,
      findings: 0,
      renamed: 0,
      broken: 0,
      voltages: 0,
    };
    await fc.assert(
      fc.asyncProperty(edits, async (list) => {
        const text = list.reduce(edited, KITTIWAKE);
        const other = await analysed(text);
        if (!other) {
          met.broken++;
          return;
        }
        expect(isSame(compare(other, other))).toBe(true);
        for (const { lowestVolts, normalVolts } of other.failures().voltages()) {
          expect(lowestVolts ?? 0).toBeGreaterThanOrEqual(0);
          expect(lowestVolts ?? 0).toBeLessThanOrEqual(normalVolts ?? Infinity);
          met.voltages++;
        }
        const there = compare(base, other);
        const back = compare(other, base);
        for (const found of [there, back]) {
          expect(comparisonText(found)).not.toMatch(/undefined|NaN|\[object/);
          expect(comparisonMarkdown(found)).not.toMatch(/undefined|NaN|\[object/);
        }
        expect(there.changes.filter(({ action }) => action === 'added').length).toBe(
          back.changes.filter(({ action }) => action === 'removed').length,
        );
        expect([there.needs.lost.length, there.views.lost.length, there.supply.length]).toEqual([
          back.needs.gained.length,
          back.views.gained.length,
          back.supply.length,
        ]);
        expect(there.findings.newErrors).toBe(back.findings.fixedErrors);
        met.compared++;
        if (isSame(there)) met.same++;
        met.changes += there.changes.length;
        met.supply += there.supply.length;
        met.findings += there.findings.gained.length;
        met.renamed += there.changes.filter(({ action }) => action === 'renamed').length;
      }),
      { numRuns: 40 },
    );
    console.log('edits compared:', JSON.stringify(met));
    for (const what of ['compared', 'changes', 'supply', 'findings', 'renamed', 'voltages'] as const)
      expect(met[what], what).toBeGreaterThan(5);
  }, 120_000);
});

describe('what follows', () => {
  it('is told of supplies whose own text did not change', async () => {
    const longer = KITTIWAKE.replace(/run helm +-- cabin +2 m/, 'run helm -- cabin 9 m');
    expect(longer).not.toBe(KITTIWAKE);
    const [before, after] = [await analysed(KITTIWAKE), await analysed(longer)];
    if (!before || !after) throw new Error('there is no vessel');
    const found = compare(before, after);
    expect(found.changes.filter(({ what }) => what === 'feed')).toEqual([]);
    const volts = (analysis: Analysis): number | undefined =>
      analysis.power.feeds().find(({ to }) => to.startsWith('bowScreen'))?.loadVolts;
    const supply = (part: string): (typeof found.supply)[number] | undefined =>
      found.supply.find(({ at }) => at.includes(part));
    const bow = supply('-> bowScreen')?.volts;
    expect(bow?.before).toBeCloseTo(volts(before) ?? 0, 2);
    expect(bow?.after).toBeCloseTo(volts(after) ?? 0, 2);
    expect((bow?.before ?? 0) - (bow?.after ?? 0)).toBeGreaterThan(0.05);
    // A wire that is left to the tool becomes thicker instead.
    expect(supply('-> plotter.power')).toMatchObject({
      wire: { before: '16 AWG', after: '10 AWG' },
      volts: null,
    });
    expect(supply('gnss on backbone nav')?.volts?.after).toBeLessThan(
      supply('gnss on backbone nav')?.volts?.before ?? 0,
    );
    expect(comparisonText(found)).toMatch(/panel\.2 -> bowScreen\.power: [\d.]+ V -> [\d.]+ V/);
  });

  it('is short in a comment: long sections are folded, what is lost stands open, and nobody is mentioned', async () => {
    const other = KITTIWAKE.replace(/^device hub .*$/m, '').replace(/label "[^"]*"/, 'label "@owner #12"');
    const [before, after] = [await analysed(KITTIWAKE), await analysed(other)];
    if (!before || !after) throw new Error('there is no vessel');
    const found = compare(before, after);
    const text = comparisonMarkdown(found);
    expect(found.needs.lost.length).toBeGreaterThan(0);
    expect(text).toMatch(/^### What is lost\n\n- need no longer met: /);
    expect(text.match(/<details>/g)?.length).toBe(text.match(/<\/details>/g)?.length);
    expect(text).toMatch(/<details>\n<summary>[A-Z][^<]*: \d+ lines<\/summary>\n\n/);
    const tables = text.split('\n').filter((line) => line.startsWith('|'));
    expect(tables.every((line) => /^\|.*\|$/.test(line))).toBe(true);
    expect(text).not.toMatch(/@owner|#12/);
    expect(text.trimEnd()).toMatch(/\*\*Regression: [^\n]*\*\*$/);
  });
});
