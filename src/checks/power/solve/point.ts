/** Steps of the iteration: the voltages of a network at given currents, and one step of Newton's method. */
import type { Refused } from './circuit.js';
import type { Network, Stamp } from './network.js';
import type { Valves } from './valves.js';

/** Where the loads stand in a network. */
export interface Placed {
  readonly network: Network;
  /** The nodes of the plus and minus of each load, two a load; -1 where no branch or source is. */
  readonly nodes: Int32Array;
  /** The rows of those. */
  readonly ends: Int32Array;
  /** Of each load, whether both its ends are in one island that has a source. */
  readonly fed: readonly boolean[];
}

/** Voltages of a network's rows, the reference last. */
export interface Point extends Placed {
  readonly volts: Float64Array;
}

/** @param nodes - Of the plus and minus of each load. */
export function place(nodes: Int32Array, network: Network): Placed {
  const fed: boolean[] = [];
  for (let n = 0; n < nodes.length; n += 2) {
    const island = network.islands[nodes[n] ?? -1] ?? -1;
    fed.push(island !== -1 && island === network.islands[nodes[n + 1] ?? -1]);
  }
  return { network, nodes, ends: nodes.map((node) => network.rows[node] ?? network.size), fed };
}

/** Volts across a load, by its number. */
export function across({ ends, volts }: Point, load: number): number {
  const [plus, minus] = [ends[2 * load] ?? 0, ends[2 * load + 1] ?? 0];
  return (volts[plus] ?? 0) - (volts[minus] ?? 0);
}

/** The largest difference of a voltage between two points; Infinity where a valve has changed between them. */
export function movedBy(one: Point, other: Point): number {
  if (one.network !== other.network) return Infinity;
  let moved = 0;
  for (let row = 0; row < one.volts.length; row++)
    moved = Math.max(moved, Math.abs((one.volts[row] ?? 0) - (other.volts[row] ?? 0)));
  return moved;
}

/** Changes of valves, for each that there is, after which they are taken to find no rest. */
const MOST_CHANGES_EACH = 20;

/** The voltages where the loads draw these currents, with every valve standing right. */
export function balance(
  valves: Valves,
  placedIn: (network: Network) => Placed,
  amps: Float64Array,
): Point | Refused {
  for (let changes = 0; ; changes++) {
    const network = valves.network();
    if (!network)
      return { kind: 'refused', reason: 'the network has a resistance that is out of all proportion' };
    const placed = placedIn(network);
    const volts = voltsOf(placed, network.matrix.solve, amps);
    if (!volts.every((value) => Number.isFinite(value)))
      return { kind: 'refused', reason: 'the network has a figure that is out of all proportion' };
    const changed = valves.change(volts);
    if (changed === undefined) return { ...placed, volts };
    if (changes >= MOST_CHANGES_EACH * valves.count)
      return { kind: 'refused', reason: `${changed} finds no rest: it would switch on and off for ever` };
  }
}

/**
 * One step of Newton's method from voltages above the solution: each constant-power load is a negative conductance P / V^2 with
 * a current 2 P / V. Undefined where the network has lost its footing: past the most it can carry.
 *
 * @param powered - Numbers of the loads of constant power that draw something.
 */
export function newton(point: Point, amps: Float64Array, powered: readonly number[]): Point | undefined {
  const { network } = point;
  const currents = Float64Array.from(amps);
  const stamps = powered.map((n): Stamp => {
    const own = amps[n] ?? 0;
    currents[n] = 2 * own;
    return [point.ends[2 * n] ?? 0, point.ends[2 * n + 1] ?? 0, -own / across(point, n)];
  });
  const matrix = network.factored(stamps);
  return matrix && { ...point, volts: voltsOf(point, matrix.solve, currents) };
}

function voltsOf(
  { network: { injected, size }, ends, fed }: Placed,
  solve: (rhs: Float64Array) => Float64Array,
  amps: Float64Array,
): Float64Array {
  const rhs = Float64Array.from(injected);
  for (let n = 0; n < amps.length; n++) {
    if (fed[n] !== true) continue;
    const [plus, minus] = [ends[2 * n] ?? 0, ends[2 * n + 1] ?? 0];
    rhs[plus] = (rhs[plus] ?? 0) - (amps[n] ?? 0);
    rhs[minus] = (rhs[minus] ?? 0) + (amps[n] ?? 0);
  }
  const volts = new Float64Array(size + 1);
  volts.set(solve(rhs.subarray(0, size)));
  return volts;
}
