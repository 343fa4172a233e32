/** The fuses and breakers of one conductor: as written, with a rating where it is left out, and where one is needed and none is said. */
import type { FuseType } from '../../../vessel/model.js';
import { own } from '../../../vessel/lookup.js';
import { consumerAt } from '../loads/consumers.js';
import { terminalAt, type EdgeEnd } from '../protection/net.js';
import { prospectiveAt } from '../protection/prospective.js';
import { systemOn, voltsOn } from '../supply/circuitVolts.js';
import type { PlacedDevice, SupplyEdge, Terminal } from '../supply/graph.js';
import { chooseBreaker, chooseFuse } from './fuse.js';
import type { Parts, SizedDevice } from './sizing.js';

interface Through {
  readonly typicalAmps: number;
  readonly maxAmps: number;
}

export interface Protecting {
  readonly devices: readonly SizedDevice[];
  readonly unfitted: readonly string[];
}

/**
 * @param limitAmps - The largest rating for the wire; undefined where that is not known, and then nothing is worked out.
 */
export function protectionOf(
  parts: Parts,
  edge: SupplyEdge,
  through: Through,
  limitAmps: number | undefined,
): Protecting {
  const written = edge.devices.map((device): SizedDevice => ({ device, computed: false }));
  if (limitAmps === undefined || edge.conductor.cranking) return { devices: written, unfitted: [] };
  const unfitted: string[] = [];
  const fit = (device: PlacedDevice): PlacedDevice => {
    const end = device.end ?? 'from';
    const chosen = choose(parts, edge, device, end, loadBehind(parts, edge, end, through), limitAmps);
    if (chosen !== undefined) return { ...device, ...chosen };
    unfitted.push(terminalAt(edge, end) ?? edge.text);
    return device;
  };
  if (written.length > 0 || edge.conductor.protectedUpstream) {
    const devices = written.map((one): SizedDevice =>
      one.device.amps === undefined ? { device: fit(one.device), computed: true } : one,
    );
    return { devices, unfitted };
  }
  const devices = parts.protection
    .gapsOf(edge, limitAmps)
    .filter((gap) => gap.source.certain)
    .map((gap): SizedDevice => ({ device: fit(bare(parts, edge, gap.end, gap.at)), computed: true }));
  return { devices, unfitted };
}

/** The fuse to put at an end where there is none; undefined where none fits. Its text names no place in a panel's way. */
export function fuseAt(
  parts: Parts,
  edge: SupplyEdge,
  end: EdgeEnd,
  { through, limitAmps, at }: { readonly through: Through; readonly limitAmps: number; readonly at: string },
): PlacedDevice | undefined {
  const device = bare(parts, edge, end, at);
  const chosen = choose(parts, edge, device, end, loadBehind(parts, edge, end, through), limitAmps);
  return chosen === undefined ? undefined : { ...device, ...chosen };
}

/** What flows through a device at an end: of a leg its own, else of all. */
function loadBehind({ flowOf }: Parts, edge: SupplyEdge, end: EdgeEnd, through: Through): Through {
  return end === 'from' || edge.legs.length === 1 ? through : flowOf(edge, end);
}

/** A device that stands at an end where none is said. */
function bare({ supply }: Parts, edge: SupplyEdge, end: EdgeEnd, at: string): PlacedDevice {
  const terminal = terminalOf(supply.terminals, terminalAt(edge, end));
  const inWay = end === 'from' && terminal?.kind === 'port' && terminal.model.class === 'panel';
  return {
    protection: {
      device: 'fuse',
      amps: undefined,
      type: undefined,
      ratedVolts: undefined,
      interruptsAmps: undefined,
      at,
      afterMetres: undefined,
    },
    index: -1,
    end,
    elsewhere: false,
    amps: undefined,
    type: undefined,
    inWay,
    afterMetres: inWay ? 0 : undefined,
  };
}

function choose(
  parts: Parts,
  edge: SupplyEdge,
  device: PlacedDevice,
  end: EdgeEnd,
  load: Through,
  limitAmps: number,
): Pick<PlacedDevice, 'amps' | 'type'> | undefined {
  const { vessel, supply, lookup } = parts;
  const terminal = terminalOf(supply.terminals, terminalAt(edge, end));
  const way = device.inWay && terminal?.kind === 'port' ? terminal : undefined;
  const wayMost = way?.port.dc?.max?.unit === 'A' ? way.port.dc.max.amount : Infinity;
  const makers = edge.legs.flatMap((leg) =>
    end === 'from' || end === leg.index ? (consumerAt(supply, leg.to)?.port.dc?.fuseAmps ?? []) : [],
  );
  const [only] = makers;
  const single = edge.legs.length === 1 || end !== 'from';
  const limits = {
    continuousAmps: load.typicalAmps,
    maxAmps: load.maxAmps,
    wireLimitAmps: Math.min(limitAmps, wayMost, single ? Infinity : Math.min(Infinity, ...makers)),
    deviceLimitAmps: single ? only : undefined,
  };
  if (device.protection.device === 'breaker') return chooseBreaker(vessel, device, limits);
  const zone = terminal?.kind === 'port' ? lookup.zone(lookup.plugZone(terminal.device)) : undefined;
  const held = (way?.port.dc?.holds ?? []).flatMap((name): FuseType[] => {
    const type = own(vessel.fuseTypes, name);
    return type === undefined ? [] : [type];
  });
  const types = device.type !== undefined ? [device.type] : held.length > 0 ? held : undefined;
  const ground = { vessel, supply, protection: parts.protection };
  return chooseFuse(vessel, {
    ...limits,
    types,
    circuitVolts: voltsOn(supply, edge),
    nominalVolts: systemOn(supply, edge)?.nominalVolts,
    // A holder takes its own type whatever may flow; only a free choice asks for the current.
    prospectiveAmps: types === undefined ? prospectiveAt(ground, edge, end, parts.sizeOf).amps : undefined,
    ignition: zone?.fuel === 'petrol',
  });
}

function terminalOf(terminals: ReadonlyMap<string, Terminal>, id: string | undefined): Terminal | undefined {
  return id === undefined ? undefined : terminals.get(id);
}
