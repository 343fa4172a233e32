/** The highest voltage of a conductor. */
import type { SupplyEdge, SupplyGraph, System } from './graph.js';

/** The system that a conductor belongs to. */
export function systemOn(supply: SupplyGraph, edge: SupplyEdge): System | undefined {
  for (const end of [edge.from, ...edge.legs.map((leg) => leg.to)]) {
    const system = end === undefined ? undefined : supply.systemOf(end);
    if (system !== undefined) return system;
  }
  return undefined;
}

/** The charging voltage of its system, else the voltage of its class; undefined where neither is known. */
export function voltsOn(supply: SupplyGraph, edge: SupplyEdge): number | undefined {
  const system = systemOn(supply, edge);
  return system?.volts?.high ?? system?.nominalVolts;
}
