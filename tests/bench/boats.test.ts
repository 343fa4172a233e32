/** The generated boats: what the benchmark measures must be a good boat of the size that it says. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { generateBoat, type Boat } from '../../bench/boats/boat.js';
import { editsOf, KINDS } from '../../bench/edits.js';
import { openProject } from '../../src/language/project/open.js';
import type { ProjectReport } from '../../src/language/project/report.js';

const folder = mkdtempSync(join(tmpdir(), 'wireloft-boats-'));
afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
});

async function check(boat: Boat): Promise<ProjectReport> {
  const own = mkdtempSync(join(folder, 'boat-'));
  for (const { path, text } of boat.files) writeFileSync(join(own, path), text);
  const { report, unreadable } = await openProject([join(own, boat.main.path)], {
    root: own,
    today: '2026-01-01',
  });
  expect(unreadable).toEqual([]);
  return report;
}

const shown = (report: ProjectReport): string[] =>
  [...report.vessels, ...report.files].flatMap(({ problems }) =>
    problems.map(({ severity, rule, message }) => `${severity} ${rule}: ${message}`),
  );

describe.each(['one file', 'files of 25'] as const)('a boat in %s', (layout) => {
  it.each([1, 7])('of 200 devices has nothing to find, with seed %i', async (seed) => {
    const report = await check(generateBoat(200, layout, seed));
    expect(shown(report)).toEqual([]);
    const analysis = report.vessels[0]?.analysis;
    expect(analysis?.vessel.devices).toHaveLength(200);
    // Two stations to a segment; five needs and two views to a station.
    expect(analysis?.segments).toHaveLength(4);
    expect(analysis?.needs.filter((need) => need.met)).toHaveLength(40);
    expect(analysis?.vessel.views).toHaveLength(16);
  });

  it('is the same for the same seed, and another for another', () => {
    expect(generateBoat(50, layout, 3)).toEqual(generateBoat(50, layout, 3));
    expect(generateBoat(50, layout, 3).files).not.toEqual(generateBoat(50, layout, 4).files);
  });

  it('can be edited in every way that is measured, at places that move', () => {
    const boat = generateBoat(50, layout);
    const file = boat.files.find(({ path }) => path.startsWith('station-')) ?? boat.main;
    const lines = file.text.split('\n');
    const places = [0, 1, 2].map((round) => {
      const edits = editsOf(file, round);
      expect(edits.map(({ kind }) => kind)).toEqual(KINDS);
      for (const { line, character, before, after } of edits) {
        expect(lines[line]?.slice(character, character + before.length)).toBe(before);
        expect(after).not.toBe(before);
      }
      return edits.map(({ line }) => line).join(' ');
    });
    expect(new Set(places).size).toBe(3);
  });
});

it('has both layouts say the same of the boat', async () => {
  const [whole, apart] = await Promise.all([
    check(generateBoat(100, 'one file')),
    check(generateBoat(100, 'files of 25')),
  ]);
  const said = (report: ProjectReport): unknown => {
    const analysis = report.vessels[0]?.analysis;
    return {
      segments: analysis?.segments.map((segment) => segment.devices),
      needs: analysis?.needs.map(({ text, met }) => ({ text, met })),
      cables: analysis?.cables.length,
    };
  };
  expect(said(whole)).toEqual(said(apart));
});

it.each([0, 20, -25, 37.5])('refuses a boat of %d devices', (devices) => {
  expect(() => generateBoat(devices, 'one file')).toThrow(RangeError);
});
