/** Whether a conductor need not keep the least size of its standard. */
import { isExempt } from '../../../vessel/conductors/minimum.js';
import { consumerAt, drawAmps } from '../loads/consumers.js';
import { ELECTRONICS } from '../loads/electronics.js';
import { systemOn } from '../supply/circuitVolts.js';
import type { SupplyEdge, SupplyGraph } from '../supply/graph.js';

/**
 * By what hangs at its ends, whatever a mode draws of it: electronics, or loads that together draw under 1 A at their most. What
 * feeds a panel, a busbar or a battery is no such circuit, however little is on it today.
 */
export function sizeExempt(supply: SupplyGraph, edge: SupplyEdge): boolean {
  const volts = systemOn(supply, edge)?.volts?.low;
  const loads = edge.legs.map((leg) => consumerAt(supply, leg.to));
  const electronics =
    edge.kind === 'tap' || loads.every((load) => load !== undefined && ELECTRONICS.has(load.model.class));
  const amps = loads.reduce((total, load) => {
    const dc = load?.port.dc;
    return total + (drawAmps(dc?.max ?? dc?.draws, volts) ?? Infinity);
  }, 0);
  const lengthMetres = Math.max(...edge.legs.map((leg) => leg.lengthMetres ?? Infinity));
  return isExempt({ electronics, amps, lengthMetres });
}
