/** Who hears what, against an independent judge, on random boats that are written as specs. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createJudge, type Verdict } from '../../support/hearing/judge.js';
import { specOf, type BoatPlan } from '../../support/hearing/plan.js';
import { plans } from '../../support/hearing/random.js';
import { opened } from '../../support/opened.js';

const RUNS = { numRuns: 100, seed: 20261125 };
/** What acts on a figure or shows it as the truth; of the kinds in the plans. */
const ACTS = ['pilot', 'display'];

interface Row {
  readonly device: string;
  readonly signal: string;
}
const row = ({ device, signal }: Row, more: string): string => `${device} ${signal} ${more}`;

/** Everything that is wrong with what a boat's rules say; `note` counts what was met. */
async function differences(
  plan: BoatPlan,
  dark: string,
  note: (what: string, times?: number) => void,
): Promise<string[]> {
  const { analysis, ...rest } = await opened(specOf(plan));
  const wrong: string[] = [];
  const compare = (what: string, got: readonly string[], expected: readonly string[]): void => {
    const [a, b] = [[...got].sort().join('\n'), [...expected].sort().join('\n')];
    if (a !== b) wrong.push(`${what}: got\n${a}\nexpected\n${b}`);
  };
  if (analysis === undefined) return [`no analysis: ${JSON.stringify(rest)}`];
  const found = (rule: string): readonly (typeof analysis.findings)[number][] =>
    analysis.findings.filter((one) => one.rule === rule);
  // The text has to mean what the plan means.
  compare(
    'faults of the text',
    analysis.findings
      .filter(({ rule, severity }) => severity === 'error' && /^(type|syntax|use)\//u.test(rule))
      .map(({ rule, message }) => `${rule}: ${message}`),
    [],
  );

  const { judge } = createJudge(plan);
  const wants = plan.devices.flatMap(({ name, class: kind, wants: list }) =>
    list.map((want) => ({ device: name, signal: want.name, kind, ...judge(name, want.name) })),
  );
  for (const { verdict } of wants) note(verdict);
  compare(
    'wants',
    analysis.data().map((one) => row(one, one.verdict)),
    wants.map((one) => row(one, one.verdict)),
  );
  compare(
    'sources that reach',
    analysis.data().map((one) =>
      row(
        one,
        one.supplies
          .map(({ source }) => source)
          .sort()
          .join(),
      ),
    ),
    wants.map((one) => row(one, [...one.sources].sort().join())),
  );

  const missing = wants.filter(
    ({ verdict, given, kind }) => verdict === 'none' && (given || kind !== 'display'),
  );
  for (const { kind } of missing) note(`no-source ${kind === 'display' ? 'warning' : 'error'}`);
  const said = (message: string): string => /^(\w+) wants (\w+)/u.exec(message)?.slice(1, 3).join(' ') ?? '';
  compare(
    'data/no-source',
    found('data/no-source').map(({ message, severity }) => `${said(message)} ${severity}`),
    missing.map((one) => row(one, one.kind === 'display' ? 'warning' : 'error')),
  );
  compare(
    'data/rate',
    found('data/rate').map(({ message }) => said(message)),
    wants.filter(({ verdict }) => verdict === 'slow').map(({ device, signal }) => `${device} ${signal}`),
  );
  const rival = wants.filter(
    ({ kind, sources, settled }) => ACTS.includes(kind) && sources.length > 1 && !settled,
  );
  const signals = [...new Set(rival.map(({ signal }) => signal))];
  note('two-sources', signals.length);
  compare(
    'data/two-sources',
    found('data/two-sources').map(({ message }) => / all bring (\w+) to/u.exec(message)?.[1] ?? ''),
    signals,
  );

  const needs = plan.needs.map((need) => ({ ...need, verdict: judge(need.device, need.signal).verdict }));
  const metAs = (verdict: Verdict): string =>
    verdict === 'met' ? 'true' : verdict === 'unknown' ? 'null' : 'false';
  compare(
    'needs',
    analysis.needs.map(({ text, met }) => `${text} ${String(met)}`),
    needs.map(({ device, signal, verdict }) => `${device} hear ${signal} ${metAs(verdict)}`),
  );
  for (const { verdict } of needs) note(`need ${metAs(verdict)}`);

  // The same boat with a device off.
  const failure = analysis.failures().failures.find(({ kind, name }) => kind === 'device' && name === dark);
  const after = createJudge(plan, new Set([dark]));
  const lost = needs.filter(
    ({ device, signal, verdict }) =>
      verdict === 'met' && (device === dark || after.judge(device, signal).verdict !== 'met'),
  );
  const kept = needs.filter((need) => need.verdict === 'met' && !lost.includes(need));
  note('lost with a device off', lost.length);
  note('kept with a device off', kept.length);
  compare(
    `needs lost with ${dark} off`,
    failure?.needsLost ?? [],
    lost.map(({ device, signal }) => `${device} hear ${signal}`),
  );
  return wrong;
}

describe('who hears what', () => {
  it('is judged as the independent judge does', { timeout: 120_000 }, async () => {
    const tally = new Map<string, number>();
    const note = (what: string, times = 1): void => {
      tally.set(what, (tally.get(what) ?? 0) + times);
    };
    await fc.assert(
      fc.asyncProperty(plans, fc.nat(30), async (plan, at) => {
        const dark = plan.devices[at % plan.devices.length]?.name ?? '';
        const wrong = await differences(plan, dark, note);
        expect(wrong.join('\n\n'), specOf(plan)).toBe('');
      }),
      RUNS,
    );
    console.log(`${RUNS.numRuns} boats: ${[...tally].map(([what, times]) => `${what} ${times}`).join(', ')}`);
    const least: Readonly<Record<string, number>> = {
      met: 60,
      slow: 15,
      none: 100,
      unknown: 12,
      'no-source error': 100,
      'no-source warning': 30,
      'two-sources': 8,
      'need true': 60,
      'need false': 200,
      'need null': 12,
      'lost with a device off': 12,
      'kept with a device off': 50,
    };
    const few = Object.entries(least).filter(([what, times]) => (tally.get(what) ?? 0) < times);
    expect(few).toEqual([]);
  });
});
