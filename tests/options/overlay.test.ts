/** A boat with an option is the same boat as the one written out by hand, whatever the option does. */
import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Vessel } from '../../src/vessel/model.js';
import type { VesselReport } from '../../src/language/project/report.js';
import { createWorkspace, type Check } from '../docs/support/workspace.js';
import { BASE, byHand, changes, optionText, REMOVABLE, render } from './written.js';

let check: Check;
beforeAll(async () => {
  check = await createWorkspace();
});

const boat = async (text: string, ...names: string[]): Promise<readonly VesselReport[]> =>
  (await check(new Map([['boat.loft', text]]), names.length === 0 ? 'each' : new Set(names))).vessels;

/** What a vessel is, without what tells that an option made it: a link laid anew has a number behind its name, a feed keeps its first one. */
function told({ absent: _, option: __, usedByOptions: ___, waivers: ____, ...vessel }: Vessel): unknown {
  const feeds = vessel.feeds.map(({ origin: _____, ...feed }) => feed);
  return JSON.parse(JSON.stringify({ ...vessel, feeds }).replace(/ \(\d+\)"/g, '"'));
}

/** Findings by rule and words; what lies about unused may be there for another option. */
const findings = ({ analysis }: VesselReport): string[] =>
  analysis.findings
    .filter((finding) => !finding.rule.startsWith('unused/'))
    .map((finding) => `${finding.severity} ${finding.rule} ${finding.message}`)
    .sort();

describe('a boat with an option', () => {
  it('is the boat written out by hand, and is found to have the same', async () => {
    const met = { removed: 0, added: 0, changed: 0, unlinked: 0, found: 0 };
    await fc.assert(
      fc.asyncProperty(changes('a', REMOVABLE), async (change) => {
        const [, variant] = await boat(render(BASE, [optionText('a', BASE, change)]));
        const [plain] = await boat(render(byHand(BASE, change)));
        if (!variant || !plain) throw new Error('there is no vessel');
        expect(told(variant.analysis.vessel)).toEqual(told(plain.analysis.vessel));
        expect(findings(variant)).toEqual(findings(plain));
        met.removed += change.remove.length;
        met.added += change.add.devices.length;
        met.changed += change.exchange.length;
        met.unlinked += change.unlink.length;
        met.found += findings(variant).length;
      }),
      { numRuns: 60 },
    );
    for (const [what, count] of Object.entries(met)) expect(count, what).toBeGreaterThan(10);
  }, 60_000);

  it('does not depend on the order in which options are chosen or edits are written', async () => {
    let both = 0;
    await fc.assert(
      fc.asyncProperty(changes('a', ['t1', 'g1']), changes('b', ['t2', 'g3']), async (one, other) => {
        const text = render(BASE, [optionText('a', BASE, one), optionText('b', BASE, other)]);
        const [first] = await boat(text, 'a', 'b');
        const [second] = await boat(text, 'b', 'a');
        const turned = render(BASE, [
          optionText('a', BASE, one),
          optionText('b', BASE, {
            ...other,
            remove: [...other.remove].reverse(),
            unlink: [...other.unlink].reverse(),
          }),
        ]);
        const [third] = await boat(turned, 'a', 'b');
        expect(first?.option).toBe('a, b');
        expect(second?.analysis.vessel).toEqual(first?.analysis.vessel);
        expect(third?.analysis.vessel).toEqual(first?.analysis.vessel);
        if (one.add.devices.length > 0 && other.add.devices.length > 0) both++;
      }),
      { numRuns: 40 },
    );
    expect(both).toBeGreaterThan(10);
  }, 60_000);

  it('stays with the base where the base has the finding too, and goes to the option where only the option has it', async () => {
    const [base, variant] = await boat(
      render({ ...BASE, needs: ['spare 3 ethernet on hub', 'spare 4 ethernet on hub'] }, [
        'option lean { remove t1 }',
        'option full { remove s3 }',
      ]),
    );
    const needs = (report: VesselReport | undefined): readonly (string | null)[] =>
      report?.problems.filter(({ rule }) => rule === 'need/not-met').map(({ option }) => option) ?? [];
    expect(needs(base)).toEqual([null, null]);
    expect(needs(variant)).toEqual([null, null]);
  });
});

describe('a need that names what an option takes out', () => {
  const needy = { ...BASE, needs: ['s1, s3 show t1', 's1 show t2 without s3'] };

  it('is not met, and says why, at the option', async () => {
    const text = render(needy, ['option lean "Less" { remove s3 }']);
    const [base, variant] = await boat(text);
    expect(base?.analysis.needs.map((need) => need.met)).toEqual([true, true]);
    expect(variant?.analysis.needs.map((need) => need.met)).toEqual([false, true]);
    const found = variant?.problems.filter(({ rule }) => rule === 'need/not-met') ?? [];
    expect(found).toMatchObject([{ option: 'lean', related: [{ message: 'this is where it is found' }] }]);
    expect(found[0]?.message).toContain('s3 is taken out');
    expect(text.split('\n')[found[0]?.place.range.start.line ?? 0]).toContain('option lean');
  });

  it('can be waived at the head of the option, for the option alone', async () => {
    const waiver = 'allow need/not-met because "told the owner"';
    const [base, variant] = await boat(render(needy, [`option lean "Less" ${waiver} { remove s3 }`]));
    expect(base?.counts.waived).toBe(0);
    expect(variant?.problems.filter(({ rule }) => rule === 'need/not-met')).toMatchObject([
      { waived: 'told the owner', option: 'lean' },
    ]);
    const [, other] = await boat(render(needy, [`option lean "Less" ${waiver} { remove g3 }`]));
    expect(other?.problems.map(({ rule, option }) => [rule, option])).toContainEqual([
      'allow/unused',
      'lean',
    ]);
  });
});

describe('options that are chosen together', () => {
  const clashes = async (...options: string[]): Promise<readonly string[]> => {
    const [report] = await boat(render(BASE, options), 'one', 'two');
    return report?.problems.filter(({ rule }) => rule === 'option/clash').map(({ message }) => message) ?? [];
  };

  it('may bring the same thing, once', async () => {
    const radar = 'add device radar : Radar18 at cabin  add link radar -- hub.4';
    const text = render(BASE, [`option one { ${radar} }`, `option two { ${radar}  remove g3 }`]);
    const [report] = await boat(text, 'one', 'two');
    expect(report?.analysis.vessel.devices.filter(({ name }) => name === 'radar')).toHaveLength(1);
    expect(report?.analysis.vessel.links.filter(({ a }) => a.device === 'radar')).toHaveLength(1);
    expect(report?.problems.filter(({ rule }) => /^(type|option)\//.test(rule))).toEqual([]);
  });

  it.each([
    ['two models', 'change s1 : Tern16', 'change s1 : Tern8', 's1 becomes a Tern8 here and a Tern16'],
    ['two things of one name', 'add device x : Tern8 at helm', 'add device x : Tern13 at helm', 'another x'],
    [
      'what is taken out',
      'remove hub',
      'add device x : Tern8 at helm  add link x -- hub.4',
      'option one takes hub out',
    ],
    ['what is taken out and changed', 'change s1 : Tern16', 'remove s1', 'This changes s1'],
  ])('may not contradict each other: %s', async (_, one, two, words) => {
    expect((await clashes(`option one { ${one} }`, `option two { ${two} }`)).join('\n')).toContain(words);
    expect(await clashes(`option one { ${one} }`, 'option two { }')).toEqual([]);
  });
});
