/** How switches, relays and sources stand in a mode. What is assumed is kept, so that it can be said. */
import type { Device, Mode } from '../../../vessel/model.js';
import { createUnionFind } from '../../../vessel/unionFind.js';
import type { Join, Output, Standing, SupplyEdge, SupplyState } from './graph.js';

interface Parts {
  readonly joins: readonly Join[];
  readonly edges: readonly SupplyEdge[];
  readonly outputs: readonly Output[];
  readonly device: (name: string) => Device | undefined;
}

/**
 * The state in a mode; without one, with every switch as its device says and nothing charging. A combiner is closed while a
 * source that reaches its closing voltage charges on one of its sides.
 */
export function stateIn({ joins, edges, outputs, device }: Parts, mode: Mode | undefined): SupplyState {
  const set = new Map<string, string>();
  const charged = new Set<string>();
  for (const duty of mode?.duties ?? []) {
    if (duty.kind === 'set') set.set(duty.device, duty.position);
    if (duty.kind === 'charge' && duty.level !== 0) charged.add(duty.device);
  }
  const switches = new Map<string, Standing>();
  for (const join of joins) {
    if (join.kind !== 'switch' || switches.has(join.device)) continue;
    const byMode = set.get(join.device);
    const position = byMode ?? device(join.device)?.normally;
    switches.set(join.device, {
      device: join.device,
      position,
      by: byMode !== undefined ? 'mode' : position !== undefined ? 'device' : undefined,
    });
  }
  const active = outputs.filter((output) => output.kind !== 'converter' && charged.has(output.device));
  const charging = new Set(active.map((output) => output.terminal));
  const switchClosed = (join: Join): boolean | undefined => {
    const position = switches.get(join.device)?.position;
    return position === undefined ? undefined : join.positions.includes(position);
  };
  const combined = combine({ joins, edges, active, switchClosed });
  return {
    mode,
    switches,
    combined,
    charging,
    closed: (join) => {
      if (join.kind === 'switch') return switchClosed(join);
      if (join.kind !== 'combiner') return true;
      return join.model.closesVolts === undefined && charging.size > 0
        ? undefined
        : combined.has(join.device);
    },
  };
}

interface Combining {
  readonly joins: readonly Join[];
  readonly edges: readonly SupplyEdge[];
  readonly active: readonly Output[];
  readonly switchClosed: (join: Join) => boolean | undefined;
}

/** Combiners that close, each with the device that charges beside it. One that closes may bring another to do so. */
function combine({ joins, edges, active, switchClosed }: Combining): ReadonlyMap<string, string> {
  const combined = new Map<string, string>();
  const combiners = joins.filter((join) => join.kind === 'combiner');
  if (combiners.length === 0 || active.length === 0) return combined;
  const sets = createUnionFind<string>();
  for (const join of joins) {
    const closed =
      join.kind === 'solid' || join.kind === 'way' || (join.kind === 'switch' && switchClosed(join) === true);
    if (closed) sets.join(join.a, join.b);
  }
  for (const edge of edges) {
    const ends = [edge.from, ...edge.legs.map((leg) => leg.to)].flatMap((end) => end ?? []);
    for (const end of ends.slice(1)) sets.join(ends[0] ?? end, end);
  }
  // A charging source behind a splitter charges every bank after it.
  const diodes = joins.filter((join) => join.kind === 'diode');
  const charges = (at: string, closes: number): string | undefined =>
    active.find((output) => {
      if (output.volts === undefined || output.volts < closes) return false;
      const here = sets.find(at);
      return (
        sets.find(output.terminal) === here ||
        diodes.some((join) => sets.find(join.b) === here && sets.find(join.a) === sets.find(output.terminal))
      );
    })?.device;
  for (let again = true; again;) {
    again = false;
    for (const join of combiners) {
      const closes = join.model.closesVolts;
      if (closes === undefined || combined.has(join.device)) continue;
      const by = charges(join.a, closes) ?? charges(join.b, closes);
      if (by === undefined) continue;
      combined.set(join.device, by);
      sets.join(join.a, join.b);
      again = true;
    }
  }
  return combined;
}
