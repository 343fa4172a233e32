/** The cheapest way of a wire, against what relaxing every step of a field until nothing changes finds. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { GRID } from '../../src/documents/diagram/diagram.js';
import { createField, type Field } from '../../src/documents/diagram/field.js';
import { createSearch } from '../../src/documents/diagram/search.js';
import { isFree, PRICE, priceOf, stepPrice } from './ways.js';

const RUNS = 300;

interface Strip {
  readonly x: number;
  readonly y: number;
  readonly length: number;
}

interface Puzzle {
  readonly walls: readonly Strip[];
  readonly standing: readonly Strip[];
  readonly across: readonly Strip[];
  readonly down: readonly Strip[];
  readonly start: { readonly x: number; readonly y: number };
  readonly goal: { readonly x: number; readonly y: number };
  /** How far around the goal a ring of walls stands; none where it is 0. */
  readonly ring: number;
}

/** Of every field: large enough for ways that are long to look for. */
const [columns, rows] = [40, 24];
const spot = { x: fc.nat(columns - 1), y: fc.nat(rows - 1) };
const strip = fc.record({ ...spot, length: fc.integer({ min: 1, max: 20 }) });
const strips = (most: number): fc.Arbitrary<readonly Strip[]> => fc.array(strip, { maxLength: most });
const puzzle: fc.Arbitrary<Puzzle> = fc.record({
  walls: strips(24),
  standing: strips(24),
  across: strips(10),
  down: strips(10),
  start: fc.record(spot),
  goal: fc.record(spot),
  ring: fc.constantFrom(0, 0, 0, 0, 2, 4),
});

/** The field of a puzzle; start and goal are free. */
function fieldOf(given: Puzzle): Field {
  const field = createField({
    x: 0,
    y: 0,
    width: (columns - 1) * GRID,
    height: (rows - 1) * GRID,
  });
  const nodes = (list: readonly Strip[], isDown: boolean): readonly number[] =>
    list.flatMap(({ x, y, length }) =>
      Array.from({ length }, (_, i) => ({ x: isDown ? x : x + i, y: isDown ? y + i : y }))
        .filter((at) => at.x < columns && at.y < rows)
        .map((at) => at.y * columns + at.x),
    );
  for (const node of [...nodes(given.walls, false), ...nodes(given.standing, true)]) field.closed[node] = 1;
  nodes(given.across, false).forEach((node) => (field.across[node] = 1));
  nodes(given.down, true).forEach((node) => (field.down[node] = 2));
  const { goal, ring, start } = given;
  for (let y = goal.y - ring; y <= goal.y + ring; y += 1)
    for (let x = goal.x - ring; x <= goal.x + ring; x += 1)
      if (Math.max(Math.abs(x - goal.x), Math.abs(y - goal.y)) === ring && x >= 0 && y >= 0)
        if (x < columns && y < rows) field.closed[y * columns + x] = 1;
  for (const { x, y } of [start, goal]) {
    const node = y * columns + x;
    field.closed[node] = 0;
    field.across[node] = 0;
    field.down[node] = 0;
  }
  return field;
}

/** The least that any way costs: every step is tried again until none makes anything cheaper. */
function leastPrice(field: Field, start: number, goal: number): number {
  const least = { across: new Map([[start, 0]]), down: new Map([[start, PRICE.bend]]) };
  for (let changed = true; changed;) {
    changed = false;
    const offer = (table: Map<number, number>, node: number, price: number): void => {
      if (price >= (table.get(node) ?? Infinity)) return;
      table.set(node, price);
      changed = true;
    };
    for (const isDown of [false, true]) {
      const [own, other] = isDown ? [least.down, least.across] : [least.across, least.down];
      for (const [node, price] of [...own]) {
        if (node !== start && isFree(field, node)) offer(other, node, price + PRICE.bend);
        const x = node % field.columns;
        const next = isDown
          ? [node - field.columns, node + field.columns]
          : [...(x > 0 ? [node - 1] : []), ...(x < field.columns - 1 ? [node + 1] : [])];
        for (const to of next) {
          if (to < 0 || to >= field.columns * field.rows) continue;
          const more = stepPrice(field, to, isDown, goal);
          if (more !== undefined) offer(own, to, price + more);
        }
      }
    }
  }
  return Math.min(least.across.get(goal) ?? Infinity, least.down.get(goal) ?? Infinity);
}

it('finds a way as cheap as any, and none where there is none', () => {
  const seen = { straight: 0, bent: 0, crossing: 0, none: 0, shutIn: 0 };
  fc.assert(
    fc.property(puzzle, (given) => {
      const field = fieldOf(given);
      const [start, goal] = [given.start, given.goal].map(({ x, y }) => y * columns + x);
      if (start === undefined || goal === undefined || start === goal) return;
      const { find, price } = createSearch(field);
      const way = find(start, goal);
      const least = leastPrice(field, start, goal);
      expect(way === undefined ? Infinity : priceOf(field, way, goal)).toBe(least);
      if (way === undefined) seen[given.ring > 0 ? 'shutIn' : 'none'] += 1;
      else {
        expect([way[0], way.at(-1)]).toEqual([start, goal]);
        expect(price(way)).toBe(least);
        const steps = (way.length - 1) * PRICE.step;
        seen[least === steps ? 'straight' : (least - steps) % PRICE.bend === 0 ? 'bent' : 'crossing'] += 1;
      }
    }),
    { numRuns: RUNS, seed: 20 },
  );
  console.log(`${RUNS} fields: ${JSON.stringify(seen)}`);
  expect(Math.min(...Object.values(seen))).toBeGreaterThan(2);
});
