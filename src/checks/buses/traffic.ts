/** What is sent on each backbone, how often, and how full that makes it. */
import type { Model, Port, Vessel } from '../../vessel/model.js';
import { BUS_BITS_PER_SECOND } from '../../vessel/can.js';
import { own, type Lookup } from '../../vessel/lookup.js';
import type { Spot } from '../../vessel/origin.js';
import { messageBits, pgnOf, standingOf } from '../../vessel/pgns/pgns.js';
import { carriageOf, covers } from '../../vessel/signals.js';
import { compareText } from '../../vessel/words.js';
import { isTargetReport, isTargetSignal, targetTraffic } from './ais.js';
import type { Bus } from './bus.js';

/** A message as any device may send it. */
interface Kind {
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

/** A message on a bus. */
export interface Carried extends Kind {
  /** Who sends it at first. */
  readonly device: string;
  /** Its sender, or a gateway that lets it through. */
  readonly by: string;
}

/** What every device of a model sends. */
interface Plan {
  readonly kinds: readonly Kind[];
  /** It reports other vessels. */
  readonly targets: boolean;
  readonly missing: readonly string[];
}

/** Field by field: there are hundreds of them at every key stroke. */
function sentBy(kind: Kind, device: string, by: string): Carried {
  const { signal, pgn, name, hertz, worst, typical } = kind;
  return { device, signal, pgn, name, hertz, worst, typical, by };
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
  readonly sent: readonly Carried[];
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
  const plans = new Map<Model, Plan>();
  const owned = new Map(buses.map((bus) => [bus.name, ownTraffic(vessel, bus, plans)]));
  const carried = new Map<string, Map<string, Carried>>(
    buses.map((bus) => [bus.name, new Map<string, Carried>()]),
  );
  const fresh: (readonly [bus: string, message: Carried])[] = [];
  const add = (bus: string, message: Carried): void => {
    const list = carried.get(bus);
    const key = `${message.device} ${message.signal ?? ''} ${message.pgn ?? ''}`;
    if (list === undefined || list.has(key)) return;
    list.set(key, message);
    fresh.push([bus, message]);
  };
  for (const [bus, { sent }] of owned) for (const message of sent) add(bus, message);
  for (const [bus, list] of fromLines)
    for (const { device, signal, by } of list) {
      const give = lookup.modelOf(device)?.gives.find((one) => one.signal === signal);
      for (const kind of ofSignal(vessel, signal, give?.hertz).kinds) add(bus, sentBy(kind, device, by));
    }
  // Gateways pass on what they hear, and each bus takes a message once: so a ring of them comes to rest.
  const gateways = gatewaysOf(lookup, buses);
  for (const [bus, message] of fresh)
    for (const gateway of gateways.get(bus) ?? [])
      if (gateway.device !== message.device && gateway.lets(message))
        add(gateway.to, sentBy(message, message.device, gateway.device));

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

function ownTraffic(vessel: Vessel, bus: Bus, plans: Map<Model, Plan>): Sources {
  const sent: Carried[] = [];
  const missing: { readonly at: Spot; readonly text: string }[] = [];
  for (const { device, model, port, spot } of bus.nodes) {
    if (model === undefined) {
      missing.push({ at: spot, text: `the model of ${device} is not known` });
      continue;
    }
    const states = port !== undefined && port.sends.length > 0;
    const plan = states ? declared(device, port) : (plans.get(model) ?? givenBy(vessel, model));
    if (!states) plans.set(model, plan);
    for (const kind of plan.kinds) sent.push(sentBy(kind, device, device));
    for (const text of plan.missing) missing.push({ at: spot, text });
    if (!plan.targets) continue;
    if (vessel.aisTargets === undefined)
      missing.push({
        at: spot,
        text: `the vessel does not say how many AIS targets to reckon with ("targets")`,
      });
    else sent.push(sentBy(reportsOf(vessel.aisTargets), device, device));
  }
  return { sent, missing };
}

/** What carries the signals that a model gives. Of two in one message the one that covers the other stands for both. */
function givenBy(vessel: Vessel, model: Model): Plan {
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
  const kinds: Kind[] = [];
  const missing: string[] = [];
  let targets = false;
  for (const { signal, hertz } of signals) {
    if (isTargetSignal(signal) && hertz === undefined) {
      targets = true;
      continue;
    }
    const found = ofSignal(vessel, signal, hertz);
    kinds.push(...found.kinds);
    missing.push(...found.missing);
  }
  return { kinds, targets, missing };
}

const samePgn = (vessel: Vessel, first: string, second: string): boolean =>
  carriageOf(vessel, first)?.pgns[0] === carriageOf(vessel, second)?.pgns[0];

/** What a port says that it sends. */
function declared(device: string, port: Port): Plan {
  const kinds: Kind[] = [];
  const missing: string[] = [];
  let targets = false;
  for (const { message, hertz } of port.sends) {
    const pgn = Number(message);
    if (isTargetReport(pgn) && hertz === undefined) {
      targets = true;
      continue;
    }
    const entry = pgnOf(pgn);
    // A number that cannot be or that the table lacks has a rule of its own.
    if (entry !== undefined) kinds.push(kindOf(undefined, entry.pgn, hertz));
    else if (standingOf(pgn) === 'proprietary')
      missing.push(`message ${message} of ${device} is its maker's own, of unknown length`);
  }
  return { kinds, targets, missing };
}

function ofSignal(
  vessel: Vessel,
  signal: string,
  hertz: number | undefined,
): Pick<Plan, 'kinds' | 'missing'> {
  const carried = carriageOf(vessel, signal);
  if (carried === undefined) return { kinds: [], missing: [`signal ${signal} is not in the library`] };
  const usual = own(vessel.signals, signal)?.hertz;
  return {
    kinds: [...new Set(carried.pgns)].flatMap((pgn) =>
      pgnOf(pgn) === undefined ? [] : [kindOf(signal, pgn, hertz ?? usual)],
    ),
    missing: [],
  };
}

/** A message at its rate, else at its usual interval. */
function kindOf(signal: string | undefined, pgn: number, hertz: number | undefined): Kind {
  const entry = pgnOf(pgn);
  const interval = entry?.intervalSeconds;
  const rate = hertz ?? (interval === undefined ? undefined : 1 / interval);
  const bits = entry === undefined ? { worst: 0, typical: 0 } : messageBits(entry);
  return {
    signal,
    pgn,
    name: entry?.name ?? `message ${pgn}`,
    hertz: rate,
    worst: bits.worst * (rate ?? 0),
    typical: bits.typical * (rate ?? 0),
  };
}

/** What other vessels report, as their number makes it. */
function reportsOf(targets: number): Kind {
  const { messagesPerSecond, worst, typical } = targetTraffic(targets);
  return {
    signal: 'ais',
    pgn: undefined,
    name: `reports of ${targets} AIS targets`,
    hertz: messagesPerSecond,
    worst,
    typical,
  };
}
