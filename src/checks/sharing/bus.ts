/** Where a signal gets to over NMEA 2000 backbones, NMEA 0183 lines and the gateways between them. */
import type { Model, Passing, Port, Vessel } from '../../vessel/model.js';
import type { Lookup } from '../../vessel/lookup.js';
import { passed, sending, type Sending, type Sent } from '../../vessel/messages.js';
import { compareText } from '../../vessel/words.js';
import type { Spot } from '../../vessel/origin.js';
import { talksTo } from '../wiring/fit.js';
import type { Wiring } from '../wiring/wiring.js';

/** How a signal came to a device. */
export interface Arrival {
  readonly device: string;
  readonly port: Port | undefined;
  /** The device it came from. */
  readonly from: string;
  readonly over: string;
  readonly spot: Spot;
  /** The messages that bring it, by every way. */
  readonly sent: readonly Sent[];
}

export interface BusReach {
  /** The first arrival at each device. */
  readonly arrivals: ReadonlyMap<string, Arrival>;
  /** What the spec does not say about the way, where something is open; null where nothing is. */
  readonly doubt: string | null;
  /** A gateway that it comes to and that does not say what it passes; null where there is none. */
  readonly silent: string | null;
}

export interface Buses {
  /** The source is on some backbone, or talks on some line. */
  readonly isOnBus: (device: string) => boolean;
  /** Whether the source sends the signal on some bus that it is on; null, with the reason, where that is not known. */
  readonly travels: (
    source: string,
    signal: string,
  ) => { readonly holds: boolean | null; readonly doubt: string | null };
  readonly reach: (source: string, signal: string, off: ReadonlySet<string>) => BusReach;
  /** What would have to be known of a way to a device that a signal is not known to come to; null where there can be none. */
  readonly doubtOf: (source: string, signal: string, device: string) => string | null;
  /** Gateways that hold a signal back, on a way by which it would else come from a source to a device. */
  readonly heldBy: (source: string, signal: string, device: string) => readonly string[];
  readonly backbonesOf: (device: string) => readonly string[];
}

interface Member {
  readonly device: string;
  readonly port: Port | undefined;
  readonly spot: Spot;
}

interface Line {
  readonly to: string;
  readonly port: Port;
  readonly spot: Spot;
}

interface PortSending {
  readonly port: Port;
  /** Undefined on a line. */
  readonly backbone: string | undefined;
  readonly sending: Sending;
}

/** What a search takes for granted that the spec does not say. */
interface Supposed {
  /** Gateways that let nothing of it through, which are taken to let all through: the search names them here. */
  readonly held?: Set<string>;
  /** Gateways that do not say what they pass, pass everything everywhere. */
  readonly hoping?: boolean;
}

const NONE: ReadonlySet<string> = new Set();

/** From every port to every other. */
function allPasses({ ports }: Model): readonly Passing[] {
  return ports.map(({ name }) => ({
    from: ports.flatMap((port) => (port.name === name ? [] : [port.name])),
    to: name,
    filter: undefined,
  }));
}

/** Index the buses of a vessel. */
export function createBuses(vessel: Vessel, lookup: Lookup, wiring: Wiring): Buses {
  const isGone = (device: string): boolean => lookup.device(device)?.leaving ?? true;
  const members = new Map<string, readonly Member[]>();
  const openBackbones = new Set<string>();
  const memberships = new Map<string, { readonly backbone: string; readonly port: Port | undefined }[]>();
  for (const wired of wiring.backbones) {
    const { name } = wired.backbone;
    const present = wired.members
      .filter((member) => !isGone(member.device))
      .sort((x, y) => compareText(x.device, y.device));
    members.set(name, present);
    if (wired.open) openBackbones.add(name);
    for (const member of present) add(memberships, member.device, { backbone: name, port: member.port });
  }
  const lines = new Map<string, Line[]>();
  const talking = new Map<string, Set<string>>();
  const openTalkers = new Set<string>();
  for (const wired of [...wiring.links].sort((x, y) => compareText(x.link.origin, y.link.origin))) {
    if (wired.medium !== 'nmea0183') continue;
    if (wired.state === 'open') {
      for (const end of [wired.link.a, wired.link.b])
        if (end.device !== undefined) openTalkers.add(end.device);
    }
    const { a, b } = wired;
    if (wired.state !== 'made' || a === undefined || b === undefined || isGone(a.device) || isGone(b.device))
      continue;
    for (const [from, to] of [
      [a, b],
      [b, a],
    ] as const) {
      if (!talksTo(from.port, to.port)) continue;
      add(lines, `${from.device}.${from.port.name}`, {
        to: to.device,
        port: to.port,
        spot: { origin: wired.link.origin },
      });
      const ports = talking.get(from.device) ?? new Set();
      talking.set(from.device, ports.add(from.port.name));
    }
  }
  for (const list of lines.values()) list.sort((x, y) => compareText(x.to, y.to));

  const known = new Map<string, BusReach>();

  /** What a source sends of a signal, port by port. */
  const workSends = (source: string, signal: string): readonly PortSending[] => {
    const model = lookup.modelOf(source);
    if (model === undefined) return [];
    const on = (port: Port | undefined, backbone: string | undefined): readonly PortSending[] =>
      port === undefined ? [] : [{ port, backbone, sending: sending(vessel, model, port, signal) }];
    const bus = model.ports.find((port) => port.medium === 'nmea2000');
    return [
      ...(memberships.get(source) ?? []).flatMap((one) => on(one.port ?? bus, one.backbone)),
      ...[...(talking.get(source) ?? [])].flatMap((name) => on(lookup.portOf(source, name), undefined)),
    ];
  };
  const sendings = new Map<string, Map<string, readonly PortSending[]>>();
  const sends = (source: string, signal: string): readonly PortSending[] => {
    const bySignal = sendings.get(source) ?? new Map<string, readonly PortSending[]>();
    sendings.set(source, bySignal);
    let sent = bySignal.get(signal);
    if (sent === undefined) bySignal.set(signal, (sent = workSends(source, signal)));
    return sent;
  };

  const search = (
    source: string,
    signal: string,
    off: ReadonlySet<string>,
    { held, hoping = false }: Supposed = {},
  ): BusReach => {
    const arrivals = new Map<string, Arrival>();
    const visited = new Set<string>();
    const queue: Arrival[] = [];
    let doubt: string | null = null;
    let silent: string | null = null;
    if (lookup.signal(signal) === undefined)
      return { arrivals, doubt: `signal ${signal} is not in the library`, silent };
    const arrive = (arrival: Omit<Arrival, 'sent'>, sent: readonly Sent[]): void => {
      const messages = sent.map(({ message, hertz }) => `${message}@${hertz ?? ''}`).sort();
      const key = `${arrival.device}.${arrival.port?.name ?? ''} ${messages.join(' ')}`;
      if (arrival.device === source || visited.has(key)) return;
      visited.add(key);
      const first = arrivals.get(arrival.device);
      arrivals.set(
        arrival.device,
        first === undefined ? { ...arrival, sent } : { ...first, sent: [...first.sent, ...sent] },
      );
      queue.push({ ...arrival, sent });
    };
    const ontoBackbone = (from: string, name: string, sent: readonly Sent[]): void => {
      if (sent.length === 0) return;
      if (openBackbones.has(name)) doubt ??= `something on backbone ${name} is not declared`;
      // A device does not hear what it sends itself.
      for (const member of members.get(name) ?? [])
        if (member.device !== from) arrive({ ...member, from, over: `backbone ${name}` }, sent);
    };
    const ontoLine = (from: string, port: string, sent: readonly Sent[]): void => {
      if (sent.length === 0) return;
      for (const line of lines.get(`${from}.${port}`) ?? []) {
        const over = `the NMEA 0183 line from ${from}.${port}`;
        arrive({ device: line.to, port: line.port, from, over, spot: line.spot }, sent);
      }
    };
    for (const { port, backbone, sending: own } of sends(source, signal)) {
      doubt ??= own.doubt;
      if (backbone !== undefined) ontoBackbone(source, backbone, own.sent);
      else ontoLine(source, port.name, own.sent);
    }
    if (openTalkers.has(source)) doubt ??= `a line of ${source} is not settled`;
    for (const arrival of queue) {
      const model = lookup.modelOf(arrival.device);
      if (model === undefined || off.has(arrival.device)) continue;
      const isSilent = model.class === 'gateway' && model.passes.length === 0;
      if (isSilent) silent ??= `${model.name} does not say what it passes`;
      for (const passing of isSilent && hoping ? allPasses(model) : model.passes) {
        if (arrival.port === undefined || !passing.from.includes(arrival.port.name)) continue;
        const to = lookup.portOf(arrival.device, passing.to);
        if (to === undefined) continue;
        const { medium } = arrival.port;
        let out = passed(vessel, passing, medium, to, signal, arrival.sent);
        if (out.length === 0 && held !== undefined) {
          held.add(arrival.device);
          const all = { ...passing, filter: undefined };
          out = passed(vessel, all, medium, { ...to, sends: [] }, signal, arrival.sent);
        }
        if (out.length === 0) continue;
        if (to.medium === 'nmea0183') {
          ontoLine(arrival.device, to.name, out);
          if (openTalkers.has(arrival.device)) doubt ??= `a line of ${arrival.device} is not settled`;
        }
        if (to.medium === 'nmea2000') {
          for (const membership of memberships.get(arrival.device) ?? []) {
            if (membership.port?.name === to.name) ontoBackbone(arrival.device, membership.backbone, out);
          }
        }
      }
    }
    return { arrivals, doubt, silent };
  };
  const reach = (source: string, signal: string, off: ReadonlySet<string>): BusReach => {
    const key = off.size === 0 ? `${source}\n${signal}` : [source, signal, ...[...off].sort()].join('\n');
    let found = known.get(key);
    if (found === undefined) known.set(key, (found = search(source, signal, off)));
    return found;
  };
  const supposed = new Map<string, BusReach>();
  const suppose = (source: string, signal: string, key: string, how: Supposed): BusReach => {
    const whole = [key, source, signal].join('\n');
    let found = supposed.get(whole);
    if (found === undefined) supposed.set(whole, (found = search(source, signal, NONE, how)));
    return found;
  };
  const heldOf = new Map<string, Set<string>>();

  return {
    isOnBus: (device) => memberships.has(device) || talking.has(device),
    travels: (source, signal) => {
      if (lookup.signal(signal) === undefined)
        return {
          holds: null,
          doubt: `signal ${signal} is not in the library, so whether a bus carries it is not known`,
        };
      const sent = sends(source, signal);
      if (sent.some((one) => one.sending.sent.length > 0)) return { holds: true, doubt: null };
      const doubt = sent.find((one) => one.sending.doubt !== null)?.sending.doubt ?? null;
      return { holds: doubt === null ? false : null, doubt };
    },
    reach,
    doubtOf: (source, signal, device) => {
      const { doubt, silent } = reach(source, signal, NONE);
      if (doubt !== null || silent === null) return doubt;
      const hoped = suppose(source, signal, 'hoping', { hoping: true });
      return hoped.arrivals.has(device) ? silent : hoped.doubt;
    },
    heldBy: (source, signal, device) => {
      const key = `${source}\n${signal}`;
      const gates = heldOf.get(key) ?? new Set<string>();
      heldOf.set(key, gates);
      const { arrivals } = suppose(source, signal, 'unheld', { held: gates });
      const names: string[] = [];
      for (let at = arrivals.get(device); at !== undefined && at.from !== source; at = arrivals.get(at.from))
        if (gates.has(at.from)) names.unshift(at.from);
      return names;
    },
    backbonesOf: (device) => (memberships.get(device) ?? []).map((membership) => membership.backbone),
  };
}

function add<T>(table: Map<string, T[]>, key: string, item: T): void {
  const list = table.get(key);
  if (list === undefined) table.set(key, [item]);
  else list.push(item);
}
