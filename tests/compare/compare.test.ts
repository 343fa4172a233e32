/** Comparing revisions: nothing for the same boat, mirrored the other way round, renames as renames, and git's own objects. */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Analysis } from '../../src/checks/analysis.js';
import { compare, isSame } from '../../src/documents/compare/compare.js';
import type { Comparison } from '../../src/documents/compare/model.js';
import { comparisonMarkdown } from '../../src/documents/compare/markdown.js';
import { comparisonText } from '../../src/documents/compare/text.js';
import { documented, faults } from '../cli/schemas.js';
import { createWorkspace, type Check } from '../docs/support/workspace.js';
import { BASE, byHand, changes, REMOVABLE, render } from '../options/written.js';

let check: Check;
beforeAll(async () => {
  check = await createWorkspace();
});

async function analysed(text: string): Promise<Analysis> {
  const [vessel] = (await check(new Map([['boat.loft', text]]), 'none')).vessels;
  if (!vessel) throw new Error('there is no vessel');
  return vessel.analysis;
}

const NEEDY = { ...BASE, needs: ['s1, s3 show t1', 's2 show t2', 'spare 1 ethernet'] };

/** The comparison the other way round. */
function mirrored(found: Comparison): Comparison {
  const turn = ({ gained, lost }: Comparison['needs']): Comparison['needs'] => ({
    gained: lost,
    lost: gained,
  });
  const actions = { added: 'removed', removed: 'added' } as const;
  const { findings, money, unpriced, metres } = found;
  const turned = <T>(figure: { before: T; after: T } | null): { before: T; after: T } | null =>
    figure && { before: figure.after, after: figure.before };
  return {
    ...found,
    changes: found.changes.map((one) => ({
      ...one,
      action: one.action === 'added' || one.action === 'removed' ? actions[one.action] : one.action,
      before: one.after,
      after: one.before,
    })),
    supply: found.supply.map(({ at, wire, protection, amps, volts }) => ({
      at,
      wire: turned(wire),
      protection: turned(protection),
      amps: turned(amps),
      volts: turned(volts),
    })),
    needs: turn(found.needs),
    asked: turn(found.asked),
    views: turn(found.views),
    findings: { ...turn(findings), newErrors: findings.fixedErrors, fixedErrors: findings.newErrors },
    singlePoints: turn(found.singlePoints),
    money: money.map((one) => ({ ...one, before: one.after, after: one.before })),
    unpriced: { before: unpriced.after, after: unpriced.before },
    metres: { ...metres, toPull: metres.toTakeOut, toTakeOut: metres.toPull },
  };
}

/** What turns round, with names as before wherever something was renamed, and each list in one order. */
function told(
  { regression, ...rest }: Comparison,
  renames: readonly Comparison['changes'][number][],
): unknown {
  expect(typeof regression).toBe('boolean');
  const plain = {
    ...rest,
    changes: rest.changes
      .filter(({ action }) => action !== 'renamed')
      // A cable on another port has the name that it has now.
      .map((one) => JSON.stringify(one.action === 'replugged' ? { ...one, name: '' } : one)),
    supply: rest.supply.map((one) => JSON.stringify(one)),
  };
  const text = renames.reduce(
    (all, { before, after }) => all.replace(new RegExp(`\\b${after ?? ''}\\b`, 'g'), before ?? ''),
    JSON.stringify(plain),
  );
  return JSON.parse(text, (_key, value: unknown) =>
    Array.isArray(value)
      ? [...(value as unknown[])].sort((x, y) => (JSON.stringify(x) < JSON.stringify(y) ? -1 : 1))
      : value,
  );
}

describe('two revisions', () => {
  it('that are the same have no change, and mirror each other where they are not', async () => {
    const valid = documented('compare.schema.json');
    const met = { changes: 0, lost: 0, gained: 0, findings: 0, regressions: 0 };
    const base = await analysed(render(NEEDY));
    await fc.assert(
      fc.asyncProperty(changes('a', REMOVABLE), async (change) => {
        const other = await analysed(
          render(byHand(NEEDY, { ...change, remove: change.remove.filter((name) => !/^s|t/.test(name)) })),
        );
        expect(isSame(compare(other, other))).toBe(true);
        const there = compare(base, other);
        const back = compare(other, base);
        const renames = there.changes.filter(({ action }) => action === 'renamed');
        expect(told(mirrored(there), renames)).toEqual(told(back, renames));
        expect(faults(valid, { format: '1.0', ...there })).toEqual([]);
        met.changes += there.changes.length;
        met.lost += there.needs.lost.length + there.views.lost.length;
        met.gained += back.needs.gained.length + there.views.gained.length;
        met.findings += there.findings.gained.length;
        if (there.regression) met.regressions++;
      }),
      { numRuns: 60 },
    );
    for (const [what, count] of Object.entries(met)) expect(count, what).toBeGreaterThan(10);
  }, 60_000);

  it('that differ in their layout alone have no change aboard', async () => {
    const text = render(NEEDY);
    const found = compare(
      await analysed(text),
      await analysed(`// a comment\n${text.replaceAll('  ', '   ')}\n`),
    );
    expect(found.regression).toBe(false);
    expect(comparisonText(found)).toBe('No change aboard.\n');
    expect(comparisonMarkdown(found)).toBe('No change aboard.\n');
  });

  it('see a rename as a rename, several at once too', async () => {
    const text = render(NEEDY);
    const renamed = text.replace(/\bs3\b/g, 'foreScreen').replace(/\bhub\b/g, 'network');
    const found = compare(await analysed(text), await analysed(renamed));
    expect(found.changes.map(({ action, before, after }) => [action, before, after])).toEqual([
      ['renamed', 's3', 'foreScreen'],
      ['renamed', 'hub', 'network'],
    ]);
    expect({ ...found, changes: [] }).toEqual({
      ...compare(await analysed(text), await analysed(text)),
      changes: [],
    });
    expect(comparisonText(found)).toContain('s3 is called foreScreen now');
  });

  it('see a device that has another name and another place as the same one', async () => {
    const text = render(NEEDY);
    const other = text
      .replace('device s3 : Tern8 at cabin', 'device s3 : Tern8 at helm')
      .replace(/\bs3\b/g, 'foreScreen');
    const found = compare(await analysed(text), await analysed(other));
    expect(
      found.changes.filter(({ what }) => what === 'device').map(({ action, name }) => [action, name]),
    ).toEqual([
      ['renamed', 'foreScreen'],
      ['moved', 'foreScreen'],
    ]);
    expect(found.needs).toEqual({ gained: [], lost: [] });
  });

  it('tell of what is exchanged, moved, fused otherwise and plugged elsewhere, and what is lost by it', async () => {
    const text = render(NEEDY);
    const other = text
      .replace('device s1 : Tern13 at cabin', 'device s1 : Tern16 at helm')
      .replace('fuse 3 A, 2 A at hub', 'fuse 5 A, 2 A at hub')
      .replace('s2.net1 -- hub.2', 's2.net1 -- hub.5')
      .replace(/link s3.net.*\n/, '');
    expect(other).not.toBe(text);
    const found = compare(await analysed(text), await analysed(other));
    expect(found.changes.map(({ what, action, name }) => `${what} ${action} ${name}`)).toEqual(
      expect.arrayContaining([
        'device exchanged s1',
        'device moved s1',
        'feed changed panel.3 -> hub',
        'cable replugged hub.5 -- s2.net1',
        'cable removed hub.3 -- s3.net',
      ]),
    );
    expect(found.needs.lost).toEqual(['s1, s3 show t1']);
    expect(found.regression).toBe(true);
    const [summary] = comparisonText(found).trimEnd().split('\n').reverse();
    expect(summary).toMatch(/^Regression: 1 need and \d+ views lost/);
  });
});

describe('revisions in git', () => {
  const git = (folder: string, ...words: string[]): void => {
    const config = ['-c', 'user.name=Test', '-c', 'user.email=test@example.invalid'];
    execFileSync('git', [...config, ...words], { cwd: folder, stdio: 'ignore' });
  };
  const program = (
    folder: string,
    words: readonly string[],
    env: Readonly<Record<string, string>> = {},
  ): { status: number; out: string; error: string } => {
    const main = join(import.meta.dirname, '..', '..', 'dist', 'cli', 'main.mjs');
    try {
      return {
        status: 0,
        out: execFileSync(process.execPath, [main, ...words], {
          cwd: folder,
          encoding: 'utf8',
          stdio: 'pipe',
          env: { ...process.env, ...env },
        }),
        error: '',
      };
    } catch (error) {
      const { status, stdout, stderr } = error as { status: number; stdout: string; stderr: string };
      return { status, out: stdout, error: stderr };
    }
  };

  it('are read without touching the work tree, and only revisions are taken', () => {
    const folder = mkdtempSync(join(tmpdir(), 'compare-'));
    try {
      const spec = (screens: string): string =>
        `model D : display { port net : ethernet  shows chart  shares chart  families F }\nfamily F\nvessel Boat\n${screens}`;
      writeFileSync(
        join(folder, 'boat.loft'),
        spec('device a : D\ndevice b : D\nlink a -- b\nneed a show b.chart\n'),
      );
      git(folder, 'init', '-q');
      git(folder, 'add', '.');
      git(folder, 'commit', '-qm', 'one');
      writeFileSync(join(folder, 'boat.loft'), spec('device a : D\ndevice b : D\nneed a show b.chart\n'));
      git(folder, 'commit', '-qam', 'two');
      writeFileSync(join(folder, 'boat.loft'), 'not a spec');
      const found = program(folder, ['compare', '--rev', 'HEAD~1..HEAD', 'boat.loft']);
      expect(found.status).toBe(1);
      expect(found.out).toContain('no longer met: a show b.chart');
      // The drawing's name is told beside the result, which has the output for itself.
      const drawn = program(folder, ['compare', '--rev', 'HEAD~1..HEAD', 'boat.loft', '--out', 'difference']);
      expect([drawn.status, drawn.out]).toEqual([1, found.out]);
      expect(readFileSync(join(folder, 'difference', 'changes-network-1.svg'), 'utf8')).toMatch(/>R<\/text>/);
      expect(program(folder, ['compare', '--rev', 'HEAD..HEAD', 'boat.loft'])).toEqual({
        status: 0,
        out: 'No change aboard.\n',
        error: '',
      });
      expect(readFileSync(join(folder, 'boat.loft'), 'utf8')).toBe('not a spec');
      for (const [range, words] of [
        ['--all..HEAD', 'is no revision'],
        ['nope..HEAD', 'is no revision'],
        ['HEAD', 'wants two revisions'],
      ] as const) {
        const refused = program(folder, ['compare', `--rev=${range}`, 'boat.loft']);
        expect([refused.status, refused.error]).toEqual([2, expect.stringContaining(words)]);
      }
      expect(program(folder, ['compare', '--rev', 'HEAD~1..HEAD', 'other.loft']).error).toContain(
        'is not in revision',
      );
      const rev = ['compare', '--rev', 'HEAD~1..HEAD', 'boat.loft'];
      const bare = program(folder, rev, { PATH: join(folder, 'nothing') });
      expect([bare.status, bare.error]).toEqual([2, expect.stringContaining('needs the program git')]);
      // Whatever lies above the temporary folder, this one belongs to no repository.
      rmSync(join(folder, '.git'), { recursive: true });
      const lost = program(folder, rev, { GIT_CEILING_DIRECTORIES: tmpdir() });
      expect([lost.status, lost.error]).toEqual([2, expect.stringContaining('is in no git repository')]);
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  }, 30_000);
});
