/** Random direct-current networks: a tree of stations with both conductors, meshes, one or two sources, both kinds of load; with valves. */
import type { Branch, Circuit, Load, Source } from '../../src/checks/power/solve/circuit.js';

/** A small repeatable generator (mulberry32). */
export function randomFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

export interface Shape {
  readonly stations: number;
  readonly meshes: number;
  readonly sources: number;
  /** Scales every load; large figures make the network collapse. */
  readonly heavy: number;
}

/** Node names begin with `+` or `-`, by conductor. The reference is `-0`. */
export function network(random: () => number, shape: Shape): Circuit {
  const branches: Branch[] = [];
  const sources: Source[] = [];
  const loads: Load[] = [];
  const between = (low: number, high: number): number => low + (high - low) * random();
  const cable = (a: number, b: number): void => {
    const ohms = between(0.002, 0.06);
    branches.push({ id: `p${branches.length}`, a: `+${a}`, b: `+${b}`, ohms });
    branches.push({ id: `m${branches.length}`, a: `-${a}`, b: `-${b}`, ohms: ohms * between(0.5, 1.5) });
  };
  for (let i = 1; i < shape.stations; i++) cable(Math.floor(random() * i), i);
  for (let i = 0; i < shape.meshes; i++) {
    const a = Math.floor(random() * shape.stations);
    const b = Math.floor(random() * shape.stations);
    if (a !== b) cable(a, b);
  }
  for (let i = 0; i < shape.sources; i++) {
    const at = i === 0 ? 0 : 1 + Math.floor(random() * (shape.stations - 1));
    sources.push({
      id: `s${i}`,
      plus: `+${at}`,
      minus: `-${at}`,
      volts: between(11.5, 13.5),
      ohms: between(0.004, 0.03),
    });
  }
  for (let i = 1; i < shape.stations; i++) {
    if (random() < 0.4) continue;
    const power = random() < 0.5;
    loads.push({
      id: `l${i}`,
      plus: `+${i}`,
      minus: `-${i}`,
      kind: power ? 'power' : 'current',
      amount: (power ? between(1, 20) : between(0.1, 1.5)) * shape.heavy,
    });
  }
  return { branches, sources, loads };
}

/** The same with up to five valves: conductors that became one-way, and further sources with a limit. */
export function withValves(random: () => number, circuit: Circuit): Circuit {
  const { branches, sources } = circuit;
  const oneWay = new Set([0, 1, 2].map(() => Math.floor(random() * branches.length)));
  const between = (low: number, high: number): number => low + (high - low) * random();
  const at = (branch: number): string => branches[branch % branches.length]?.b.slice(1) ?? '0';
  const chargers = [0, 1].map((n): Source => {
    const station = at(Math.floor(random() * branches.length));
    const [volts, ohms, limitAmps] = [between(11.5, 14.5), between(0.001, 0.02), between(0.5, 12)];
    return { id: `c${n}`, plus: `+${station}`, minus: `-${station}`, volts, ohms, limitAmps };
  });
  return {
    ...circuit,
    branches: branches.map((b, i) => (oneWay.has(i) && b.a.startsWith('+') ? { ...b, oneWay: true } : b)),
    sources: [...sources, ...chargers],
  };
}

/** The same with every n-th conductor without resistance. */
export function withJoints(circuit: Circuit, every: number): Circuit {
  return { ...circuit, branches: circuit.branches.map((b, i) => (i % every === 0 ? { ...b, ohms: 0 } : b)) };
}
