/**
 * One-way branches and limited sources: how they stand is found by changing the first that stands wrong until none does (Murty's
 * rule of the least index, which ends for a network of resistances). One at a time, or two that depend on each other would flutter.
 */
import type { Branch, Circuit, Source } from './circuit.js';
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

export function valvesOf(circuit: Circuit): Valves {
  const valves: readonly (Branch | Source)[] = [
    ...circuit.branches.filter((branch) => branch.oneWay),
    ...circuit.sources.filter((source) => source.limitAmps !== undefined),
  ];
  const stands = new Map<Branch | Source, Stand>();
  // Few of the many ways to stand occur, and each is met again in every round.
  const built = new Map<string, Network | undefined>();
  const network = (): Network | undefined => {
    const key = valves.map((valve) => stands.get(valve) ?? 'on').join();
    if (!built.has(key)) {
      const standing = new Map(stands);
      built.set(
        key,
        buildNetwork(circuit, (one) => standing.get(one) ?? 'on'),
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
      for (const valve of valves) {
        const stand = stands.get(valve) ?? 'on';
        const right =
          'plus' in valve ? sourceStand(valve, stand, now, volts) : branchStand(valve, stand, now, volts);
        if (right === stand) continue;
        stands.set(valve, right);
        return valve.id;
      }
      return undefined;
    },
    reset: () => stands.clear(),
  };
}

function branchStand(branch: Branch, stand: Stand, network: Network, volts: Float64Array): Stand {
  if (stand === 'on') return network.branchAmps(branch, volts) < -LEAST_AMPS ? 'off' : 'on';
  const across = (volts[network.row(branch.a)] ?? 0) - (volts[network.row(branch.b)] ?? 0);
  return across > LEAST_VOLTS ? 'on' : 'off';
}

function sourceStand(source: Source, stand: Stand, network: Network, volts: Float64Array): Stand {
  const limit = source.limitAmps ?? Infinity;
  if (stand === 'on') {
    const amps = network.sourceAmps(source, volts);
    return amps < -LEAST_AMPS ? 'off' : amps > limit + LEAST_AMPS ? 'full' : 'on';
  }
  const across = (volts[network.row(source.plus)] ?? 0) - (volts[network.row(source.minus)] ?? 0);
  // At its limit it holds its voltage again once that voltage drives no more than the limit; at rest, once it drives anything.
  return stand === 'full'
    ? across > source.volts - limit * source.ohms + LEAST_VOLTS
      ? 'on'
      : 'full'
    : across < source.volts - LEAST_VOLTS
      ? 'on'
      : 'off';
}
