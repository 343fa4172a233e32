/**
 * The least voltage at each device with any one thing failed, the banks at their lowest. What only loses loads leaves more for the
 * rest, so that only outages which take a source or one of two ways are solved again.
 */
import type { Mode } from '../../vessel/model.js';
import type { VoltageEnvelope } from '../analysis.js';
import type { Context } from '../context.js';
import { wayMissing } from '../power/circuit/unsure.js';
import type { Circuits } from '../power/circuit/circuits.js';
import { BUS_LEAST_VOLTS } from '../buses/units.js';
import { consumerAt } from '../power/loads/consumers.js';
import type { Element } from './elements.js';
import type { Outage } from './lit.js';
import { lowers, remainsOf } from './remains.js';

interface Taken {
  readonly element: Element;
  readonly outage: Outage;
  /** Devices that have no power then. */
  readonly dark: readonly string[];
}

/** A device by the terminal that it lives on. */
interface Place {
  readonly device: string;
  readonly terminal: string;
  readonly origin: string;
  readonly floorVolts: number | undefined;
  /** What is lost on the backbone from the tap to it. */
  readonly lostVolts: number;
}

interface Reading {
  readonly volts: number;
  readonly mode: Mode | undefined;
}

type Readings = ReadonlyMap<string, Reading | 'collapsed'>;

export function computeVoltages(context: Context, taken: readonly Taken[]): readonly VoltageEnvelope[] {
  const places = placesOf(context);
  const modes = context.loads.modes;
  const normal = leastOf(context.circuits, modes);
  const lowest = new Map<string, Reading & { readonly by: string }>();
  const collapsing = new Map<string, string[]>();
  for (const { element, outage, dark } of taken) {
    if (!lowers(context.supply, outage)) continue;
    const remains = remainsOf(context, outage);
    if (remains === undefined) continue;
    const after = leastOf(remains.circuits(), modes);
    for (const { device, terminal } of places) {
      if (outage.devices.has(device) || dark.includes(device)) continue;
      const found = after.get(terminal);
      const key = `${device} ${terminal}`;
      if (found === 'collapsed') {
        if (normal.get(terminal) !== 'collapsed')
          collapsing.set(key, [...(collapsing.get(key) ?? []), element.name]);
      } else if (found !== undefined && found.volts < (lowest.get(key)?.volts ?? Infinity) - LEAST_VOLTS)
        lowest.set(key, { ...found, by: element.name });
    }
  }
  return places.map(({ device, terminal, origin, floorVolts, lostVolts }): VoltageEnvelope => {
    const key = `${device} ${terminal}`;
    const whole = normal.get(terminal);
    const before = whole === 'collapsed' ? undefined : whole;
    const failed = lowest.get(key);
    // Of a supply that collapses with everything aboard, there is nothing to say with less.
    const isLower =
      whole !== 'collapsed' &&
      failed !== undefined &&
      failed.volts < (before?.volts ?? Infinity) - LEAST_VOLTS;
    const least = isLower ? failed : before;
    return {
      device,
      terminal,
      spot: { origin },
      floorVolts,
      normalVolts: before && before.volts - lostVolts,
      lowestVolts: least && least.volts - lostVolts,
      mode: least?.mode?.name,
      failure: isLower ? failed.by : undefined,
      collapsing: collapsing.get(key) ?? [],
      darkBy: taken.filter(({ dark }) => dark.includes(device)).map(({ element }) => element.name),
      reason: reasonOf(context, terminal, whole),
    };
  });
}

/** Differences below this are those of the solver. */
const LEAST_VOLTS = 1e-6;

/** The least voltage of any mode at every load that is on in it. */
function leastOf(circuits: Circuits, modes: readonly (Mode | undefined)[]): Readings {
  const least = new Map<string, Reading | 'collapsed'>();
  for (const mode of modes)
    for (const { solution, circuit } of circuits.parts(mode, { kind: 'lowest' })) {
      if (solution.kind === 'collapsed') for (const { id } of circuit.loads) least.set(id, 'collapsed');
      if (solution.kind !== 'solved') continue;
      for (const [id, volts] of solution.loadVolts) {
        const known = least.get(id);
        if (known !== 'collapsed' && volts < (known?.volts ?? Infinity)) least.set(id, { volts, mode });
      }
    }
  return least;
}

/** Devices with a dc input, and those that live on a backbone, in the order of the spec. */
function placesOf({ vessel, supply, lookup, buses }: Context): readonly Place[] {
  const onBuses = buses.flatMap(({ fed }) =>
    fed().flatMap(({ stretch, drops }) =>
      stretch.nodes.map((node) => ({ node, terminal: stretch.id, lostVolts: drops.nodes.get(node) ?? 0 })),
    ),
  );
  return vessel.devices.flatMap((device): readonly Place[] => {
    const { name, origin, leaving } = device;
    const model = lookup.modelOf(name);
    if (leaving || model === undefined || lookup.device(name) !== device) return [];
    const own = model.ports.flatMap((port): readonly Place[] => {
      const terminal = `${name}.${port.name}`;
      const consumer = consumerAt(supply, terminal);
      if (consumer === undefined || port.dc?.cranks !== undefined || supply.edgesAt(terminal).length === 0)
        return [];
      return [{ device: name, terminal, origin, floorVolts: port.dc?.inVolts?.low, lostVolts: 0 }];
    });
    if (own.length > 0 || model.ports.some((port) => port.medium === 'dc' || port.powered)) return own;
    return onBuses
      .filter(({ node }) => node.device === name)
      .map(({ terminal, lostVolts }) => ({
        device: name,
        terminal,
        origin,
        floorVolts: BUS_LEAST_VOLTS,
        lostVolts,
      }));
  });
}

/** Why the voltage of a terminal is not known, or no more than a bound from above. */
function reasonOf(
  context: Context,
  terminal: string,
  whole: Reading | 'collapsed' | undefined,
): string | undefined {
  if (whole === 'collapsed') return 'its supply collapses with everything aboard';
  const { loads, circuits } = context;
  let isOn = false;
  for (const mode of loads.modes) {
    const load = loads.loadsIn(mode).at(terminal);
    if (load === undefined || load.state === 'off') continue;
    isOn = true;
    const missing =
      load.missing ?? wayMissing(context, terminal, circuits.solvedAt(mode, { kind: 'lowest' }, terminal));
    if (missing !== undefined) return missing;
  }
  if (whole !== undefined) return undefined;
  return isOn ? 'nothing supplies it, or it draws nothing that is known of' : 'no mode has it on';
}
