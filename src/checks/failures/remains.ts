/** The direct-current side of a boat on which something has failed. Wires stay as they are, whatever is still drawn through them. */
import type { Lookup } from '../../vessel/lookup.js';
import type { Context } from '../context.js';
import { once } from '../once.js';
import { createCircuits, type Circuits } from '../power/circuit/circuits.js';
import { createEnergy, type Energy } from '../power/energy/energy.js';
import { createLoads } from '../power/loads/loads.js';
import type { SupplyEdge, SupplyGraph, Terminal } from '../power/supply/graph.js';
import { graphOf } from '../power/supply/supply.js';
import type { Outage } from './lit.js';

export interface Remains {
  readonly supply: SupplyGraph;
  readonly energy: () => Energy;
  readonly circuits: () => Circuits;
}

/** What an outage leaves of the supply; undefined where it takes nothing of it away. */
export function remainsOf(context: Context, outage: Outage): Remains | undefined {
  const { vessel, supply, lookup, sizing } = context;
  const takesTerminal = [...supply.terminals.values()].some((terminal) => isGone(terminal, outage));
  if (outage.cuts.length === 0 && !takesTerminal) return undefined;
  const graph = once(() => graphWithout(supply, lookup, outage));
  const there: Lookup = {
    ...lookup,
    device: (name) => (outage.devices.has(name) ? undefined : lookup.device(name)),
    modelOf: (name) => (outage.devices.has(name) ? undefined : lookup.modelOf(name)),
  };
  const loads = once(() => createLoads(vessel, there, graph()));
  const circuits = once(() => {
    const left: Context = {
      ...context,
      supply: graph(),
      loads: loads(),
      sizing: {
        ...sizing,
        legOhms: (edge, leg) => sizing.legOhms(supply.edgeOf(edge.origin) ?? edge, leg),
      },
    };
    return createCircuits(() => left);
  });
  return {
    get supply() {
      return graph();
    },
    energy: once(() => createEnergy(vessel, graph(), loads())),
    circuits,
  };
}

const isGone = (terminal: Terminal, { devices, backbones }: Outage): boolean =>
  terminal.kind === 'port' ? devices.has(terminal.device) : backbones.has(terminal.backbone.name);

function graphWithout(supply: SupplyGraph, lookup: Lookup, outage: Outage): SupplyGraph {
  const { devices, cuts } = outage;
  const stays = ({ device }: { readonly device: string }): boolean => !devices.has(device);
  const terminals = new Map([...supply.terminals].filter(([, terminal]) => !isGone(terminal, outage)));
  const isLeft = (terminal: string | undefined): boolean => terminal !== undefined && terminals.has(terminal);
  const edges = supply.edges.flatMap((edge): readonly SupplyEdge[] => {
    const cut = cuts.filter((one) => one.edge === edge.origin);
    // With what it begins at, a conductor is gone.
    if (cut.some(({ leg }) => leg === undefined) || !isLeft(edge.from)) return [];
    const legs = edge.legs.filter(({ index, to }) => isLeft(to) && !cut.some(({ leg }) => leg === index));
    return legs.length === 0 ? [] : [legs.length === edge.legs.length ? edge : { ...edge, legs }];
  });
  return graphOf(
    {
      terminals,
      edges,
      joins: supply.joins.filter(stays),
      banks: supply.banks.filter(stays),
      outputs: supply.outputs.filter(stays),
    },
    lookup.device,
  );
}

/**
 * Whether an outage can lower a voltage that is left: it takes a source, or parts what hangs together by two ways. What only takes
 * loads away leaves more for the rest.
 */
export function lowers(supply: SupplyGraph, outage: Outage): boolean {
  const { devices, cuts } = outage;
  const gone = (terminal: string): boolean => {
    const found = supply.terminals.get(terminal);
    return found === undefined || isGone(found, outage);
  };
  const sources = [
    ...supply.banks.flatMap(({ terminals }) => terminals),
    ...supply.outputs.map((one) => one.terminal),
  ];
  if (supply.banks.some(({ device }) => devices.has(device))) return true;
  if (supply.outputs.some(({ device }) => devices.has(device))) return true;

  const isCut = (edge: SupplyEdge, leg: number): boolean =>
    cuts.some((one) => one.edge === edge.origin && (one.leg === undefined || one.leg === leg));
  const reached = new Set<string>();
  const queue = [...sources];
  for (const terminal of queue) {
    if (reached.has(terminal) || gone(terminal)) continue;
    reached.add(terminal);
    for (const { a, b } of supply.joinsAt(terminal)) queue.push(a, b);
    for (const edge of supply.edgesAt(terminal)) {
      if (edge.from === undefined || gone(edge.from)) continue;
      const left = edge.legs.flatMap(({ index, to }) => (to === undefined || isCut(edge, index) ? [] : [to]));
      const ends = [edge.from, ...left];
      if (left.length > 0 && ends.includes(terminal)) queue.push(...ends);
    }
  }
  // Where what is taken away touches what is still supplied in one place only, it hung there.
  const touches = new Set<string>();
  for (const edge of supply.edges) {
    const ends = [edge.from, ...edge.legs.map(({ to }) => to)].flatMap((end) => end ?? []);
    const isTouched = ends.some(gone) || cuts.some((one) => one.edge === edge.origin);
    if (isTouched) for (const end of ends) if (reached.has(end)) touches.add(end);
  }
  return touches.size > 1;
}
