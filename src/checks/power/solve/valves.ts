/**
 * One-way branches and limited sources: how they stand is found by changing the first that stands wrong until none does (Murty's
 * rule of the least index, which ends for a network of resistances). One at a time, or two that depend on each other would flutter.
 */
import type { Numbered } from './numbered.js';
import { buildNetwork, type Network, type Stand } from './network.js';

/** A current the wrong way counts from here, and a voltage that would drive one. */
const LEAST_AMPS = 1e-6;
const LEAST_VOLTS = 1e-8;

/** How the valves of a circuit stand. */
export interface Valves {
  readonly count: number;
  /** The network as they stand now; undefined where it can't be factored. */
  readonly network: () => Network | undefined;
  /** Changes the first that stands wrong at these voltages of the network's rows, and names it; undefined if none does. */
  readonly change: (volts: Float64Array) => string | undefined;
  /** Puts all of them back to conducting. */
  readonly reset: () => void;
}

interface Valve {
  readonly id: string;
  /** How it should stand at these voltages. */
  readonly right: (stand: Stand, network: Network, volts: Float64Array) => Stand;
}

export function valvesOf(circuit: Numbered): Valves {
  const { branches, sources } = circuit;
  const valves: Valve[] = [];
  const ofBranch = new Map<number, number>();
  const ofSource = new Map<number, number>();
  branches.forEach((branch, n) => {
    if (branch.oneWay !== true) return;
    ofBranch.set(n, valves.length);
    valves.push({
      id: branch.id,
      right: (stand, network, volts) => branchStand(circuit, n, stand, network, volts),
    });
  });
  sources.forEach((source, n) => {
    if (source.limitAmps === undefined) return;
    ofSource.set(n, valves.length);
    valves.push({
      id: source.id,
      right: (stand, network, volts) => sourceStand(circuit, n, stand, network, volts),
    });
  });
  let stands: readonly Stand[] = valves.map(() => 'on');
  // Few of the many ways to stand occur, and each is met again in every round.
  const built = new Map<string, Network | undefined>();
  const network = (): Network | undefined => {
    const key = stands.join();
    if (!built.has(key)) {
      const standing = stands;
      const standOf = (valve: number | undefined): Stand =>
        valve === undefined ? 'on' : (standing[valve] ?? 'on');
      built.set(
        key,
        buildNetwork(circuit, {
          ofBranch: (n) => standOf(ofBranch.get(n)),
          ofSource: (n) => standOf(ofSource.get(n)),
        }),
      );
    }
    return built.get(key);
  };
  return {
    count: valves.length,
    network,
    change: (volts) => {
      const now = network();
      if (!now) return undefined;
      for (const [n, valve] of valves.entries()) {
        const stand = stands[n] ?? 'on';
        const right = valve.right(stand, now, volts);
        if (right === stand) continue;
        stands = stands.with(n, right);
        return valve.id;
      }
      return undefined;
    },
    reset: () => (stands = valves.map(() => 'on')),
  };
}

function branchStand(
  { ends }: Numbered,
  n: number,
  stand: Stand,
  network: Network,
  volts: Float64Array,
): Stand {
  if (stand === 'on') return network.branchAmps(n, volts) < -LEAST_AMPS ? 'off' : 'on';
  return between(ends, n, network, volts) > LEAST_VOLTS ? 'on' : 'off';
}

function sourceStand(
  { poles, sources }: Numbered,
  n: number,
  stand: Stand,
  network: Network,
  volts: Float64Array,
): Stand {
  const source = sources[n];
  if (source === undefined) return stand;
  const limit = source.limitAmps ?? Infinity;
  if (stand === 'on') {
    const amps = network.sourceAmps(n, volts);
    return amps < -LEAST_AMPS ? 'off' : amps > limit + LEAST_AMPS ? 'full' : 'on';
  }
  const across = between(poles, n, network, volts);
  // At its limit it holds its voltage again once that voltage drives no more than the limit; at rest, once it drives anything.
  return stand === 'full'
    ? across > source.volts - limit * source.ohms + LEAST_VOLTS
      ? 'on'
      : 'full'
    : across < source.volts - LEAST_VOLTS
      ? 'on'
      : 'off';
}

/** Volts from the first to the second of a pair of nodes. */
function between(pairs: Int32Array, n: number, { rows }: Network, volts: Float64Array): number {
  const at = (node: number | undefined): number => volts[rows[node ?? 0] ?? 0] ?? 0;
  return at(pairs[2 * n]) - at(pairs[2 * n + 1]);
}
