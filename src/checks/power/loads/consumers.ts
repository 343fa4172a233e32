/** What takes current from the supply: the dc inputs of devices that are not only passed through. */
import type { Draw } from '../../../vessel/model.js';
import { dcDirection } from '../../wiring/fit.js';
import { passesOn } from '../supply/banks.js';
import type { Leg, SupplyEdge, SupplyGraph, Terminal } from '../supply/graph.js';

export type Consumer = Terminal & { readonly kind: 'port' };

/** The consumer at a terminal, if there is one. A starter that also charges takes as well. */
export function consumerAt(graph: SupplyGraph, terminal: string | undefined): Consumer | undefined {
  const found = terminal === undefined ? undefined : graph.terminals.get(terminal);
  if (found?.kind !== 'port' || passesOn(found.model.class) || found.model.class === 'battery')
    return undefined;
  const takes = dcDirection(found.port) === 'in' || found.port.dc?.cranks !== undefined;
  return takes ? found : undefined;
}

/** Every leg that ends at a consumer. */
export function consumerLegs(
  graph: SupplyGraph,
): readonly { readonly edge: SupplyEdge; readonly leg: Leg; readonly consumer: Consumer }[] {
  return graph.edges.flatMap((edge) =>
    edge.legs.flatMap((leg) => {
      const consumer = consumerAt(graph, leg.to);
      return consumer === undefined ? [] : [{ edge, leg, consumer }];
    }),
  );
}

/** What a draw comes to at a voltage, in amperes; undefined for watts at no known voltage. */
export function drawAmps(draw: Draw | undefined, volts: number | undefined): number | undefined {
  if (draw === undefined || draw.unit === 'A') return draw?.amount;
  return volts === undefined ? undefined : draw.amount / volts;
}
