/** Every rule against its fixtures. `UPDATE_MARKS=1` writes the marks anew: read what changed before you commit it. */
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { describe, expect, it } from 'vitest';
import { loadSolver } from '../../src/cli/suggest/highs.js';
import { findRule, RULES } from '../../src/checks/rules.js';
import { openProject } from '../../src/language/project/open.js';
import { freePorts, markedText, readFixture } from './marks.js';

const folder = fileURLToPath(new URL('.', import.meta.url));
/** Waivers of the fixtures expire or hold by this day. */
const today = '2026-11-25';

const fixtures = readdirSync(folder, { recursive: true, encoding: 'utf8' })
  .filter((name) => name.endsWith('.loft') && !name.startsWith('catalogue'))
  .sort();

describe.each(fixtures)('%s', (name) => {
  const path = join(folder, name);
  const file = pathToFileURL(path).href;

  it('finds what is marked, and nothing else', async () => {
    const text = readFileSync(path, 'utf8');
    const fixture = readFixture(text);
    expect(fixture.rules, 'the head says "// rule: ..."').not.toEqual([]);
    const { report, unreadable } = await openProject([path], {
      root: folder,
      today,
      // What is looked for apart is looked for where the fixture is about it.
      solver: fixture.rules.some((rule) => findRule(rule)?.apart === true) ? await loadSolver() : undefined,
    });
    expect(unreadable).toEqual([]);
    const marked = markedText(fixture, report, file);
    // A fixture that is not UTF-8 on purpose would be spoilt by writing it.
    const mayWrite = process.env['UPDATE_MARKS'] === '1' && !text.includes('\uFFFD');
    if (marked !== text && mayWrite) writeFileSync(path, marked);
    else expect(marked).toBe(text);

    const analysis = report.vessels[0]?.analysis;
    for (const { ask, verdict } of fixture.verdicts)
      expect(`${ask.join(' ')} ${analysis?.answer(...ask).verdict ?? 'no vessel'}`).toBe(
        `${ask.join(' ')} ${verdict}`,
      );
    for (const { device, medium, count } of fixture.free)
      expect(analysis && freePorts(analysis, device, medium), `free ports of ${device}`).toBe(count);
  });
});

/** Rules about files that no fixture can be: too large, too deep, too many errors. */
const ABOUT_FILES = ['limit/file-size', 'limit/findings', 'limit/nesting'];

describe('the fixtures together', () => {
  const all = fixtures.map((name) => ({
    name,
    fixture: readFixture(readFileSync(join(folder, name), 'utf8')),
  }));
  const codes = RULES.map((rule) => rule.code);

  it('are about rules that there are', () => {
    expect(all.flatMap(({ fixture }) => fixture.rules).filter((rule) => !codes.includes(rule))).toEqual([]);
  });

  it.each(codes.filter((code) => !ABOUT_FILES.includes(code)))(
    'show %s by a good twin and a bad one',
    (rule) => {
      const about = all.filter(({ fixture }) => fixture.rules.includes(rule));
      const isFound = ({ fixture }: (typeof all)[number]): boolean =>
        fixture.marks.some((mark) => mark.rule === rule && mark.kind !== 'unknown');
      expect(about.filter(isFound), 'bad').not.toEqual([]);
      expect(
        about.filter((one) => !isFound(one)),
        'good',
      ).not.toEqual([]);
    },
  );
});
