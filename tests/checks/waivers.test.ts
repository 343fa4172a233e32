/** Waivers and the registry. Facts of the trade: common practice, no source. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { CHECKS } from '../../src/checks/registered.js';
import { findRule, RULES } from '../../src/checks/rules.js';
import { waiver, type BoatParts } from '../support/vessel.js';
import { look } from '../support/twins.js';

describe('waivers', () => {
  const parts = { devices: { beam: 'BeamHd' } };
  const rules = (...waivers: BoatParts['waivers'] & object): readonly string[] =>
    look({ ...parts, waivers }).findings.map(
      (finding) => `${finding.rule}${finding.waived === null ? '' : ' waived'}`,
    );
  it('hold to the end of their date, and are reported past it, unused or unknown', () => {
    const on = 'device beam';
    expect(rules(waiver(on, 'sonar/no-host', '2026-06-01'))).toEqual([
      'sonar/no-host waived',
      'unused/device',
    ]);
    expect(rules(waiver(on, 'sonar/no-host', '2026-05-31'))).toEqual([
      'sonar/no-host',
      'unused/device',
      'allow/expired',
    ]);
    expect(rules(waiver(on, 'sonar/no-host', 'malformed'))).toEqual([
      'sonar/no-host',
      'unused/device',
      'allow/expired',
    ]);
    expect(rules(waiver(on, 'net/loop'))).toEqual(['sonar/no-host', 'unused/device', 'allow/unused']);
    expect(rules(waiver(on, 'net/no-such'), waiver(on, 'type/medium'))).toEqual([
      'sonar/no-host',
      'unused/device',
      'allow/unknown',
      'allow/unknown',
    ]);
    expect(rules(waiver('device other', 'sonar/no-host'))).toEqual([
      'sonar/no-host',
      'unused/device',
      'allow/unused',
    ]);
  });
  it('on a view cover its panes', () => {
    const analysis = look({
      devices: { a: 'Tern8' },
      views: ['Plan on a left: radar'],
      waivers: [waiver('view Plan', 'view/not-visible')],
    });
    expect(analysis.counts).toMatchObject({ error: 0, waived: 1 });
  });
});

describe('the registry', () => {
  it('has each rule once, with a summary that is a sentence', () => {
    expect(new Set(RULES.map((rule) => rule.code)).size).toBe(RULES.length);
    for (const rule of RULES) expect(rule.summary).toMatch(/^[A-Z].*\.$/u);
    expect(findRule('sonar/no-host')?.group).toBe('sonar');
    expect(findRule('sonar/nonsense')).toBeUndefined();
  });
  it('has twins for every check, here or among the fixtures', () => {
    const folder = new URL('.', import.meta.url);
    const tests = readdirSync(folder)
      .filter((name) => name.endsWith('.test.ts'))
      .map((name) => readFileSync(new URL(name, folder), 'utf8'))
      .join('\n');
    const codes = new Set([...tests.matchAll(/twins\(\s*'([\w/-]+)'/gu)].map((found) => found[1]));
    const fixtures = new URL('../rules/', import.meta.url);
    for (const name of readdirSync(fixtures, { recursive: true, encoding: 'utf8' })) {
      if (!name.endsWith('.loft')) continue;
      const [, rules = ''] = /^\/\/ rule: (.*)$/mu.exec(readFileSync(new URL(name, fixtures), 'utf8')) ?? [];
      for (const code of rules.split(/[ ,]+/u)) codes.add(code);
    }
    expect(CHECKS.map((rule) => rule.code).filter((code) => !codes.has(code))).toEqual([]);
  });
});
