/** What is sent on each backbone, how often, and how full that makes it. */
import type { Port, Vessel } from '../../vessel/model.js';
import { BUS_BITS_PER_SECOND } from '../../vessel/can.js';
import { own, type Lookup } from '../../vessel/lookup.js';
import type { Spot } from '../../vessel/origin.js';
import { messageBits, pgnOf, standingOf } from '../../vessel/pgns/pgns.js';
import { carriageOf, covers } from '../../vessel/signals.js';
import { compareText } from '../../vessel/words.js';
import { isTargetReport, isTargetSignal, targetTraffic } from './ais.js';
import type { Bus, BusNode } from './bus.js';

/** A message that a device sends. */
export interface Sent {
  /** Who sends it at first. */
  readonly device: string;
  /** The signal that it carries; undefined where the port says its messages. */
  readonly signal: string | undefined;
  /** Undefined for the reports of other vessels, which are several messages. */
  readonly pgn: number | undefined;
  readonly name: string;
  /** Undefined for one that is sent on request or when something happens: it is not reckoned. */
  readonly hertz: number | undefined;
  /** Bits a second. */
  readonly worst: number;
  readonly typical: number;
}

/** A message on a bus: by its sender, or by a gateway that lets it through. */
export interface Carried extends Sent {
  readonly by: string;
}

export interface Traffic {
  readonly messages: readonly Carried[];
  /** Bits a second. */
  readonly worst: number;
  readonly typical: number;
  /** Shares of 250 kbit/s, 0 to 1 and more. */
  readonly worstShare: number;
  readonly typicalShare: number;
  /** Who puts most on it, at most five. */
  readonly talkers: readonly { readonly device: string; readonly share: number }[];
  readonly missing: readonly { readonly at: Spot; readonly text: string }[];
}

interface Sources {
  readonly sent: readonly Sent[];
  readonly missing: Traffic['missing'];
}

/** The traffic of every bus, by its name. `fromLines` says what gateways bring from NMEA 0183. */
export function trafficOf(
  vessel: Vessel,
  lookup: Lookup,
  buses: readonly Bus[],
  fromLines: ReadonlyMap<
    string,
    readonly { readonly device: string; readonly signal: string; readonly by: string }[]
  >,
): ReadonlyMap<string, Traffic> {
  const owned = new Map(buses.map((bus) => [bus.name, ownTraffic(vessel, bus)]));
  const carried = new Map<string, Map<string, Carried>>(
    buses.map((bus) => [bus.name, new Map<string, Carried>()]),
  );
  const put = (bus: string, message: Carried): boolean => {
    const list = carried.get(bus);
    const key = `${message.device} ${message.signal ?? ''} ${message.pgn ?? ''}`;
    if (list === undefined || list.has(key)) return false;
    list.set(key, message);
    return true;
  };
  const fresh: (readonly [bus: string, message: Carried])[] = [];
  const add = (bus: string, message: Carried): void => {
    if (put(bus, message)) fresh.push([bus, message]);
  };
  for (const [bus, { sent }] of owned)
    for (const message of sent) add(bus, { ...message, by: message.device });
  for (const [bus, list] of fromLines)
    for (const { device, signal, by } of list) {
      const give = lookup.modelOf(device)?.gives.find((one) => one.signal === signal);
      for (const message of ofSignal(vessel, device, signal, give?.hertz).sent) add(bus, { ...message, by });
    }
  // Gateways pass on what they hear, and each bus takes a message once: so a ring of them comes to rest.
  const gateways = gatewaysOf(lookup, buses);
  for (const [bus, message] of fresh)
    for (const gateway of gateways.get(bus) ?? [])
      if (gateway.device !== message.device && gateway.lets(message))
        add(gateway.to, { ...message, by: gateway.device });

  return new Map(
    buses.map((bus) => [
      bus.name,
      summed([...(carried.get(bus.name)?.values() ?? [])], owned.get(bus.name)?.missing ?? []),
    ]),
  );
}

function summed(messages: readonly Carried[], missing: Traffic['missing']): Traffic {
  const shares = new Map<string, number>();
  let [worst, typical] = [0, 0];
  for (const message of messages) {
    worst += message.worst;
    typical += message.typical;
    shares.set(message.by, (shares.get(message.by) ?? 0) + message.worst / BUS_BITS_PER_SECOND);
  }
  return {
    messages,
    worst,
    typical,
    worstShare: worst / BUS_BITS_PER_SECOND,
    typicalShare: typical / BUS_BITS_PER_SECOND,
    talkers: [...shares]
      .map(([device, share]) => ({ device, share }))
      .filter(({ share }) => share > 0)
      .sort((a, b) => b.share - a.share || compareText(a.device, b.device))
      .slice(0, 5),
    missing,
  };
}

interface Gate {
  readonly device: string;
  readonly to: string;
  readonly lets: (message: Carried) => boolean;
}

/** Who lets messages of a bus through to another. */
function gatewaysOf(lookup: Lookup, buses: readonly Bus[]): ReadonlyMap<string, readonly Gate[]> {
  const gates = new Map<string, Gate[]>();
  const busAt = new Map(
    buses.flatMap((bus) =>
      bus.nodes.flatMap((node) =>
        node.port === undefined ? [] : [[`${node.device}.${node.port.name}`, bus.name] as const],
      ),
    ),
  );
  for (const bus of buses)
    for (const { device, model, port } of bus.nodes)
      for (const passing of model?.passes ?? []) {
        if (port === undefined || !passing.from.includes(port.name)) continue;
        const to = busAt.get(`${device}.${passing.to}`);
        if (to === undefined || to === bus.name || lookup.portOf(device, passing.to) === undefined) continue;
        const { filter } = passing;
        const lets = ({ pgn }: Carried): boolean =>
          filter === undefined ||
          pgn === undefined ||
          filter.messages.includes(String(pgn)) === (filter.kind === 'with');
        const list = gates.get(bus.name) ?? [];
        gates.set(bus.name, [...list, { device, to, lets }]);
      }
  return gates;
}

function ownTraffic(vessel: Vessel, bus: Bus): Sources {
  const all = bus.nodes.map((node) => sentBy(vessel, node));
  return { sent: all.flatMap(({ sent }) => sent), missing: all.flatMap(({ missing }) => missing) };
}

/** What a device sends: as its port says, else what carries the signals that it gives. */
function sentBy(vessel: Vessel, node: BusNode): Sources {
  const { device, model, port, spot } = node;
  if (model === undefined)
    return { sent: [], missing: [{ at: spot, text: `the model of ${device} is not known` }] };
  if (port !== undefined && port.sends.length > 0) return declared(vessel, device, port, spot);
  // Of two signals in one message the one that covers the other stands for both.
  const signals = model.gives.filter(
    ({ signal }, index) =>
      !model.gives.some(
        (other, at) =>
          at !== index &&
          covers(other.signal, signal) &&
          other.signal !== signal &&
          samePgn(vessel, other.signal, signal),
      ),
  );
  const sent: Sent[] = [];
  const missing: { readonly at: Spot; readonly text: string }[] = [];
  let targets = false;
  for (const { signal, hertz } of signals) {
    if (isTargetSignal(signal) && hertz === undefined) {
      targets = true;
      continue;
    }
    const found = ofSignal(vessel, device, signal, hertz);
    sent.push(...found.sent);
    missing.push(...found.missing.map(({ text }) => ({ at: spot, text })));
  }
  if (targets) withTargets(vessel, device, spot, sent, missing);
  return { sent, missing };
}

const samePgn = (vessel: Vessel, first: string, second: string): boolean =>
  carriageOf(vessel, first)?.pgns[0] === carriageOf(vessel, second)?.pgns[0];

function declared(vessel: Vessel, device: string, port: Port, spot: Spot): Sources {
  const sent: Sent[] = [];
  const missing: { readonly at: Spot; readonly text: string }[] = [];
  let targets = false;
  for (const { message, hertz } of port.sends) {
    const pgn = Number(message);
    if (isTargetReport(pgn) && hertz === undefined) {
      targets = true;
      continue;
    }
    const entry = pgnOf(pgn);
    // A number that cannot be or that the table lacks has a rule of its own.
    if (entry === undefined) {
      if (standingOf(pgn) === 'proprietary')
        missing.push({
          at: spot,
          text: `message ${message} of ${device} is its maker's own, of unknown length`,
        });
    } else sent.push(sentAs(device, undefined, entry.pgn, hertz));
  }
  if (targets) withTargets(vessel, device, spot, sent, missing);
  return { sent, missing };
}

function ofSignal(vessel: Vessel, device: string, signal: string, hertz: number | undefined): Sources {
  const carried = carriageOf(vessel, signal);
  if (carried === undefined)
    return {
      sent: [],
      missing: [{ at: { origin: vessel.origin }, text: `signal ${signal} is not in the library` }],
    };
  const usual = own(vessel.signals, signal)?.hertz;
  return {
    sent: [...new Set(carried.pgns)].flatMap((pgn) =>
      pgnOf(pgn) === undefined ? [] : [sentAs(device, signal, pgn, hertz ?? usual)],
    ),
    missing: [],
  };
}

/** A message at its rate, else at its usual interval. */
function sentAs(device: string, signal: string | undefined, pgn: number, hertz: number | undefined): Sent {
  const entry = pgnOf(pgn);
  const interval = entry?.intervalSeconds;
  const rate = hertz ?? (interval === undefined ? undefined : 1 / interval);
  const bits = entry === undefined ? { worst: 0, typical: 0 } : messageBits(entry);
  return {
    device,
    signal,
    pgn,
    name: entry?.name ?? `message ${pgn}`,
    hertz: rate,
    worst: bits.worst * (rate ?? 0),
    typical: bits.typical * (rate ?? 0),
  };
}

function withTargets(
  vessel: Vessel,
  device: string,
  spot: Spot,
  sent: Sent[],
  missing: { readonly at: Spot; readonly text: string }[],
): void {
  const { aisTargets } = vessel;
  if (aisTargets === undefined) {
    missing.push({
      at: spot,
      text: `the vessel does not say how many AIS targets to reckon with ("targets")`,
    });
    return;
  }
  const { messagesPerSecond, worst, typical } = targetTraffic(aisTargets);
  sent.push({
    device,
    signal: 'ais',
    pgn: undefined,
    name: `reports of ${aisTargets} AIS targets`,
    hertz: messagesPerSecond,
    worst,
    typical,
  });
}
