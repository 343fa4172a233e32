/** The commissioning sheet and the fault finder of the example boats, and of one that leaves things out. */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Analysis } from '../../src/checks/analysis.js';
import { faultFinder } from '../../src/documents/commissioning/bus.js';
import { commissioning, STAGES } from '../../src/documents/commissioning/steps.js';
import { connectorCount, vanList } from '../../src/documents/schedules/making.js';
import { openProject } from '../../src/language/project/open.js';
import { folderWith } from '../cli/program.js';

const folder = fileURLToPath(new URL('../../examples', import.meta.url));
const open = async (path: string): Promise<readonly Analysis[]> => {
  const { report } = await openProject([path], { root: path, today: '2026-11-25', chosen: 'none' });
  return report.vessels.map(({ analysis }) => analysis);
};
let boats: readonly Analysis[] = [];
beforeAll(async () => {
  boats = await open(folder);
});
const kittiwake = (of: readonly Analysis[] = boats): Analysis => {
  const found = of.find(({ vessel }) => vessel.name === 'Kittiwake');
  if (!found) throw new Error('there is no Kittiwake');
  return found;
};

/** Kittiwake with her spec changed, beside the catalogues that she uses. */
async function changed(from: string, to: string): Promise<Analysis> {
  const files: Record<string, string> = {};
  for (const name of ['tern', 'general', 'power'])
    files[`catalogue/${name}.loft`] = readFileSync(`${folder}/catalogue/${name}.loft`, 'utf8');
  const spec = readFileSync(`${folder}/kittiwake/kittiwake.loft`, 'utf8');
  expect(spec).toContain(from);
  files['kittiwake/kittiwake.loft'] = spec.replace(from, to);
  return kittiwake(await open(folderWith(files)));
}

const tests = (of: Analysis, stage: string, word: string): readonly (string | null)[] =>
  commissioning(of)
    .filter((one) => one.stage === stage && one.test.includes(word))
    .map(({ expected }) => expected);

describe('the commissioning sheet', () => {
  it('goes through the stages in order and numbers every test', () => {
    expect(boats.length).toBeGreaterThan(3);
    for (const boat of boats) {
      const rows = commissioning(boat);
      expect(rows.length).toBeGreaterThan(10);
      expect(rows.map(({ number }) => number)).toEqual(rows.map((_, index) => index + 1));
      const order = rows.map(({ stage }) => STAGES.indexOf(stage));
      expect(order).toEqual([...order].sort((a, b) => a - b));
    }
  });

  it('measures each backbone once and each of its devices, and says why a value is unknown', () => {
    for (const boat of boats) {
      expect(tests(boat, 'power off', 'data wires')).toEqual(boat.buses.map(() => '60 ohm'));
      expect(tests(boat, 'power on', 'NET-S')).toHaveLength(
        boat.buses.reduce((sum, { bus }) => sum + bus.nodes.length, 0),
      );
      for (const row of commissioning(boat)) if (row.expected === null) expect(row.note).toBeTruthy();
    }
  });

  it('tests the power of what is fed, and no steady voltage of what charges', () => {
    const at = commissioning(kittiwake())
      .filter(({ test }) => test.startsWith('voltage with everything'))
      .map((row) => row.at);
    expect(at).toContain('bowScreen.power');
    expect(at.filter((one) => /^(?:house|start|combiner)\.|starter$/.test(one))).toEqual([]);
  });

  it('has each source on each screen that shows it', () => {
    const boat = kittiwake();
    const shown = boat.screens.flatMap((screen) =>
      boat.sources.filter(({ source, signal }) => boat.answer(screen, source, signal).visible === true),
    );
    const written = commissioning(boat)
      .filter(({ stage }) => stage === 'screens')
      .flatMap(({ test }) => test.split(': ')[1]?.split(', ') ?? []);
    expect(shown.length).toBeGreaterThan(15);
    expect(written).toHaveLength(shown.length);
  });

  it('calls a voltage unknown where a length is', async () => {
    const boat = await changed('span helm -- cabin', 'span nowhere -- cabin');
    expect(tests(boat, 'power on', 'NET-S')).toContain(null);
    expect(faultFinder(boat).some(({ reading }) => reading.includes('unknown'))).toBe(true);
    expect(tests(kittiwake(), 'power on', 'NET-S')).not.toContain(null);
  });

  it('says what a backbone with one terminator reads as specified', async () => {
    const boat = await changed('tee capped\n  terminator', 'tee capped');
    const row = commissioning(boat).find(({ test }) => test.includes('data wires'));
    expect(row).toMatchObject({
      expected: '60 ohm',
      note: 'the spec has 1 terminator: it would read 120 ohm',
    });
  });
});

describe('the fault finder', () => {
  it('tells terminators by resistance, and a span by the tee from which voltage is low', () => {
    const rows = faultFinder(kittiwake());
    expect(rows.find(({ means }) => means.startsWith('a terminator is missing'))?.reading).toBe('120 ohm');
    expect(rows.find(({ means }) => means.startsWith('three'))?.reading).toBe('40 ohm');
    // The tap is before the second span: what the first feeds lies towards the bow, the others aft.
    expect(rows.find(({ look }) => look.startsWith('span 1 '))?.reading).toContain('tee 1 (gnss)');
    expect(rows.find(({ look }) => look.startsWith('span 4 '))?.reading).toContain('tee 4 (headingSensor)');
    expect(rows.find(({ look }) => look.startsWith('span 7 '))?.means).toContain('no device is beyond it');
  });
});

describe('what is fitted and taken along', () => {
  it('counts two plugs a bought cable, and terminals at both ends of both conductors', () => {
    const boat = kittiwake();
    const rows = connectorCount(boat);
    expect(rows.find(({ item }) => item === 'SealedNet plug')).toMatchObject({
      quantity: 6,
      supplied: 'moulded',
    });
    expect(rows.find(({ item }) => item === 'NMEA 2000 terminator')?.quantity).toBe(2);
    const ends = rows
      .filter(({ item }) => item.startsWith('terminal'))
      .reduce((sum, row) => sum + row.quantity, 0);
    const taps = boat.buses.reduce((sum, { bus }) => sum + bus.taps.length, 0);
    const feeds = boat.vessel.feeds.filter(({ existing }) => !existing);
    expect(ends).toBe(feeds.reduce((sum, { to }) => sum + 2 + 2 * to.length, 0) + 4 * taps);
  });

  it('has spares of every rating that is fitted, and a cap for each open port in the wet', () => {
    const rows = vanList(kittiwake());
    const spares = rows.filter(({ group }) => group === 'spare fuses').map(({ item }) => item);
    expect(spares).toContain('7.5 A fuse, blade');
    expect(new Set(spares).size).toBe(spares.length);
    expect(rows.filter(({ group }) => group === 'caps').map(({ note }) => note)).toContain('bowScreen.sonar');
    for (const boat of boats) for (const { quantity } of vanList(boat)) expect(quantity).toBeGreaterThan(0);
  });
});
