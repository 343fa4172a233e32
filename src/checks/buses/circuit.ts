/** A stretch of a backbone as the network solver takes it: both conductors, every tee, every device. */
import type { Origin } from '../../vessel/origin.js';
import type { Branch, Load } from '../power/solve/circuit.js';
import type { Bus, BusNode, Piece, Stretch } from './bus.js';
import { LOAD_UNIT_AMPS } from './units.js';

/** The two conductors at one place. */
export interface Pair {
  readonly plus: string;
  readonly minus: string;
}

export interface BusCircuit {
  readonly branches: readonly Branch[];
  readonly loads: readonly Load[];
  /** Where each tap enters, by its origin. */
  readonly entries: ReadonlyMap<Origin, Pair>;
  /** Where the backbone begins and where it is after each of its items, by the item's origin. */
  readonly places: ReadonlyMap<Origin, Pair>;
  /** Where each device is connected. */
  readonly devices: ReadonlyMap<BusNode, Pair>;
  /** Ids of the positive branches that have a current to judge. */
  readonly spans: ReadonlyMap<Origin, string>;
  readonly drops: ReadonlyMap<Piece, string>;
}

export interface CircuitOptions {
  /** Contact resistance of a tee in one conductor: 5 mohm in DeviceNet's full calculation. None unless stated. */
  readonly contactOhms?: number;
}

/**
 * The branches and loads of a stretch. A length or a resistance that is not known counts as nothing, so that voltages are the
 * highest that there can be; `Bus.missing` says what is lacking.
 */
export function busCircuit(bus: Bus, stretch: Stretch, { contactOhms = 0 }: CircuitOptions = {}): BusCircuit {
  const branches: Branch[] = [];
  const loads: Load[] = [];
  const entries = new Map<Origin, Pair>();
  const places = new Map<Origin, Pair>();
  const devices = new Map<BusNode, Pair>();
  const spans = new Map<Origin, string>();
  const drops = new Map<Piece, string>();
  let count = 0;
  const pair = (): Pair => {
    const name = `${stretch.id}/${count++}`;
    return { plus: `${name}+`, minus: `${name}-` };
  };
  const join = (id: string, from: Pair, to: Pair, ohms: number): string => {
    branches.push({ id: `${id}+`, a: from.plus, b: to.plus, ohms });
    branches.push({ id: `${id}-`, a: to.minus, b: from.minus, ohms });
    return `${id}+`;
  };
  /** Goes on by something with resistance; what has none needs no node of its own. */
  const on = (id: string, from: Pair, ohms: number): Pair => {
    if (ohms === 0) return from;
    const to = pair();
    join(id, from, to, ohms);
    return to;
  };
  const load = (node: BusNode, at: Pair): void => {
    devices.set(node, at);
    const amount = (node.loadUnits ?? 0) * LOAD_UNIT_AMPS;
    loads.push({ id: `${node.spot.origin} ${node.spot.part ?? ''}`, ...at, kind: 'current', amount });
  };
  const hang = (id: string, piece: Piece, from: Pair): Pair => {
    const to = pair();
    drops.set(piece, join(id, from, to, ohmsOf(piece)));
    return to;
  };

  const teeOf = new Map(stretch.tees.map((tee) => [tee.origin, tee]));
  const spanOf = new Map(stretch.spans.map((span) => [span.piece.origin, span]));
  const builtIn = new Map(
    stretch.nodes.flatMap((node) => (node.via === 'terminator' ? [[node.spot.origin, node] as const] : [])),
  );
  // A tee's contacts lie on the side of the supply, as the printed calculation counts them.
  let fed = stretch.taps.length === 0;
  let here = pair();
  for (const item of bus.backbone.items) {
    const { origin } = item;
    if (bus.positions.get(origin)?.stretch !== stretch.number) continue;
    const tee = teeOf.get(origin);
    const span = spanOf.get(origin);
    const built = builtIn.get(origin);
    if (tee !== undefined) {
      if (fed) here = on(`${origin} contact`, here, contactOhms);
      if (tee.drop !== undefined) {
        const own = hang(`${origin} drop`, tee.drop, here);
        const byBranch = new Map(
          tee.nodes.flatMap((node) => (node.via === 'branch' ? [[node.spot.part ?? '', node] as const] : [])),
        );
        for (const node of tee.nodes) if (node.via === 'tee') load(node, own);
        tee.branches.forEach(({ piece }, index) => {
          const node = byBranch.get(`branches ${index}`);
          const end = hang(`${origin} branch ${index}`, piece, own);
          if (node !== undefined) load(node, end);
        });
      }
      if (!fed) here = on(`${origin} contact`, here, contactOhms);
    } else if (span !== undefined) {
      const next = pair();
      spans.set(origin, join(origin, here, next, ohmsOf(span.piece)));
      here = next;
    } else if (built !== undefined) load(built, here);
    if (item.kind === 'tap') {
      entries.set(origin, here);
      fed = true;
    }
    places.set(origin, here);
  }
  return { branches, loads, entries, places, devices, spans, drops };
}

/** Resistance of one conductor of a piece. */
function ohmsOf({ lengthMetres, cable }: Piece): number {
  return (lengthMetres ?? 0) * (cable?.ohmsPerMetre ?? 0);
}
