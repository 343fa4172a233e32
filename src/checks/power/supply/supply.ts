/** The supply graph of a vessel. */
import type { Mode, Run, Vessel } from '../../../vessel/model.js';
import type { Lookup } from '../../../vessel/lookup.js';
import type { Routes } from '../../../vessel/routes.js';
import type { Wiring } from '../../wiring/wiring.js';
import { bankOf, outputsOf, terminalId } from './banks.js';
import { busId, edgesOf } from './edges.js';
import type { Bank, Join, Output, SupplyEdge, SupplyGraph, SupplyState, System, Terminal } from './graph.js';
import { joinsIn } from './joins.js';
import { stateIn } from './state.js';
import { systemsOf } from './systems.js';

/** Work out the supply graph. An open choice stands for its base model. */
export function createSupply(vessel: Vessel, lookup: Lookup, routes: Routes, wiring: Wiring): SupplyGraph {
  const terminals = new Map<string, Terminal>();
  const joins: Join[] = [];
  const banks: Bank[] = [];
  const outputs: Output[] = [];
  for (const device of vessel.devices) {
    const model = lookup.modelOf(device.name);
    if (model === undefined || lookup.device(device.name) !== device) continue;
    for (const port of model.ports) {
      if (port.medium !== 'dc') continue;
      const id = terminalId(device.name, port.name);
      terminals.set(id, { kind: 'port', id, device: device.name, port, model });
    }
    if (model.class === 'battery') banks.push(bankOf(device, model));
    joins.push(...joinsIn(device.name, model));
    outputs.push(...outputsOf(device.name, model));
  }
  for (const backbone of vessel.backbones) {
    let stretch = 0;
    const put = (): void => {
      const id = busId(backbone.name, stretch);
      terminals.set(id, { kind: 'bus', id, backbone, stretch });
    };
    put();
    for (const item of backbone.items) {
      if (item.kind !== 'isolate') continue;
      stretch += 1;
      put();
    }
  }
  const edges = edgesOf({ vessel, lookup, routes }, wiring);
  return graphOf({ terminals, joins, edges, banks, outputs }, lookup.device);
}

/** What a supply graph is made of. */
interface SupplyParts {
  readonly terminals: ReadonlyMap<string, Terminal>;
  readonly joins: readonly Join[];
  readonly edges: readonly SupplyEdge[];
  readonly banks: readonly Bank[];
  readonly outputs: readonly Output[];
}

/** The graph of these parts: of a boat, or of what is left of it where something fails. */
export function graphOf(parts: SupplyParts, device: Lookup['device']): SupplyGraph {
  const { terminals, joins, edges, banks, outputs } = parts;
  const systems = systemsOf(parts);
  const joinsAt = new Map<string, Join[]>();
  for (const join of joins) for (const end of [join.a, join.b]) push(joinsAt, end, join);
  const edgesAt = new Map<string, SupplyEdge[]>();
  const sharing = new Map<Run, SupplyEdge[]>();
  for (const edge of edges) {
    for (const end of new Set([edge.from, ...edge.legs.map((leg) => leg.to)]))
      if (end !== undefined) push(edgesAt, end, edge);
    for (const run of new Set(edge.legs.flatMap((leg) => leg.bundles))) push(sharing, run, edge);
  }
  const byOrigin = new Map(edges.map((edge) => [edge.origin, edge]));
  const bankAt = new Map(
    banks.flatMap((bank) => bank.terminals.map((terminal) => [terminal, bank] as const)),
  );
  const outputAt = new Map(outputs.map((output) => [output.terminal, output]));
  const systemAt = new Map<string, System>();
  for (const system of systems) for (const terminal of system.terminals) systemAt.set(terminal, system);
  const states = new Map<Mode | undefined, SupplyState>();
  return {
    terminals,
    joins,
    edges,
    banks,
    outputs,
    systems,
    joinsAt: (terminal) => joinsAt.get(terminal) ?? [],
    edgesAt: (terminal) => edgesAt.get(terminal) ?? [],
    edgeOf: (origin) => byOrigin.get(origin),
    bankAt: (terminal) => bankAt.get(terminal),
    outputAt: (terminal) => outputAt.get(terminal),
    systemOf: (terminal) => systemAt.get(terminal),
    sharing: (run) => sharing.get(run) ?? [],
    stateIn: (mode) => {
      let state = states.get(mode);
      if (state === undefined) {
        state = stateIn({ joins, edges, outputs, device }, mode);
        states.set(mode, state);
      }
      return state;
    },
  };
}

function push<K, T>(table: Map<K, T[]>, key: K, item: T): void {
  const list = table.get(key);
  if (list === undefined) table.set(key, [item]);
  else list.push(item);
}
