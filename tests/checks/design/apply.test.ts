/** Designs written into specs: what comes out is the boat that was offered, clean, with every comment, and nothing is cheaper. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { beforeAll, describe, expect, it } from 'vitest';
import { cheaperOf } from '../../../src/checks/design/cheaper.js';
import { isChange } from '../../../src/checks/design/design.js';
import { foundOf, search, type Found } from '../../../src/checks/design/search.js';
import type { Solver } from '../../../src/checks/design/solver.js';
import { loadSolver } from '../../../src/cli/suggest/highs.js';
import { carryOut } from '../../../src/language/analysis/carryOut.js';
import { designEdits } from '../../../src/language/analysis/designEdits.js';
import { openProject } from '../../../src/language/project/open.js';
import { randomYard, yardText } from './trying.js';

const today = '2026-01-01';
const keep = { devices: new Set<string>(), links: new Set<string>() };
let solver: Solver;
beforeAll(async () => {
  solver = await loadSolver();
});

interface Looked {
  readonly found: Found;
  /** The text with the best design carried out. */
  readonly written: string | undefined;
  readonly errors: readonly string[];
}

async function look(text: string): Promise<Looked> {
  const folder = mkdtempSync(join(tmpdir(), 'wireloft-apply-'));
  try {
    const path = join(folder, 'boat.loft');
    writeFileSync(path, text);
    const { report, shared } = await openProject([path], { root: folder, today });
    const base = shared.analysis.Analyses.of(pathToFileURL(path).href);
    if (base === undefined) throw new Error(`no vessel: ${text}`);
    const { vessel } = base.analysis;
    const there = search(vessel, solver, { today, best: 1, keep });
    // As it comes from another thread.
    const { offers, nothing, stopped } = structuredClone({
      ...there,
      offers: there.offers.map(({ design }) => design),
      present: undefined,
    });
    const found = foundOf(vessel, { today, keep }, { designs: offers, nothing, stopped });
    expect(found.offers.map(({ cost }) => cost)).toEqual(there.offers.map(({ cost }) => cost));
    const [offer] = found.offers;
    return {
      found,
      written: offer && carryOut(readFileSync(path, 'utf8'), designEdits(offer.design, vessel, base.places)),
      errors: report.vessels.flatMap(({ problems }) =>
        problems.filter(({ severity }) => severity === 'error').map(({ message }) => message),
      ),
    };
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** A comment at the end of each declaration of a device or a link, each of its own. */
const commented = (text: string): string => {
  let number = 0;
  return text.replace(/^(?:device|link) .*$/gm, (line) =>
    line.includes('//') ? line : `${line}  // note ${++number} of ${line.split(' ')[1] ?? ''}`,
  );
};
const commentsOf = (text: string): readonly string[] => (text.match(/\/\/ note .*$/gm) ?? []).sort();

describe('a design that is written into a random boat', () => {
  it('comes out as it was offered, twice: as gear is cabled for the first time, and once prices have changed', async () => {
    let next = 20_261_127;
    const random = (): number => {
      next = (Math.imul(next, 1_103_515_245) + 12_345) >>> 0;
      return next / 2 ** 32;
    };
    const tally = { written: 0, rewired: 0, taken: 0, crlf: 0 };
    for (let number = 0; number < 28; number += 1) {
      let text = commented(yardText(randomYard(random)));
      // Another system's line ends, and a byte order mark.
      if (number % 4 === 0) text = `\uFEFF${text.replaceAll('\n', '\r\n')}`;
      for (const round of [0, 1]) {
        // Displays may be exchanged now, and some of what was chosen has become dear: something else is the cheapest.
        if (round === 1)
          text = commented(text.replace(/\r|\uFEFF/g, ''))
            .replaceAll('families Tern  shows', 'families Tern  screen 8 in  shows')
            .replace(/price (\d+) USD/g, (_, price: string) =>
              random() < 0.4 ? `price ${Number(price) + 900} USD` : `price ${price} USD`,
            );
        const { found, written } = await look(text);
        const [offer] = found.offers;
        if (offer === undefined || written === undefined) break;
        if (!isChange(offer.design)) continue;
        if (text.startsWith('\uFEFF')) {
          tally.crlf += 1;
          expect(written.startsWith('\uFEFF') && !/[^\r]\n/.test(written), written).toBe(true);
        }
        const after = await look(written.replace(/^\uFEFF/, ''));
        expect(after.errors, written).toEqual([]);
        expect(after.found.presentCost.toFixed(2), written).toBe(offer.cost.toFixed(2));
        expect(after.found.offers[0]?.cost.toFixed(2), written).toBe(offer.cost.toFixed(2));
        expect(cheaperOf(after.found), written).toBeUndefined();
        expect(commentsOf(written), written).toEqual(commentsOf(text));
        if (round === 0) tally.written += 1;
        else {
          if (offer.design.unplugged.length > 0) tally.rewired += 1;
          if (offer.design.dropped.length > 0) tally.taken += 1;
        }
        text = written;
      }
    }
    console.log('designs written', tally);
    expect(tally.written).toBeGreaterThan(10);
    expect(tally.rewired).toBeGreaterThan(3);
    expect(tally.taken).toBeGreaterThan(0);
    expect(tally.crlf).toBeGreaterThan(2);
  }, 120_000);
});

describe('edits', () => {
  const at = (line: number, from: number, to: number, text: string) => ({
    place: { file: '', range: { start: { line, character: from }, end: { line, character: to } } },
    text,
  });

  it('are carried out whatever their order, and refused where they overlap', () => {
    const text = 'device a : One\ndevice b : Two\n';
    expect(
      carryOut(text, [at(1, 11, 14, 'Three'), at(0, 11, 14, 'Four'), at(1, 14, 14, '\nlink a -- b')]),
    ).toBe('device a : Four\ndevice b : Three\nlink a -- b\n');
    expect(() => carryOut(text, [at(0, 0, 8, 'x'), at(0, 4, 10, 'y')])).toThrow(/[Oo]verlap/);
  });
});
