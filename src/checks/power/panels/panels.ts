/** A panel, way by way: what hangs on each, by what it is protected and what it draws, and which are free. */
import type { Model, Port } from '../../../vessel/model.js';
import { dcDirection } from '../../wiring/fit.js';
import { demandOf, type Demand } from '../loads/demand.js';
import type { Loads } from '../loads/loads.js';
import type { Sizing, SizedDevice } from '../sizing/sizing.js';
import { terminalId } from '../supply/banks.js';
import type { SupplyEdge, SupplyGraph } from '../supply/graph.js';

export interface PanelWay {
  readonly port: Port;
  readonly label: string | undefined;
  /** Where its conductors lead; empty for a free way. */
  readonly to: readonly string[];
  /** What protects it at the panel, written or worked out. */
  readonly protection: readonly SizedDevice[];
  /** What hangs on it at one time in the worst mode, and usually and with one device at its most. */
  readonly demand: Demand;
  readonly typicalAmps: number | undefined;
  readonly maxAmps: number | undefined;
  /** The fact that is missing for these. */
  readonly missing: string | undefined;
}

export interface PanelResult {
  readonly device: string;
  /** All of it together, in the mode that draws most. */
  readonly demand: Demand;
  readonly carriesAmps: number | undefined;
  readonly ways: readonly PanelWay[];
}

export interface PanelGround {
  readonly supply: SupplyGraph;
  readonly sizing: Sizing;
  readonly loads: Loads;
}

/** Prepare the panels of a boat; undefined for a device that is none. */
export function createPanels(
  { supply, sizing, loads }: PanelGround,
  modelOf: (device: string) => Model | undefined,
): (device: string) => PanelResult | undefined {
  let demand: ReturnType<typeof demandOf> | undefined;
  return (device) => {
    const model = modelOf(device);
    if (model?.class !== 'panel') return undefined;
    const demanded = (demand ??= demandOf(supply, sizing.protection, loads));
    const ports = model.ports.filter((port) => port.medium === 'dc');
    const [entry] = ports.filter((port) => dcDirection(port) !== 'out');
    return {
      device,
      demand: demanded(terminalId(device, entry?.name ?? '')),
      carriesAmps: model.carriesAmps,
      ways: ports
        .filter((port) => dcDirection(port) === 'out')
        .map((port) => wayOf({ supply, sizing, loads }, port, terminalId(device, port.name), demanded)),
    };
  };
}

function wayOf(
  { supply, sizing }: PanelGround,
  port: Port,
  terminal: string,
  demanded: (node: string) => Demand,
): PanelWay {
  const edges = supply.edgesAt(terminal).filter(({ from }) => from === terminal);
  const flows = edges.flatMap((edge) => edge.legs.map(({ index }) => sizing.flowOf(edge, index)));
  const sum = (of: 'typicalAmps' | 'maxAmps'): number => flows.reduce((total, flow) => total + flow[of], 0);
  const missing = flows.find((flow) => flow.missing !== undefined)?.missing;
  return {
    port,
    label: edges.map(({ feed, conductor }) => feed?.wayLabel ?? conductor.label).find((text) => text),
    to: edges.flatMap(ends),
    protection: edges.flatMap((edge) =>
      sizing.of(edge).protection.filter(({ device }) => device.end === 'from' || device.end === undefined),
    ),
    demand: demanded(terminal),
    typicalAmps: missing === undefined ? sum('typicalAmps') : undefined,
    maxAmps: missing === undefined ? sum('maxAmps') : undefined,
    missing,
  };
}

const ends = (edge: SupplyEdge): readonly string[] =>
  edge.legs.map(({ to, text }) => (to ?? text).split('.')[0] ?? text);
