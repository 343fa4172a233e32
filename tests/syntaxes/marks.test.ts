/** Colours that are marked in place: see the fixture. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { colour, loadColours, type Coloured } from './colours.js';

const text = readFileSync(join(import.meta.dirname, 'fixtures', 'marks.loft'), 'utf8');

interface Mark {
  readonly line: number;
  readonly start: number;
  readonly end: number;
  readonly scope: string;
}

/** The marks of a text, each with the number of the line that it is about. */
function marksOf(lines: readonly string[]): readonly Mark[] {
  const marks: Mark[] = [];
  let about = 0;
  for (const [line, content] of lines.entries()) {
    const mark = /^\/\/(?:<(?<dashes>-+)|(?<gap> *)(?<carets>\^+)) (?<scope>\S+)$/.exec(content)?.groups;
    if (!mark) {
      about = line;
      continue;
    }
    const { dashes, gap = '', carets = '', scope = '' } = mark;
    const start = dashes === undefined ? gap.length + 2 : 0;
    const length = dashes?.length ?? carets.length;
    marks.push({ line: about, start, end: start + length, scope });
  }
  return marks;
}

const lines = text.split('\n');

describe('a marked place', () => {
  let tokens: readonly Coloured[];
  beforeAll(async () => {
    tokens = colour(await loadColours(), text);
  });

  it('is in the fixture many times', () => {
    expect(marksOf(lines).length).toBeGreaterThan(80);
  });

  it.each(marksOf(lines))('line $line from $start: $scope', ({ line, start, end, scope }) => {
    const under = tokens.filter((it) => it.line === line && it.start < end && it.end > start);
    expect(under.map((it) => it.text).join('')).toContain(lines[line]?.slice(start, end));
    const otherwise = under.filter((it) => !it.scopes.some((name) => name.startsWith(`${scope}.`)));
    expect(otherwise).toEqual([]);
  });
});
