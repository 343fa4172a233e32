/** What feeds a stretch of a backbone: its voltages, its own conductor, and how much may be lost behind it. */
import { compareText, listOf } from '../../vessel/words.js';
import type { Circuits } from '../power/circuit/circuits.js';
import { minusOf, plusOf } from '../power/circuit/nodes.js';
import type { Loads } from '../power/loads/loads.js';
import type { SupplyGraph, System } from '../power/supply/graph.js';
import type { Sizing } from '../power/sizing/sizing.js';
import type { Tap } from './bus.js';

/** Volts that may be lost from a battery, and from a supply that is isolated from it. NMEA 2000, IEC 61162-3. */
const BATTERY_DROP_VOLTS = 1.5;
const ISOLATED_DROP_VOLTS = 3;

export interface Feeding {
  readonly tap: Tap;
  readonly system: System | undefined;
  /** `house`, `dcdc.out`: what there is to name. */
  readonly source: string;
  /** A converter or supply whose output is apart from the boat's batteries. */
  readonly isolated: boolean;
  readonly limitVolts: number;
  readonly lowestVolts: number | undefined;
  readonly nominalVolts: number | undefined;
  readonly highestVolts: number | undefined;
  /** Volts lost from the source up to the backbone: in the tap's conductor and in the feeds before it, as far as they are known. */
  readonly lostBefore: number;
  /** Volts where the tap enters with the battery at its lowest, by the whole network in the worst mode; undefined where not known. */
  readonly tapVolts: number | undefined;
  /** The fact that is missing where the voltages are not known. */
  readonly missing: string | undefined;
}

/** What the feeding of a tap is worked out of. */
export interface Feeders {
  readonly supply: SupplyGraph;
  readonly sizing: Sizing;
  readonly circuits: Circuits;
  readonly loads: Loads;
}

/** `amps` is what the whole stretch draws. */
export function feedingOf(feeders: Feeders, tap: Tap, amps: number): Feeding {
  const { supply, sizing } = feeders;
  const from = tap.edge?.from;
  const system = from === undefined ? undefined : supply.systemOf(from);
  const isolated = system !== undefined && isIsolated(supply, system);
  const before = lostBefore(sizing, tap, amps);
  return {
    tap,
    system,
    source: sourceOf(system) ?? tap.fromText,
    isolated,
    limitVolts: isolated ? ISOLATED_DROP_VOLTS : BATTERY_DROP_VOLTS,
    lowestVolts: system?.volts?.low,
    nominalVolts: system?.nominalVolts,
    highestVolts: system?.volts?.high,
    lostBefore: before,
    tapVolts: tapVolts(feeders, tap, system?.volts?.low, before),
    missing:
      from === undefined
        ? `it is not settled which port feeds the backbone at ${tap.fromText}`
        : system?.volts === undefined
          ? (system?.missing ?? `the voltage at ${from} is not known`)
          : undefined,
  };
}

/** Banks by name, else the output that gives the voltage. */
function sourceOf(system: System | undefined): string | undefined {
  const banks = system?.banks.map((bank) => bank.device).sort(compareText) ?? [];
  return banks.length > 0 ? listOf(banks) : system?.outputs[0]?.terminal;
}

/** Fed by isolated converters alone. */
function isIsolated(supply: SupplyGraph, { banks, outputs }: System): boolean {
  if (banks.length > 0 || outputs.length === 0) return false;
  return outputs.every((output) =>
    supply.joinsAt(output.terminal).some((join) => join.kind === 'converter' && join.isolated),
  );
}

/** By the practice's formula; where the feeds before it are not known, in the tap's own conductor alone. */
function lostBefore(sizing: Sizing, { edge }: Tap, amps: number): number {
  if (edge === undefined) return 0;
  const drop = sizing.dropOf(edge, 0);
  const own = amps * (sizing.legOhms(edge, 0) ?? 0);
  return Math.max(own, (drop.ownVolts ?? 0) + (drop.upstreamVolts ?? 0));
}

/** The least of all modes that have a solution; without one, the source's lowest less what is known to be lost. */
function tapVolts(
  { circuits, loads }: Feeders,
  { edge }: Tap,
  lowest: number | undefined,
  before: number,
): number | undefined {
  const terminal = edge?.legs[0]?.to;
  if (lowest === undefined) return undefined;
  let least = lowest - before;
  if (terminal === undefined) return least;
  for (const mode of loads.modes) {
    const { solution } = circuits.solved(mode, { kind: 'lowest' });
    if (solution.kind !== 'solved') continue;
    const plus = solution.volts.get(plusOf(terminal));
    const minus = solution.volts.get(minusOf(terminal));
    if (plus !== undefined && minus !== undefined && plus - minus > 0) least = Math.min(least, plus - minus);
  }
  return least;
}
