/** Which devices have power, as the boat lies: switches as their devices say, nothing charging. */
import type { Model, Port } from '../../vessel/model.js';
import type { Context } from '../context.js';
import type { SupplyEdge } from '../power/supply/graph.js';
import { dcDirection } from '../wiring/fit.js';
import { passesOn } from '../power/supply/banks.js';
import type { Cut, LostDrop } from './elements.js';

export interface Lit {
  /** Devices that have power, or need none that is known of. */
  readonly devices: ReadonlySet<string>;
  /** Backbones with power on every stretch that has a supply of its own when all is well. */
  readonly backbones: ReadonlySet<string>;
  /** Terminals that are live. */
  readonly terminals: ReadonlySet<string>;
}

export interface Outage {
  readonly devices: ReadonlySet<string>;
  readonly links: ReadonlySet<string>;
  readonly backbones: ReadonlySet<string>;
  readonly drop: LostDrop | undefined;
  readonly cuts: readonly Cut[];
}

export const ALL_WELL: Outage = {
  devices: new Set(),
  links: new Set(),
  backbones: new Set(),
  drop: undefined,
  cuts: [],
};

/** How a device comes by its power. */
interface Taker {
  readonly name: string;
  /** Terminals of which one has to be live; empty where it takes none directly. */
  readonly inputs: readonly string[];
  /** Devices at the other ends of links that may power it, with the link. */
  readonly through: readonly { readonly device: string; readonly link: string }[];
  /** Backbones that power it; each with the terminals of their supply. */
  readonly buses: readonly string[];
}

/**
 * Make the question of who has power. A device that has several ways to it has power while one is left. Sources are batteries; where
 * none is aboard, whatever gives current.
 */
export function createLights(context: Context): (outage: Outage) => Lit {
  const { vessel, supply, lookup } = context;
  const banks = supply.banks.flatMap((bank) =>
    bank.terminals.map((terminal) => ({ device: bank.device, terminal })),
  );
  const outputs = supply.outputs.filter((output) => output.kind !== 'converter');
  const sources = banks.length > 0 ? banks : outputs;
  const state = supply.stateIn();
  const takers = vessel.devices
    .filter((device) => !device.leaving && lookup.device(device.name) === device)
    .map((device) => takerOf(context, device.name, lookup.modelOf(device.name)));
  const stretches = new Map(
    vessel.backbones.map((backbone) => [
      backbone.name,
      [...supply.terminals.values()].flatMap((terminal) =>
        terminal.kind === 'bus' && terminal.backbone === backbone && supply.edgesAt(terminal.id).length > 0
          ? [terminal.id]
          : [],
      ),
    ]),
  );
  const deviceOf = (terminal: string): string | undefined => {
    const found = supply.terminals.get(terminal);
    return found?.kind === 'port' ? found.device : undefined;
  };

  return (outage) => {
    const cut = new Map<string, Set<number | undefined>>();
    for (const { edge, leg } of outage.cuts) cut.set(edge, (cut.get(edge) ?? new Set()).add(leg));
    const dead = (terminal: string | undefined): boolean => {
      if (terminal === undefined) return true;
      const device = deviceOf(terminal);
      return device !== undefined && outage.devices.has(device);
    };
    const live = new Set<string>();
    const queue: string[] = [];
    const put = (terminal: string | undefined): void => {
      if (terminal === undefined || live.has(terminal) || dead(terminal)) return;
      live.add(terminal);
      queue.push(terminal);
    };
    for (const { terminal } of sources) put(terminal);
    for (const terminal of queue) {
      for (const join of supply.joinsAt(terminal)) {
        // One that may be open or closed is not said to fail for it.
        if (state.closed(join) === false) continue;
        const oneWay = join.kind === 'diode' || join.kind === 'converter';
        if (!oneWay || join.a === terminal) put(join.a === terminal ? join.b : join.a);
      }
      for (const edge of supply.edgesAt(terminal)) {
        // With what it begins at, a conductor is gone.
        if (dead(edge.from)) continue;
        for (const end of along(edge, terminal, cut.get(edge.origin))) put(end);
      }
    }
    const backbones = new Set<string>();
    for (const [name, ids] of stretches)
      if (!outage.backbones.has(name) && ids.every((id) => live.has(id))) backbones.add(name);
    return { devices: lightUp(takers, live, backbones, outage), backbones, terminals: live };
  };
}

/** The other ends of a conductor that a terminal still reaches. */
function along(
  edge: SupplyEdge,
  terminal: string,
  cut: ReadonlySet<number | undefined> | undefined,
): readonly (string | undefined)[] {
  if (cut?.has(undefined)) return [];
  const legs = edge.legs.filter((leg) => !cut?.has(leg.index));
  const reached = [edge.from, ...legs.map((leg) => leg.to)];
  return reached.includes(terminal) ? reached : [];
}

/** Power goes on from device to device: over ethernet, or by a plug that carries it. */
function lightUp(
  takers: readonly Taker[],
  live: ReadonlySet<string>,
  backbones: ReadonlySet<string>,
  outage: Outage,
): ReadonlySet<string> {
  const { drop } = outage;
  const lit = new Set<string>();
  const waiting = new Set(takers.filter((taker) => !outage.devices.has(taker.name)));
  for (let again = true; again;) {
    again = false;
    for (const taker of waiting) {
      const { inputs, through, buses } = taker;
      const needsNone = inputs.length + through.length + buses.length === 0;
      const has =
        needsNone ||
        inputs.some((terminal) => live.has(terminal)) ||
        through.some(({ device, link }) => lit.has(device) && !outage.links.has(link)) ||
        buses.some(
          (name) => backbones.has(name) && !(drop?.backbone === name && drop.devices.includes(taker.name)),
        );
      if (!has) continue;
      lit.add(taker.name);
      waiting.delete(taker);
      again = true;
    }
  }
  return lit;
}

function takerOf({ supply, wiring }: Context, name: string, model: Model | undefined): Taker {
  // What only passes current on is not said to be dark: what hangs on it is.
  const ports = model === undefined || passesOn(model.class) ? [] : model.ports;
  const takes = (port: Port): boolean =>
    port.medium === 'dc' && dcDirection(port) === 'in' && port.dc?.cranks === undefined;
  const inputs = ports
    .filter(takes)
    .map((port) => `${name}.${port.name}`)
    .filter((terminal) => supply.edgesAt(terminal).length > 0);
  const through = wiring.linksAt(name).flatMap(({ link, a, b, state }) => {
    if (state !== 'made') return [];
    const [own, other] = a?.device === name ? [a, b] : [b, a];
    if (own === undefined || other === undefined) return [];
    const powered = own.port.powered || (own.port.poe?.role === 'wants' && other.port.poe?.role === 'gives');
    return powered ? [{ device: other.device, link: link.origin }] : [];
  });
  // What has no input of its own lives on its bus.
  const onBus = inputs.length + through.length === 0 && !ports.some(takes);
  const buses = onBus
    ? wiring.backbones
        .filter(
          ({ members, backbone }) =>
            members.some((one) => one.device === name) && backbone.items.some((item) => item.kind === 'tap'),
        )
        .map(({ backbone }) => backbone.name)
    : [];
  return { name, inputs, through, buses };
}
