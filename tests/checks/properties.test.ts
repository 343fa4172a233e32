/** Relations that hold on any boat, and the independent judge's agreement. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { analyse } from '../../src/checks/analyse.js';
import { VERDICTS, type Analysis, type ViewAnswer } from '../../src/checks/analysis.js';
import { createContext } from '../../src/checks/context.js';
import type { Vessel } from '../../src/vessel/model.js';
import { reaches, rewalk } from '../support/oracle.js';
import { build, recipes } from '../support/randomBoat.js';
import { boat } from '../support/vessel.js';

const RUNS = { numRuns: 250, seed: 20260601 };
const NONE: ReadonlySet<string> = new Set();

const look = (vessel: Vessel): Analysis => analyse(vessel, { today: '2026-06-01' });

/** Every question about a boat but those of a device about itself. */
function questions(analysis: Analysis): readonly (readonly [string, string, string])[] {
  return analysis.screens.flatMap((screen) =>
    analysis.sources
      .filter((one) => one.source !== screen)
      .map((one) => [screen, one.source, one.signal] as const),
  );
}

function seen(analysis: Analysis, off: ReadonlySet<string> = NONE): ReadonlySet<string> {
  return new Set(
    questions(analysis)
      .filter(([screen, source, signal]) => analysis.answer(screen, source, signal, off).visible === true)
      .map((question) => question.join(' ')),
  );
}

/** What is wrong with an answer, where the independent judge says whether the screen certainly shows it; null for nothing. */
function judged(answer: ViewAnswer, certain: boolean, vessel: Vessel): string | null {
  const seen = answer.visible === true;
  if (seen !== certain) return `the judge says ${String(certain)}`;
  if ((answer.verdict === 'reached') !== seen) return 'the verdict does not agree with what is visible';
  if ((answer.verdict === 'unknown') !== (answer.visible === null))
    return 'unknown and null do not go together';
  if ((answer.reason === null) !== seen) return 'a refusal has a reason, and a view has none';
  if (answer.hops.length === 0) return 'there is no trace';
  return seen ? rewalk(vessel, answer) : null;
}

/** Links parsed by the builder of the tests. */
function linksOf(...texts: readonly string[]): Vessel['links'] {
  return boat({ links: texts }).links;
}

/** An analysis as text that no order of declarations changes. */
function portrait(analysis: Analysis): readonly string[] {
  const text = (value: unknown): string => JSON.stringify(value);
  return [
    ...analysis.findings.map(text),
    ...analysis.unknowns.map(text),
    ...analysis.segments.map((one) => text([one.id, one.devices])),
    ...analysis.ports.map((one) => text([one.device, one.port.name, one.on])),
    ...analysis.cables.map((one) => text([one.id, one.zones, one.neededMetres, one.pieces])),
    ...questions(analysis).map((question) => text(analysis.answer(...question))),
  ].sort();
}

describe('any boat', () => {
  it('is judged as the independent judge does, and every trace can be walked', () => {
    const tally = new Map<string, number>(VERDICTS.map((verdict) => [verdict, 0]));
    const ways = new Map<string, number>();
    const note = (answer: ViewAnswer): void => {
      tally.set(answer.verdict, (tally.get(answer.verdict) ?? 0) + 1);
      if (answer.by !== null) ways.set(answer.by, (ways.get(answer.by) ?? 0) + 1);
    };
    fc.assert(
      fc.property(recipes, fc.array(fc.nat(13), { maxLength: 2 }), (recipe, dark) => {
        const { vessel } = build(recipe);
        const analysis = look(vessel);
        const off = new Set(dark.flatMap((index) => vessel.devices[index]?.name ?? []));
        const wrong: string[] = [];
        for (const [screen, source, signal] of questions(analysis)) {
          for (const without of [NONE, off]) {
            const answer = analysis.answer(screen, source, signal, without);
            note(answer);
            const complaint = judged(answer, reaches(vessel, screen, source, signal, without), vessel);
            if (complaint !== null) wrong.push(`${complaint}: ${JSON.stringify(answer)}`);
          }
        }
        expect(wrong).toEqual([]);
      }),
      RUNS,
    );
    console.log(
      `verdicts: ${[...tally, ...ways].map(([name, times]) => `${name} ${String(times)}`).join(', ')}`,
    );
    for (const [verdict, times] of tally) expect(times, verdict).toBeGreaterThanOrEqual(20);
    for (const way of ['own', 'network', 'bus']) expect(ways.get(way) ?? 0, way).toBeGreaterThanOrEqual(20);
  });

  it('rules out without a search only what the search rules out', () => {
    let ruledOut = 0;
    fc.assert(
      fc.property(recipes, (recipe) => {
        const { vessel } = build(recipe);
        const { sharing } = createContext(vessel);
        for (const device of vessel.devices)
          for (const { source, signal } of sharing.sources) {
            if (sharing.mayReach(device.name, source, signal)) continue;
            ruledOut += 1;
            const asked = [device.name, source, signal] as const;
            expect([sharing.hears(...asked).visible, sharing.answer(...asked).visible, asked]).toEqual([
              false,
              false,
              asked,
            ]);
          }
      }),
      RUNS,
    );
    console.log(`${String(ruledOut)} ruled out`);
    expect(ruledOut).toBeGreaterThanOrEqual(200);
  });

  it('loses no view by one more cable, and gains some', () => {
    let gained = 0;
    fc.assert(
      fc.property(recipes, fc.nat(500), fc.array(fc.nat(13), { maxLength: 1 }), (recipe, pick, dark) => {
        const { vessel, addable } = build(recipe);
        const text = addable[pick % Math.max(1, addable.length)];
        if (text === undefined) return;
        const off = new Set(dark.flatMap((index) => vessel.devices[index]?.name ?? []));
        const before = seen(look(vessel), off);
        const after = seen(look({ ...vessel, links: [...vessel.links, ...linksOf(text)] }), off);
        expect([...before].filter((question) => !after.has(question))).toEqual([]);
        if (after.size > before.size) gained += 1;
      }),
      RUNS,
    );
    expect(gained).toBeGreaterThanOrEqual(20);
  });

  it('gains no view by one cable less, and loses some', () => {
    let lost = 0;
    fc.assert(
      fc.property(recipes, fc.nat(500), (recipe, pick) => {
        const { vessel } = build(recipe);
        const gone = vessel.links[pick % Math.max(1, vessel.links.length)];
        const before = seen(look(vessel));
        const after = seen(look({ ...vessel, links: vessel.links.filter((link) => link !== gone) }));
        expect([...after].filter((question) => !before.has(question))).toEqual([]);
        if (after.size < before.size) lost += 1;
      }),
      RUNS,
    );
    expect(lost).toBeGreaterThanOrEqual(20);
  });

  it('is the same in any order of its declarations', () => {
    let found = 0;
    fc.assert(
      fc.property(recipes, fc.array(fc.nat(1000), { minLength: 20, maxLength: 20 }), (recipe, keys) => {
        const { vessel } = build(recipe);
        const shuffled = <T>(items: readonly T[]): readonly T[] =>
          items
            .map((item, index) => ({ item, key: keys[index % keys.length] ?? 0 }))
            .sort((x, y) => x.key - y.key)
            .map(({ item }) => item);
        const one = look(vessel);
        const other = look({
          ...vessel,
          devices: shuffled(vessel.devices),
          links: shuffled(vessel.links),
          backbones: shuffled(vessel.backbones),
          needs: shuffled(vessel.needs),
        });
        expect(portrait(other)).toEqual(portrait(one));
        found += one.findings.length;
      }),
      { ...RUNS, numRuns: 100 },
    );
    expect(found).toBeGreaterThan(100);
  });

  it('beside another sees what it saw alone, and nothing of the other', () => {
    fc.assert(
      fc.property(recipes, recipes, (first, second) => {
        const one = build(first, '_p').vessel;
        const other = build(second, '_q').vessel;
        const both = look({
          ...one,
          devices: [...one.devices, ...other.devices],
          links: [...one.links, ...other.links],
          backbones: [...one.backbones, ...other.backbones],
          needs: [...one.needs, ...other.needs],
        });
        expect([...seen(both)].sort()).toEqual([...seen(look(one)), ...seen(look(other))].sort());
      }),
      { ...RUNS, numRuns: 100 },
    );
  });

  it('is not changed by a coupler in an ethernet cable', () => {
    let joined = 0;
    fc.assert(
      fc.property(recipes, fc.nat(500), (recipe, pick) => {
        const { vessel } = build(recipe);
        const analysis = look(vessel);
        const cables = analysis.links.filter(
          (wired) => wired.medium === 'ethernet' && wired.a !== undefined && wired.b !== undefined,
        );
        const cable = cables[pick % Math.max(1, cables.length)];
        if (cable?.a === undefined || cable.b === undefined) return;
        const [a, b] = [cable.a, cable.b].map((at) => `${at.device}.${at.port.name}`);
        const split = look({
          ...vessel,
          devices: [...vessel.devices, ...boat({ devices: { coupler: 'Coupler' } }).devices],
          links: [
            ...vessel.links.filter((link) => link !== cable.link),
            ...linksOf(`${a ?? ''} -- coupler`, `coupler -- ${b ?? ''}`),
          ],
        });
        expect([...seen(split)].sort()).toEqual([...seen(analysis)].sort());
        joined += 1;
      }),
      { ...RUNS, numRuns: 100 },
    );
    expect(joined).toBeGreaterThanOrEqual(20);
  });
});
