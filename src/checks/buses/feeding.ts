/** What feeds a stretch of a backbone: its voltages, its own conductor, and how much may be lost behind it. */
import { compareText, listOf } from '../../vessel/words.js';
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
  /** Resistance of the tap's conductor there and back; nothing where its length or size is not said. */
  readonly conductorOhms: number;
  /** The fact that is missing where the voltages are not known. */
  readonly missing: string | undefined;
}

export function feedingOf(supply: SupplyGraph, sizing: Sizing, tap: Tap): Feeding {
  const from = tap.edge?.from;
  const system = from === undefined ? undefined : supply.systemOf(from);
  const isolated = system !== undefined && isIsolated(supply, system);
  return {
    tap,
    system,
    source: sourceOf(system) ?? tap.fromText,
    isolated,
    limitVolts: isolated ? ISOLATED_DROP_VOLTS : BATTERY_DROP_VOLTS,
    lowestVolts: system?.volts?.low,
    nominalVolts: system?.nominalVolts,
    highestVolts: system?.volts?.high,
    conductorOhms: tap.edge === undefined ? 0 : (sizing.legOhms(tap.edge, 0) ?? 0),
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
