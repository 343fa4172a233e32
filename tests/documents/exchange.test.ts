/** Wires that lie in one another's way: together they never cost more for being exchanged, and often less. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { GRID, type DiagramWire } from '../../src/documents/diagram/diagram.js';
import { exchange } from '../../src/documents/diagram/exchange.js';
import { createField, type Field } from '../../src/documents/diagram/field.js';
import type { Row } from '../../src/documents/diagram/place.js';
import { createSearch } from '../../src/documents/diagram/search.js';
import { hold, lay, mark, type Job, type Way } from '../../src/documents/diagram/way.js';
import { priceOf } from './ways.js';

const RUNS = 200;
const [columns, rows] = [24, 24];

/** Wires from the left to the right, each end in a row of its own. */
const wires = fc.integer({ min: 2, max: 6 }).chain((count) => {
  const own = fc.uniqueArray(fc.integer({ min: 1, max: rows - 2 }), { minLength: count, maxLength: count });
  return fc.tuple(own, own);
});
const wall = fc.record({
  x: fc.integer({ min: 4, max: columns - 5 }),
  y: fc.nat(rows - 6),
  height: fc.integer({ min: 2, max: 6 }),
});

function jobOf(left: number, right: number, index: number): Job {
  const row = (x: number, y: number, side: 'left' | 'right'): Row => ({
    wire: {} as DiagramWire,
    end: side === 'right' ? 'a' : 'b',
    side,
    x: x * GRID,
    y: y * GRID,
    reach: GRID,
    reference: false,
    flag: 0,
  });
  return {
    wire: {} as DiagramWire,
    index,
    a: row(0, left, 'right'),
    b: row(columns - 1, right, 'left'),
    direct: 0,
  };
}

/** What all ways cost, a crossing once: each is put in beside those before it. NaN where one goes where none may. */
function priceOfAll(field: Field, ways: ReadonlyMap<Job, Way>): number {
  for (const way of ways.values()) mark(field, way, 0);
  let sum = 0;
  for (const [job, way] of ways) {
    sum += priceOf(field, way, way.at(-1) ?? -1);
    mark(field, way, job.index);
  }
  return sum;
}

it('exchanges what lies in the way of something else', () => {
  const seen = { same: 0, cheaper: 0 };
  fc.assert(
    fc.property(wires, fc.array(wall, { maxLength: 6 }), ([lefts, rights], walls) => {
      const field = createField({ x: 0, y: 0, width: (columns - 1) * GRID, height: (rows - 1) * GRID });
      for (const { x, y, height } of walls)
        field.close({ x: x * GRID, y: y * GRID, width: 2 * GRID, height: height * GRID });
      const search = createSearch(field);
      const jobs = lefts.map((left, index) => jobOf(left, rights[index] ?? 1, index + 1));
      const ways = new Map<Job, Way>();
      for (const job of jobs) hold(field, job, 1);
      for (const job of jobs) {
        hold(field, job, 0);
        const way = lay(field, search, job);
        if (way === undefined) hold(field, job, 1);
        else {
          mark(field, way, job.index);
          ways.set(job, way);
        }
      }
      const before = priceOfAll(field, ways);
      const ends = [...ways].map(([job, way]) => [job, way[0], way.at(-1)]);
      exchange(field, search, jobs, ways);
      const after = priceOfAll(field, ways);
      expect([...ways].map(([job, way]) => [job, way[0], way.at(-1)])).toEqual(ends);
      expect(after).toBeLessThanOrEqual(before);
      seen[after < before ? 'cheaper' : 'same'] += 1;
    }),
    { numRuns: RUNS, seed: 20 },
  );
  console.log(`${RUNS} fields: ${JSON.stringify(seen)}`);
  expect(seen.cheaper).toBeGreaterThan(20);
});
