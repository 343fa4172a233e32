/** The network solver against closed forms, a network worked by hand, and the laws of circuits. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Circuit, Load, Solved } from '../../../src/checks/power/solve/circuit.js';
import { mostOf, solve } from '../../../src/checks/power/solve/solve.js';
import { network, randomFrom } from '../../support/networks.js';

/** A source of 12 V, and one load behind a resistance. */
const line = (ohms: number, kind: Load['kind'], amount: number): Circuit => ({
  sources: [{ id: 'bank', plus: '+', minus: '-', volts: 12, ohms: 0 }],
  branches: [{ id: 'wire', a: '+', b: 'far', ohms }],
  loads: [{ id: 'lamp', plus: 'far', minus: '-', kind, amount }],
});

function solved(circuit: Circuit): Solved {
  const answer = solve(circuit);
  if (answer.kind !== 'solved') throw new Error(JSON.stringify(answer));
  return answer;
}

const powerAt = (share: number): number => (share * 12 ** 2) / (4 * 0.5);

describe('one line with a constant-power load', () => {
  // Closed form: V = V0 (1 + sqrt(1 - f)) / 2, with f = P / (V0^2 / 4 R).
  // Near the limit the microhm that stands for an ideal source shows.
  it.each([0.1, 0.5, 0.9, 0.99, 0.9999])('at %d of what it can carry', (share) => {
    const expected = (12 * (1 + Math.sqrt(1 - share))) / 2;
    expect(solved(line(0.5, 'power', powerAt(share))).loadVolts.get('lamp')).toBeCloseTo(
      expected,
      share > 0.95 ? 2 : 4,
    );
  });

  it('has 10.243 V at half of it, where a constant current would have 10.5 V', () => {
    expect(
      solved(line(0.5, 'power', powerAt(0.5)))
        .loadVolts.get('lamp')
        ?.toFixed(3),
    ).toBe('10.243');
    expect(solved(line(0.5, 'current', 3)).loadVolts.get('lamp')).toBeCloseTo(10.5, 4);
  });

  it('collapses past it, and says what it could carry', () => {
    const circuit = line(0.5, 'power', powerAt(1.05));
    const answer = solve(circuit);
    expect(answer).toMatchObject({ kind: 'collapsed', loads: ['lamp'] });
    expect(answer.kind === 'collapsed' && answer.rounds).toBeLessThan(20);
    expect(mostOf(circuit, 'lamp') / powerAt(1)).toBeCloseTo(1, 2);
  });
});

describe('a panel with two branches, by hand', () => {
  /*
   * 12.6 V behind 10 mohm; main 20 mohm out and 20 mohm back to the panel; from there 100 mohm out and back to A, 3 A, and
   * 50 mohm out and back to B, 5 A. Currents are constant, so:
   *   source  12.6 - 8 A x 0.010          = 12.52 V
   *   panel   12.52 - 8 A x (0.020 + 0.020) = 12.20 V
   *   A       12.20 - 3 A x (0.100 + 0.100) = 11.60 V
   *   B       12.20 - 5 A x (0.050 + 0.050) = 11.70 V
   */
  const circuit: Circuit = {
    sources: [{ id: 'bank', plus: 'b+', minus: 'b-', volts: 12.6, ohms: 0.01 }],
    branches: [
      { id: 'main+', a: 'b+', b: 'p+', ohms: 0.02 },
      { id: 'main-', a: 'p-', b: 'b-', ohms: 0.02 },
      { id: 'a+', a: 'p+', b: 'a+', ohms: 0.1 },
      { id: 'a-', a: 'a-', b: 'p-', ohms: 0.1 },
      { id: 'b+', a: 'p+', b: 'c+', ohms: 0.05 },
      { id: 'b-', a: 'c-', b: 'p-', ohms: 0.05 },
    ],
    loads: [
      { id: 'A', plus: 'a+', minus: 'a-', kind: 'current', amount: 3 },
      { id: 'B', plus: 'c+', minus: 'c-', kind: 'current', amount: 5 },
    ],
  };

  it('comes out as worked', () => {
    const { loadVolts, sourceAmps, branchAmps, volts } = solved(circuit);
    expect(loadVolts.get('A')).toBeCloseTo(11.6, 9);
    expect(loadVolts.get('B')).toBeCloseTo(11.7, 9);
    expect((volts.get('p+') ?? 0) - (volts.get('p-') ?? 0)).toBeCloseTo(12.2, 9);
    expect(sourceAmps.get('bank')).toBeCloseTo(8, 9);
    expect([branchAmps.get('main+'), branchAmps.get('a+')]).toEqual([
      expect.closeTo(8, 9),
      expect.closeTo(3, 9),
    ]);
  });
});

describe('what is not a plain network', () => {
  it('joins ends without resistance between them', () => {
    const circuit = line(0.5, 'current', 1);
    const joined = {
      ...circuit,
      branches: [...circuit.branches, { id: 'bar', a: 'far', b: 'bar', ohms: 0 }],
      loads: circuit.loads.map((l) => ({ ...l, plus: 'bar' })),
    };
    expect(solved(joined).loadVolts.get('lamp')).toBeCloseTo(11.5, 4);
  });

  it('names loads that nothing supplies', () => {
    const circuit = line(0.5, 'current', 1);
    const adrift: Load = { id: 'adrift', plus: 'x', minus: 'y', kind: 'power', amount: 5 };
    expect(solved({ ...circuit, loads: [...circuit.loads, adrift] }).unsupplied).toEqual(['adrift']);
  });

  it('lets a one-way branch conduct one way alone', () => {
    const twoBanks: Circuit = {
      sources: [
        { id: 'high', plus: 'h', minus: '-', volts: 13, ohms: 0.01 },
        { id: 'low', plus: 'l', minus: '-', volts: 12, ohms: 0.01 },
      ],
      branches: [
        { id: 'fromHigh', a: 'h', b: 'bus', ohms: 0.01, oneWay: true },
        { id: 'fromLow', a: 'l', b: 'bus', ohms: 0.01, oneWay: true },
      ],
      loads: [{ id: 'lamp', plus: 'bus', minus: '-', kind: 'current', amount: 2 }],
    };
    const answer = solved(twoBanks);
    expect(answer.sourceAmps.get('low')).toBeCloseTo(0, 6);
    expect(answer.sourceAmps.get('high')).toBeCloseTo(2, 6);
  });

  it.each([
    ['a negative resistance', line(-1, 'current', 1), 'wire has a resistance of -1 ohm'],
    ['a resistance that is no number', line(NaN, 'current', 1), 'wire has a resistance of NaN ohm'],
    ['a negative load', line(1, 'power', -5), 'lamp draws -5'],
  ])('refuses %s, by name', (_what, circuit, reason) => {
    expect(solve(circuit)).toMatchObject({
      kind: 'refused',
      reason: expect.stringContaining(reason) as string,
    });
  });
});

describe('random networks', () => {
  const arbitrary = fc.record({
    seed: fc.nat(),
    stations: fc.integer({ min: 2, max: 30 }),
    meshes: fc.nat(4),
    sources: fc.integer({ min: 1, max: 2 }),
  });
  const made = ({
    seed,
    ...shape
  }: {
    seed: number;
    stations: number;
    meshes: number;
    sources: number;
  }): Circuit => network(randomFrom(seed), { ...shape, heavy: 0.5 });

  it('keep the balance of current at every node, and of power over all', () => {
    let checked = 0;
    fc.assert(
      fc.property(arbitrary, (shape) => {
        const circuit = made(shape);
        const answer = solve(circuit);
        if (answer.kind !== 'solved') return;
        const balance = new Map<string, number>();
        const add = (node: string, amps: number): void => {
          balance.set(node, (balance.get(node) ?? 0) + amps);
        };
        let power = 0;
        const at = (node: string): number => answer.volts.get(node) ?? NaN;
        for (const branch of circuit.branches) {
          const amps = answer.branchAmps.get(branch.id) ?? NaN;
          add(branch.a, -amps);
          add(branch.b, amps);
          power -= amps ** 2 * branch.ohms;
        }
        for (const source of circuit.sources) {
          const amps = answer.sourceAmps.get(source.id) ?? NaN;
          add(source.plus, amps);
          add(source.minus, -amps);
          power += amps * source.volts - amps ** 2 * source.ohms;
        }
        for (const load of circuit.loads) {
          const amps = answer.loadAmps.get(load.id) ?? NaN;
          add(load.plus, -amps);
          add(load.minus, amps);
          power -= amps * (at(load.plus) - at(load.minus));
        }
        for (const [node, amps] of balance) expect(Math.abs(amps), node).toBeLessThan(1e-5);
        expect(Math.abs(power)).toBeLessThan(1e-3);
        checked++;
      }),
      { numRuns: 300, seed: 7 },
    );
    console.log(`balanced: ${checked} networks`);
    expect(checked).toBeGreaterThan(200);
  });

  it('never lose voltage at a load by a larger wire, or by a smaller load', () => {
    let compared = 0;
    fc.assert(
      fc.property(arbitrary, fc.nat(), ({ seed, stations }, pick) => {
        // One source and no mesh: elsewhere a better wire may lower one place by evening it out with another.
        const circuit = made({ seed, stations, meshes: 0, sources: 1 });
        const before = solve(circuit);
        if (before.kind !== 'solved' || circuit.loads.length === 0) return;
        const wire = pick % circuit.branches.length;
        const better = solve({
          ...circuit,
          branches: circuit.branches.map((b, i) => (i === wire ? { ...b, ohms: b.ohms / 2 } : b)),
        });
        const light = pick % circuit.loads.length;
        const lighter = solve({
          ...circuit,
          loads: circuit.loads.map((l, i) => (i === light ? { ...l, amount: l.amount / 2 } : l)),
        });
        for (const after of [better, lighter]) {
          if (after.kind !== 'solved') throw new Error('a better network has no solution');
          for (const [load, volts] of before.loadVolts)
            expect((after.loadVolts.get(load) ?? 0) - volts).toBeGreaterThan(-1e-6);
          compared++;
        }
      }),
      { numRuns: 200, seed: 8 },
    );
    expect(compared).toBeGreaterThan(200);
  });

  it('have the same far voltage when a cable is split', () => {
    fc.assert(
      fc.property(arbitrary, fc.nat(), (shape, pick) => {
        const circuit = made(shape);
        const before = solve(circuit);
        const split = circuit.branches[pick % circuit.branches.length];
        if (before.kind !== 'solved' || !split) return;
        const halves = [
          { id: 'first', a: split.a, b: 'joint', ohms: split.ohms * 0.3 },
          { id: 'second', a: 'joint', b: split.b, ohms: split.ohms * 0.7 },
        ];
        const after = solve({
          ...circuit,
          branches: [...circuit.branches.filter((b) => b !== split), ...halves],
        });
        if (after.kind !== 'solved') throw new Error('a split cable changed the answer');
        for (const [load, volts] of before.loadVolts) expect(after.loadVolts.get(load)).toBeCloseTo(volts, 6);
      }),
      { numRuns: 150, seed: 9 },
    );
  });
});
