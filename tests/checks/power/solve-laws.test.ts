/** The laws of circuits, held against random networks: with meshes, second sources, joints and valves. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Circuit, Solved } from '../../../src/checks/power/solve/circuit.js';
import { solve } from '../../../src/checks/power/solve/solve.js';
import { network, randomFrom, withJoints, withValves } from '../../support/networks.js';

/** Amperes that enter each node over all, and watts given by sources less those used up. */
function balanceOf(circuit: Circuit, answer: Solved): { nodes: ReadonlyMap<string, number>; watts: number } {
  const nodes = new Map<string, number>();
  const pass = (from: string, to: string, amps: number): void => {
    nodes.set(from, (nodes.get(from) ?? 0) - amps);
    nodes.set(to, (nodes.get(to) ?? 0) + amps);
  };
  let watts = 0;
  const across = (a: string, b: string): number =>
    (answer.volts.get(a) ?? NaN) - (answer.volts.get(b) ?? NaN);
  for (const { id, a, b } of circuit.branches) {
    const amps = answer.branchAmps.get(id) ?? NaN;
    pass(a, b, amps);
    watts -= amps * across(a, b);
  }
  for (const { id, plus, minus } of circuit.sources) {
    const amps = answer.sourceAmps.get(id) ?? NaN;
    pass(minus, plus, amps);
    watts += amps * across(plus, minus);
  }
  for (const { id, plus, minus, kind, amount } of circuit.loads) {
    const amps = answer.loadAmps.get(id) ?? NaN;
    pass(plus, minus, amps);
    // By what the load is said to draw, not by what was found.
    watts -= kind === 'power' ? amount : amount * across(plus, minus);
  }
  return { nodes, watts };
}

const shapes = fc.record({
  seed: fc.nat(),
  stations: fc.integer({ min: 3, max: 30 }),
  meshes: fc.nat(4),
  sources: fc.integer({ min: 1, max: 2 }),
  heavy: fc.double({ min: 0.1, max: 1, noNaN: true }),
});

/** Checks what is solved of many networks, and says of how many. */
function solvedOfMany(
  runs: number,
  made: (random: () => number, plain: Circuit) => Circuit,
  check: (circuit: Circuit, answer: Solved) => void,
): number {
  let checked = 0;
  fc.assert(
    fc.property(shapes, ({ seed, ...shape }) => {
      const random = randomFrom(seed);
      const circuit = made(random, network(random, shape));
      const answer = solve(circuit);
      if (answer.kind === 'refused') throw new Error(answer.reason);
      if (answer.kind !== 'solved') return;
      check(circuit, answer);
      checked++;
    }),
    { numRuns: runs, seed: 7 },
  );
  return checked;
}

describe('what is solved', () => {
  it.each([
    ['plain networks', (_: () => number, plain: Circuit) => plain],
    ['networks with joints', (_: () => number, plain: Circuit) => withJoints(plain, 3)],
  ])('keeps the balance of current at every node, and of power over all: %s', (_what, made) => {
    const checked = solvedOfMany(250, made, (circuit, answer) => {
      const { nodes, watts } = balanceOf(circuit, answer);
      for (const [node, amps] of nodes) expect(Math.abs(amps), node).toBeLessThan(1e-6);
      expect(Math.abs(watts)).toBeLessThan(1e-5);
    });
    expect(checked).toBeGreaterThan(200);
  });

  it('has every diode and every limited source as it must be, and the same balance', () => {
    const seen = { conducting: 0, blocking: 0, holding: 0, full: 0, resting: 0 };
    const checked = solvedOfMany(400, withValves, (circuit, answer) => {
      const at = (node: string): number => answer.volts.get(node) ?? 0;
      for (const { id, a, b, ohms, oneWay } of circuit.branches) {
        if (!oneWay) continue;
        const amps = answer.branchAmps.get(id) ?? NaN;
        expect(amps).toBeGreaterThan(-1e-5);
        if (amps > 1e-4) {
          seen.conducting++;
          expect(at(a) - at(b)).toBeCloseTo(amps * ohms, 6);
        } else if (answer.volts.has(a) && answer.volts.has(b)) {
          seen.blocking++;
          expect(at(a) - at(b)).toBeLessThan(1e-5);
        }
      }
      for (const { id, plus, minus, volts, ohms, limitAmps } of circuit.sources) {
        if (limitAmps === undefined) continue;
        const amps = answer.sourceAmps.get(id) ?? NaN;
        const across = at(plus) - at(minus);
        // A source at its limit or at rest leaks a microsiemens.
        expect(amps).toBeGreaterThan(-2e-5);
        expect(amps).toBeLessThan(limitAmps + 2e-5);
        if (amps < 2e-5) {
          seen.resting++;
          expect(across).toBeGreaterThan(volts - 1e-5);
        } else if (amps > limitAmps - 1e-5) {
          seen.full++;
          expect(across).toBeLessThan(volts - limitAmps * ohms + 1e-5);
        } else {
          seen.holding++;
          expect(across).toBeCloseTo(volts - amps * ohms, 6);
        }
      }
      const { nodes } = balanceOf(
        { ...circuit, loads: circuit.loads.filter(({ id }) => answer.loadAmps.has(id)) },
        answer,
      );
      for (const [node, amps] of nodes) expect(Math.abs(amps), node).toBeLessThan(1e-6);
    });
    console.log(`valves in ${checked} networks:`, JSON.stringify(seen));
    expect(checked).toBeGreaterThan(200);
    for (const [what, count] of Object.entries(seen)) expect(count, what).toBeGreaterThan(20);
  });
});
