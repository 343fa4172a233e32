/** How much voltage a stretch of backbone loses on the way from its tap, and what flows where. */
import type { Origin } from '../../vessel/origin.js';
import { solve } from '../power/solve/solve.js';
import type { Bus, BusNode, Piece, Stretch, Tap } from './bus.js';
import { LOAD_UNIT_AMPS } from './units.js';
import { busCircuit, type Pair } from './circuit.js';

/** Load units draw a constant current, so that what is lost does not depend on the voltage of the tap. */
export interface Drops {
  readonly stretch: Stretch;
  /** The tap it is reckoned from: the first. */
  readonly tap: Tap;
  /** Volts lost in both conductors from the tap to each device. */
  readonly nodes: ReadonlyMap<BusNode, number>;
  /** Volts lost up to each item of the backbone. */
  readonly items: ReadonlyMap<Origin, number>;
  /** The device that loses most. */
  readonly worst: { readonly node: BusNode; readonly volts: number } | undefined;
  /** Amperes in each span, whichever way. */
  readonly spans: ReadonlyMap<Origin, number>;
  readonly pieces: ReadonlyMap<Piece, number>;
  /** Amperes out of the tap. */
  readonly amps: number;
  /** What the rule of thumb says: see `ruleOfThumb`. */
  readonly thumbVolts: number;
  /** The first fact that is missing: then these are the least that is lost. */
  readonly missing: string | undefined;
}

/** Any voltage that the solver does not take for a collapse; the drops are the same behind each. */
const BEHIND_VOLTS = 1e5;

/** Undefined where nothing feeds the stretch. */
export function dropsOf(bus: Bus, stretch: Stretch): Drops | undefined {
  const [tap] = stretch.taps;
  if (tap === undefined) return undefined;
  const circuit = busCircuit(bus, stretch);
  const entry = circuit.entries.get(tap.origin);
  if (entry === undefined) return undefined;
  const solution = solve({
    branches: circuit.branches,
    loads: circuit.loads,
    sources: [{ id: 'tap', ...entry, volts: BEHIND_VOLTS, ohms: 0 }],
  });
  if (solution.kind !== 'solved') return undefined;
  const across = ({ plus, minus }: Pair): number =>
    (solution.volts.get(plus) ?? 0) - (solution.volts.get(minus) ?? 0);
  const atTap = across(entry);
  const lostAt = (pair: Pair): number => Math.max(0, atTap - across(pair));
  const nodes = new Map([...circuit.devices].map(([node, pair]) => [node, lostAt(pair)]));
  let worst: Drops['worst'];
  for (const [node, volts] of nodes) if (volts > (worst?.volts ?? -1)) worst = { node, volts };
  const ampsOf = (id: string): number => Math.abs(solution.branchAmps.get(id) ?? 0);
  return {
    stretch,
    tap,
    nodes,
    items: new Map([...circuit.places].map(([origin, pair]) => [origin, lostAt(pair)])),
    worst,
    spans: new Map([...circuit.spans].map(([origin, id]) => [origin, ampsOf(id)])),
    pieces: new Map([...circuit.drops].map(([piece, id]) => [piece, ampsOf(id)])),
    amps: stretch.loadUnits * LOAD_UNIT_AMPS,
    thumbVolts: ruleOfThumb(stretch, tap),
    missing: missingIn(stretch),
  };
}

/**
 * The published rule of thumb, 0.1 * LEN * L * R, with the whole load of a leg at its far end: a second opinion, and never less
 * than what is really lost. Each side of the tap is a leg; where cables are mixed L * R is their sum. The greater leg counts.
 */
function ruleOfThumb(stretch: Stretch, tap: Tap): number {
  let greatest = 0;
  for (const side of [-1, 1]) {
    const along = stretch.spans.filter((span) =>
      side < 0 ? span.point < tap.point : span.point >= tap.point,
    );
    const isHere = (point: number): boolean => (side < 0 ? point < tap.point : point > tap.point);
    // What sits at the tap itself counts on both sides: it makes the rule no less careful.
    const tees = stretch.tees.filter((tee) => isHere(tee.point) || tee.point === tap.point);
    const nodes = stretch.nodes.filter((node) => isHere(node.point) || node.point === tap.point);
    const units = nodes.reduce((sum, node) => sum + (node.loadUnits ?? 0), 0);
    const ohms = (piece: Piece): number => (piece.lengthMetres ?? 0) * (piece.cable?.ohmsPerMetre ?? 0);
    const dropOhms = tees.map(
      (tee) =>
        (tee.drop === undefined ? 0 : ohms(tee.drop)) +
        tee.branches.reduce((most, branch) => Math.max(most, ohms(branch.piece)), 0),
    );
    const leg = along.reduce((sum, span) => sum + ohms(span.piece), 0) + Math.max(0, ...dropOhms);
    greatest = Math.max(greatest, 0.1 * units * leg);
  }
  return greatest;
}

/** The first fact that the drops of a stretch lack. */
function missingIn(stretch: Stretch): string | undefined {
  const pieces = [
    ...stretch.spans.map((span) => span.piece),
    ...stretch.tees.flatMap((tee) => [
      ...(tee.drop === undefined ? [] : [tee.drop]),
      ...tee.branches.map((branch) => branch.piece),
    ]),
  ];
  for (const piece of pieces) {
    const text = piece.missing ?? piece.cableMissing;
    if (text !== undefined) return text;
    if (piece.cable?.ohmsPerMetre === undefined)
      return `${piece.cable?.name ?? 'a cable'} does not say its resistance`;
  }
  return stretch.nodes.find((node) => node.loadMissing !== undefined)?.loadMissing;
}
