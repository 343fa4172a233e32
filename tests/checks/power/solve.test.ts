/** The network solver against closed forms, a network worked by hand, and the laws of circuits. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Circuit, Load, Solved, Source } from '../../../src/checks/power/solve/circuit.js';
import { solve } from '../../../src/checks/power/solve/solve.js';
import { network, randomFrom } from '../../support/networks.js';

/** A source of 12 V, and one load behind a resistance. */
const line = (ohms: number, kind: Load['kind'], amount: number): Circuit => ({
  sources: [{ id: 'bank', plus: '+', minus: '-', volts: 12, ohms: 0 }],
  branches: [{ id: 'wire', a: '+', b: 'far', ohms }],
  loads: [{ id: 'lamp', plus: 'far', minus: '-', kind, amount }],
});

/** A line whose source is not sound. */
const source = (change: Partial<Source>): Circuit => {
  const circuit = line(1, 'current', 1);
  return { ...circuit, sources: circuit.sources.map((own) => ({ ...own, ...change })) };
};

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

  it('collapses past it', () => {
    const circuit = line(0.5, 'power', powerAt(1.05));
    const answer = solve(circuit);
    expect(answer).toMatchObject({ kind: 'collapsed', loads: ['lamp'] });
    expect(answer.kind === 'collapsed' && answer.rounds).toBeLessThan(20);
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

  it('carries the current of what a joint leads to through the joint', () => {
    const circuit = line(0.5, 'current', 2);
    const answer = solved({
      ...circuit,
      branches: [
        { id: 'fuse', a: 'out', b: '+', ohms: 0 },
        { id: 'post', a: 'bank+', b: 'out', ohms: 0 },
        ...circuit.branches,
      ],
      sources: circuit.sources.map((source) => ({ ...source, plus: 'bank+' })),
    });
    expect(answer.branchAmps.get('fuse')).toBeCloseTo(2, 6);
    expect(answer.branchAmps.get('post')).toBeCloseTo(2, 6);
  });

  it('draws nothing from one island to another', () => {
    const circuit = line(0.5, 'current', 1);
    const answer = solved({
      ...circuit,
      sources: [...circuit.sources, { id: 'other', plus: 'o+', minus: 'o-', volts: 24, ohms: 0.1 }],
      loads: [...circuit.loads, { id: 'astride', plus: 'o+', minus: '-', kind: 'current', amount: 3 }],
    });
    expect(answer.unsupplied).toEqual(['astride']);
    expect(answer.sourceAmps.get('other')).toBeCloseTo(0, 6);
    expect(answer.volts.get('o+')).toBeCloseTo(24, 6);
  });

  it('collapses where a constant current would turn a voltage round', () => {
    expect(solve(line(10, 'current', 3))).toMatchObject({ kind: 'collapsed', loads: ['lamp'] });
  });

  it('collapses at a load whose ends are joined', () => {
    const circuit = line(0.5, 'power', 5);
    const shorted = [...circuit.branches, { id: 'short', a: 'far', b: '-', ohms: 0 }];
    expect(solve({ ...circuit, branches: shorted })).toMatchObject({ kind: 'collapsed', loads: ['lamp'] });
  });

  it('names the loads that pull the others down, not those that bear it', () => {
    const circuit = line(0.5, 'power', powerAt(1.01));
    const loads: Load[] = [
      { id: 'clock', plus: '+', minus: '-', kind: 'power', amount: 1 },
      ...circuit.loads,
    ];
    expect(solve({ ...circuit, loads })).toMatchObject({ kind: 'collapsed', loads: ['lamp'] });
  });

  it('solves a network of nothing', () => {
    expect(solved({ branches: [], sources: [], loads: [] }).volts.size).toBe(0);
  });

  it.each([
    ['a negative resistance', line(-1, 'current', 1), 'wire has a resistance of -1 ohm'],
    ['a resistance that is no number', line(NaN, 'current', 1), 'wire has a resistance of NaN ohm'],
    ['a negative load', line(1, 'power', -5), 'lamp draws -5 W'],
    ['a load that is no number', line(1, 'current', NaN), 'lamp draws NaN A'],
    ['an endless resistance', line(Infinity, 'current', 1), 'wire has a resistance of Infinity ohm'],
    ['a battery of no voltage', source({ volts: 0 }), 'bank has a voltage of 0 V'],
    ['a negative internal resistance', source({ ohms: -1 }), 'bank has an internal resistance of -1 ohm'],
    ['a negative limit', source({ limitAmps: -1 }), 'bank has a limit of -1 A'],
    [
      'two of one name',
      { ...line(1, 'power', 5), loads: [...line(1, 'power', 5).loads, ...line(1, 'power', 6).loads] },
      'there are two of lamp',
    ],
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

  it('add up where all loads are constant currents: what two sets of loads take together is what each takes', () => {
    fc.assert(
      fc.property(arbitrary, (shape) => {
        const whole = made(shape);
        const all = whole.loads.map((load) => ({ ...load, kind: 'current' as const, amount: 0.1 }));
        const voltsWith = (keep: (n: number) => boolean): ReadonlyMap<string, number> =>
          solved({ ...whole, loads: all.filter((_, n) => keep(n)) }).volts;
        const [none, even, odd, both] = [
          voltsWith(() => false),
          voltsWith((n) => n % 2 === 0),
          voltsWith((n) => n % 2 === 1),
          voltsWith(() => true),
        ];
        for (const [node, volts] of none) {
          const at = (from: ReadonlyMap<string, number>): number => from.get(node) ?? NaN;
          expect(at(both)).toBeCloseTo(at(even) + at(odd) - volts, 8);
        }
      }),
      { numRuns: 100, seed: 10 },
    );
  });

  it('never answer with what is no number, whatever the figures', () => {
    const figure = fc.oneof(
      { weight: 1, arbitrary: fc.double() },
      { weight: 30, arbitrary: fc.constantFrom(0, 1e-12, 1e-6, 0.01, 1, 12, 1e6, 1e11) },
    );
    const node = fc.constantFrom('a', 'b', 'c', 'd');
    const ends = { plus: node, minus: node };
    const seen = { solved: 0, collapsed: 0, refused: 0 };
    fc.assert(
      fc.property(
        fc.array(fc.record({ a: node, b: node, ohms: figure, oneWay: fc.boolean() }), { maxLength: 6 }),
        fc.array(fc.record({ ...ends, volts: figure, ohms: figure }), { maxLength: 2 }),
        fc.array(fc.record({ ...ends, kind: fc.constantFrom('power', 'current'), amount: figure }), {
          maxLength: 3,
        }),
        (branches, sources, loads) => {
          const named = <T extends object>(items: readonly T[]): (T & { readonly id: string })[] =>
            items.map((item, n) => ({ ...item, id: `${n}` }));
          const answer = solve({
            branches: named(branches),
            sources: named(sources),
            loads: named(loads),
          });
          seen[answer.kind]++;
          if (answer.kind !== 'solved') return;
          const { volts, branchAmps, sourceAmps, loadAmps, loadVolts } = answer;
          for (const figures of [volts, branchAmps, sourceAmps, loadAmps, loadVolts])
            for (const [what, value] of figures) expect(Number.isFinite(value), what).toBe(true);
        },
      ),
      { numRuns: 2000, seed: 11 },
    );
    for (const [what, count] of Object.entries(seen)) expect(count, what).toBeGreaterThan(100);
  });
});
