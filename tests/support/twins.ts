/** Boats on which a rule holds, and their good twins. */
import { expect, it } from 'vitest';
import { analyse } from '../../src/checks/analyse.js';
import type { Analysis } from '../../src/checks/analysis.js';
import { CABLES, MODELS } from './fleet.js';
import { boat, type BoatParts } from './vessel.js';

export function look(parts: BoatParts): Analysis {
  const models = [...MODELS, ...(parts.models ?? [])];
  const cables = [...CABLES, ...(parts.cables ?? [])];
  return analyse(boat({ ...parts, models, cables }), { today: '2026-06-01' });
}

/** What a rule says of a boat: `origin[part]: message`. */
export function said(parts: BoatParts, rule: string): readonly string[] {
  return look(parts)
    .findings.filter((finding) => finding.rule === rule)
    .map(
      (finding) =>
        `${finding.at.origin}${finding.at.part === undefined ? '' : `[${finding.at.part}]`}: ${finding.message}`,
    );
}

export function unknown(parts: BoatParts, rule: string): readonly string[] {
  return look(parts)
    .unknowns.filter((one) => one.rule === rule)
    .map((one) => one.missing);
}

/** A rule holds on the bad boat, in the words given, and not on its good twin. */
export function twins(
  rule: string,
  what: string,
  bad: BoatParts,
  expected: readonly (string | RegExp)[],
  good: BoatParts,
): void {
  it(what, () => {
    const found = said(bad, rule);
    expect(found).toHaveLength(expected.length);
    expected.forEach((text, index) => {
      if (typeof text === 'string') expect(found[index]).toBe(text);
      else expect(found[index]).toMatch(text);
    });
    expect(said(good, rule)).toEqual([]);
  });
}
