/** The measures of a good drawing: what must be nought is nought, on the examples, on large boats and on random ones. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { analyse } from '../../src/checks/analyse.js';
import { drawSheets } from '../../src/documents/draw.js';
import { PAPERS } from '../../src/documents/frame/paper.js';
import { groupsOf } from '../../src/documents/scene/scene.js';
import { build, recipes } from '../support/randomBoat.js';
import { analysed, EXAMPLES, example, fleetParts, variants } from './boats.js';
import { hostile, longNamed } from './hostile.js';
import { measure } from './measure.js';

function faultsOf(sheets: ReturnType<typeof drawSheets>): readonly string[] {
  return sheets.flatMap(({ scene }) => measure(scene).faults.map((fault) => `${scene.id}: ${fault}`));
}

/** References that do not have exactly one partner, which leads back. */
function loose(sheets: ReturnType<typeof drawSheets>): readonly string[] {
  const groups = sheets.flatMap(({ scene }) => [...groupsOf(scene.items)]);
  return groups
    .filter(({ leadsTo, id }) => {
      const partners = groups.filter((other) => other.id === leadsTo);
      return leadsTo !== undefined && (partners.length !== 1 || partners[0]?.leadsTo !== id);
    })
    .map(({ id }) => id);
}

describe('a drawing', () => {
  it('that breaks over pages leads from each to the other', async () => {
    let references = 0;
    for (const name of EXAMPLES) {
      const sheets = drawSheets(await example(name), { paper: 'A4' });
      expect(loose(sheets)).toEqual([]);
      references += sheets
        .flatMap(({ scene }) => [...groupsOf(scene.items)])
        .filter(({ leadsTo }) => leadsTo !== undefined).length;
    }
    expect(references).toBeGreaterThan(5);
  });

  it.each(EXAMPLES.flatMap((name) => PAPERS.map((paper) => [name, paper] as const)))(
    'of %s on %s has nothing on top of another, and every wire on its ports',
    async (name, paper) => {
      const sheets = drawSheets(await example(name), { paper });
      expect(sheets.length).toBeGreaterThan(0);
      expect(faultsOf(sheets)).toEqual([]);
    },
  );

  it.each([40, 120].flatMap((size) => PAPERS.map((paper) => [size, paper] as const)))(
    'of %i devices on %s is as clean',
    (size, paper) => {
      expect(faultsOf(drawSheets(analysed(fleetParts(size)), { paper }))).toEqual([]);
    },
  );

  it('of a boat with any of her options is as clean', async () => {
    let options = 0;
    for (const name of EXAMPLES) {
      for (const [option, analysis] of await variants(name)) {
        if (option === null) continue;
        options += 1;
        for (const paper of ['A3', 'A4'] as const)
          expect(faultsOf(drawSheets(analysis, { paper })), `${name} with ${option} on ${paper}`).toEqual([]);
      }
    }
    expect(options).toBeGreaterThan(2);
  });

  it.each(PAPERS)('of a boat with hostile texts or the worst of names is as clean on %s', (paper) => {
    for (const boat of [hostile(), longNamed()]) {
      const sheets = drawSheets(boat, { paper });
      expect(sheets.reduce((sum, { scene }) => sum + measure(scene).wires, 0)).toBeGreaterThan(8);
      expect(faultsOf(sheets)).toEqual([]);
    }
  });

  it('of any boat is as clean', () => {
    let wires = 0;
    fc.assert(
      fc.property(recipes, fc.constantFrom(...PAPERS), (recipe, paper) => {
        const sheets = drawSheets(analyse(build(recipe).vessel, { today: '2026-11-25' }), { paper });
        wires += sheets.reduce((sum, { scene }) => sum + measure(scene).wires, 0);
        expect(faultsOf(sheets)).toEqual([]);
      }),
      { numRuns: 100 },
    );
    expect(wires).toBeGreaterThan(200);
  });

  it.each(PAPERS)('says how long each cable is that it shows from end to end, on %s', async (paper) => {
    const boats = [...(await Promise.all(EXAMPLES.map(example))), analysed(fleetParts(120))];
    const cables = boats.flatMap((boat) =>
      drawSheets(boat, { paper, sheets: ['network'] })
        .flatMap(({ scene }) => [...groupsOf(scene.items)])
        .filter(({ role, leadsTo }) => role === 'link' && leadsTo === undefined),
    );
    const silent = cables.filter(
      ({ items }) => !items.some((item) => item.kind === 'text' && /\d m$/.test(item.text)),
    );
    expect(silent.map(({ label }) => label)).toEqual([]);
    expect(cables.length).toBeGreaterThan(60);
  });

  it('says of most cables that go on on another sheet how long they are, on one of both', async () => {
    const ends = drawSheets(await example('motoryacht/razorbill'), { paper: 'A4', sheets: ['network'] })
      .flatMap(({ scene }) => [...groupsOf(scene.items)])
      .filter(({ leadsTo }) => leadsTo !== undefined);
    const told = ends.filter(({ items }) =>
      items.some((item) => item.kind === 'text' && /\d m$/.test(item.text)),
    );
    const [all, most] = [ends, told].map((list) => new Set(list.map(({ name }) => name)).size);
    expect(all).toBeGreaterThan(5);
    expect(most).toBeGreaterThan((all ?? 0) / 2);
  });

  it.each(EXAMPLES)('of %s crosses and bends its wires seldom', async (name) => {
    const measured = drawSheets(await example(name), { paper: 'A3', sheets: ['network'] }).map(({ scene }) =>
      measure(scene),
    );
    const sum = (of: (one: (typeof measured)[number]) => number): number =>
      measured.reduce((total, one) => total + of(one), 0);
    const wires = sum((one) => one.wires);
    expect(sum((one) => one.crossings) / wires).toBeLessThanOrEqual(1);
    expect(sum((one) => one.bends) / wires).toBeLessThanOrEqual(3);
    for (const one of measured) expect(one.detour).toBeLessThanOrEqual(1.5);
  });
});
