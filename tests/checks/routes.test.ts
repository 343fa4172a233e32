/** Routes against a table of all shortest ways (Floyd and Warshall), and lengths to buy against brute force. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { choosePieces } from '../../src/checks/cables/stock.js';
import { createRoutes } from '../../src/vessel/routes.js';
import { boat } from '../support/vessel.js';

const ZONES = ['a', 'b', 'c', 'd', 'e', 'f', 'g'];

describe('routes', () => {
  it('are as short as the table of all shortest ways says, whole and the same both ways', () => {
    const tally = { route: 0, none: 0 };
    const runs = fc.array(fc.tuple(fc.nat(6), fc.nat(6), fc.integer({ min: 1, max: 20 })), { maxLength: 12 });
    fc.assert(
      fc.property(runs, (edges) => {
        const texts = edges.map(
          ([x, y, metres], index) =>
            `r${String(index)} : ${ZONES[x] ?? ''} -- ${ZONES[y] ?? ''} ${String(metres)}`,
        );
        const routes = createRoutes(boat({ zones: ZONES, runs: texts }));
        const backwards = createRoutes(boat({ zones: ZONES, runs: [...texts].reverse() }));
        const table = ZONES.map((_, x) => ZONES.map((__, y) => (x === y ? 0 : Infinity)));
        const at = (x: number, y: number): number => table[x]?.[y] ?? Infinity;
        const put = (x: number, y: number, metres: number): void => {
          const row = table[x];
          if (row !== undefined) row[y] = Math.min(at(x, y), metres);
        };
        for (const [x, y, metres] of edges) {
          put(x, y, metres);
          put(y, x, metres);
        }
        ZONES.forEach((_, k) =>
          ZONES.forEach((__, x) => ZONES.forEach((___, y) => put(x, y, at(x, k) + at(k, y)))),
        );
        ZONES.forEach((from, x) => {
          ZONES.forEach((to, y) => {
            const route = routes.between(from, to);
            expect(backwards.between(from, to)).toEqual(route);
            tally[route.kind === 'route' ? 'route' : 'none'] += 1;
            if (route.kind !== 'route') {
              expect([route.kind, at(x, y)]).toEqual(['none', Infinity]);
              return;
            }
            expect(route.metres).toBe(at(x, y));
            expect([route.zones[0], route.zones.at(-1)]).toEqual([from, to]);
            expect(route.runs.reduce((total, run) => total + (run.lengthMetres ?? 0), 0)).toBe(route.metres);
            route.runs.forEach((run, step) => {
              expect([run.from, run.to].sort()).toEqual([route.zones[step], route.zones[step + 1]].sort());
            });
            expect(routes.between(to, from)).toMatchObject({
              metres: route.metres,
              zones: [...route.zones].reverse(),
            });
          });
        });
      }),
      { numRuns: 60, seed: 1 },
    );
    expect(Math.min(tally.route, tally.none)).toBeGreaterThan(100);
  });
  it('over a run of unknown length are unknown, unless another leads round it', () => {
    const only = createRoutes(boat({ runs: ['a -- b', 'b -- c 2'] }));
    expect(only.between('a', 'c')).toEqual({ kind: 'unknown', missing: 'run a -- b has no length' });
    const round = createRoutes(boat({ runs: ['a -- b', 'a -- c 9', 'b -- c 2'] }));
    expect(round.between('a', 'b')).toMatchObject({ metres: 11 });
    expect(round.between('a', 'x')).toEqual({ kind: 'none' });
  });
  it('go along the runs that are named, whichever way round each is declared', () => {
    const routes = createRoutes(boat({ runs: ['long : d -- b 20', 'a -- b 1', 'b -- c 1', 'c -- d 1'] }));
    expect(routes.between('a', 'c', ['long'])).toMatchObject({ metres: 22, zones: ['a', 'b', 'd', 'c'] });
    expect(routes.between('a', 'c', ['nowhere'])).toEqual({
      kind: 'unknown',
      missing: 'run nowhere is not declared',
    });
    expect(routes.between('a', 'b', [], ['c'])).toMatchObject({ metres: 3, zones: ['a', 'b', 'c', 'b'] });
  });
});

describe('lengths to buy', () => {
  it('reach with the fewest pieces, and of those with the least', () => {
    expect(choosePieces([2, 6, 12], 6)).toEqual([6]);
    expect(choosePieces([2, 6, 12], 6.01)).toEqual([12]);
    expect(choosePieces([2, 6, 12], 13)).toEqual([12, 2]);
    expect(choosePieces([2, 6, 12], 36)).toEqual([12, 12, 12]);
    expect(choosePieces([2, 6, 12], 36.01)).toEqual([]);
    // Sums in binary fractions fall short of what is meant by a hair.
    expect(choosePieces([0.3], 0.1 + 0.2)).toEqual([0.3]);
  });
});
