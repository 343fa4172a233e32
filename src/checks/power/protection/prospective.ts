/** How much current a short circuit draws at a place: the banks that reach it, behind their own resistance and the wires'. */
import { ohmsPerMetre } from '../../../vessel/conductors/drop.js';
import type { ConductorSize, Practice, Vessel } from '../../../vessel/model.js';
import { compareText } from '../../../vessel/words.js';
import { insideOhms } from '../supply/banks.js';
import type { Protection } from './protection.js';
import { terminalAt, type EdgeEnd, type Node } from './net.js';
import type { Bank, SupplyEdge, SupplyGraph } from '../supply/graph.js';

/** The wire of a conductor: as written, or as the tool has sized it. */
export type SizeOf = (edge: SupplyEdge) => ConductorSize | undefined;

export interface Prospective {
  /** No fault current is greater than this. Undefined where a bank does not say enough. */
  readonly amps: number | undefined;
  /** What would have to be known for the figure to be the current itself, and not only a bound. */
  readonly bound: string | undefined;
  readonly banks: readonly Bank[];
  readonly missing: string | undefined;
}

interface Ground {
  readonly vessel: Pick<Vessel, 'practice'>;
  readonly supply: SupplyGraph;
  readonly protection: Pick<Protection, 'rootOf' | 'waysTo'>;
}

interface Reached {
  readonly ohms: number;
  /** A conductor on the way whose resistance is not known; it counts as nothing. */
  readonly unknown: SupplyEdge | undefined;
}

/**
 * The prospective current at an end of a conductor, in amperes: the sum over the banks of V / (bank + both wires). A wire of
 * unknown size counts as none, which makes the result a bound from above. Nominal voltages; parallel banks add.
 */
export function prospectiveAt(
  ground: Ground,
  edge: SupplyEdge,
  end: EdgeEnd,
  sizeOf: SizeOf = (one) => one.size,
): Prospective {
  const start = terminalAt(edge, end);
  const fed = start !== undefined && ground.protection.rootOf(start) !== edge ? start : undefined;
  return prospectiveFrom(ground, fed, edge, sizeOf);
}

/** The prospective current of a short circuit at a terminal itself, a battery's posts say. */
export function prospectiveAtTerminal(ground: Ground, terminal: string, sizeOf: SizeOf): Prospective {
  return prospectiveFrom(ground, terminal, undefined, sizeOf);
}

function prospectiveFrom(
  { supply, protection, vessel }: Ground,
  start: string | undefined,
  without: SupplyEdge | undefined,
  sizeOf: SizeOf,
): Prospective {
  const reached = new Map<Node, Reached>();
  const queue: Node[] = [];
  const met = new Set<Bank>();
  const put = (node: Node, value: Reached): void => {
    const known = reached.get(node);
    if (known !== undefined && known.ohms <= value.ohms) return;
    reached.set(node, value);
    queue.push(node);
  };
  if (start !== undefined) put(start, { ohms: 0, unknown: undefined });
  // Ways are few: what hangs on a branch is not entered, so that going over a node again where a shorter way is found is cheap.
  for (const node of queue) {
    const here = reached.get(node);
    const bank = typeof node === 'string' ? supply.bankAt(node) : undefined;
    if (bank !== undefined) met.add(bank);
    if (here === undefined) continue;
    for (const arc of protection.waysTo(node)) {
      if (!arc.comes || arc.to === without) continue;
      const crossing = arc.edge !== undefined && typeof arc.end === 'number' ? arc : undefined;
      const ohms =
        crossing?.edge === undefined
          ? 0
          : legOhms(crossing.edge, Number(crossing.end), vessel.practice, sizeOf);
      put(arc.to, {
        ohms: here.ohms + (ohms ?? 0),
        unknown: here.unknown ?? (ohms === undefined ? crossing?.edge : undefined),
      });
    }
  }
  return add(
    [...met].sort((x, y) => compareText(x.device, y.device)),
    reached,
  );
}

/** Both conductors of a leg; undefined where its size or length is not known. */
function legOhms(
  edge: SupplyEdge,
  index: number,
  practice: Practice | undefined,
  sizeOf: SizeOf,
): number | undefined {
  const size = sizeOf(edge);
  const metres = edge.legs[index]?.lengthMetres;
  if (size === undefined || metres === undefined || practice === undefined) return undefined;
  const ohms = ohmsPerMetre(size, practice);
  return ohms === undefined ? undefined : 2 * metres * ohms;
}

function add(banks: readonly Bank[], reached: ReadonlyMap<Node, Reached>): Prospective {
  const met: Bank[] = [];
  let amps: number | undefined = 0;
  let bound: string | undefined;
  let missing: string | undefined;
  for (const bank of banks) {
    const ways = bank.terminals.flatMap((terminal) => reached.get(terminal) ?? []);
    const [way] = [...ways].sort((a, b) => a.ohms - b.ohms);
    if (way === undefined) continue;
    met.push(bank);
    const inside = insideOhms(bank);
    if (bank.nominalVolts === undefined || inside === undefined) {
      missing ??= `${bank.model.name} says neither its resistance nor its short-circuit current`;
      amps = undefined;
      continue;
    }
    if (amps !== undefined) amps += bank.nominalVolts / (inside + way.ohms);
    if (way.unknown !== undefined) bound ??= `the wire of ${way.unknown.text} is left to the tool`;
  }
  return { amps, bound, banks: met, missing };
}
