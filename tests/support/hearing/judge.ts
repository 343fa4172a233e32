/**
 * An independent judge of who hears what, written from docs/data.md alone, on plans and not on vessels: it shares nothing with the
 * checks nor with the program's tables. It follows every message by itself until nothing new arrives anywhere.
 */
import { deviceOf, type BoatPlan, type DevicePlan, type PassPlan, type PortPlan } from './plan.js';

/** Messages that bring a signal, the usual one first; parameter groups with how often they are usually sent (NMEA 2000). */
export const CARRIED: Readonly<
  Record<
    string,
    { readonly pgns: readonly (readonly [string, number])[]; readonly sentences: readonly string[] }
  >
> = {
  position: {
    pgns: [
      ['129025', 10],
      ['129029', 1],
    ],
    sentences: ['GGA', 'RMC', 'GLL'],
  },
  heading: { pgns: [['127250', 10]], sentences: ['HDT', 'HDM'] },
  wind: { pgns: [['130306', 10]], sentences: ['MWV'] },
  depth: { pgns: [['128267', 1]], sentences: ['DPT', 'DBT'] },
};

type Rate = number | undefined;

/** What comes to a device of one source: the fastest rate that is known, and whether some rate is not. */
export interface Come {
  readonly best: Rate;
  readonly open: boolean;
}

/** How sure it is. `maybe`: by a gateway that does not say what it passes. */
export type Reach = { readonly kind: 'yes'; readonly come: Come } | { readonly kind: 'maybe' | 'no' };

export type Verdict = 'met' | 'slow' | 'none' | 'unknown';

export interface Judgement {
  readonly verdict: Verdict;
  readonly sources: readonly string[];
  readonly settled: boolean;
  readonly given: boolean;
}

interface Packet {
  readonly port: string;
  readonly message: string;
  readonly hertz: Rate;
}

export function createJudge(
  plan: BoatPlan,
  off: ReadonlySet<string> = new Set(),
): { readonly judge: (device: string, signal: string) => Judgement } {
  const devices = new Map(plan.devices.map((one) => [one.name, one]));
  const get = (name: string): DevicePlan => {
    const found = devices.get(name);
    if (found === undefined) throw new Error(`no device ${name}`);
    return found;
  };
  const portAt = (end: string): PortPlan => {
    const found = get(deviceOf(end)).ports.find(({ name }) => `${deviceOf(end)}.${name}` === end);
    if (found === undefined) throw new Error(`no port ${end}`);
    return found;
  };

  /** Every port that hears what a port sends. */
  const hearers = (end: string): readonly string[] => [
    ...Object.values(plan.buses)
      .filter((ends) => ends.includes(end))
      .flatMap((ends) => ends.filter((other) => deviceOf(other) !== deviceOf(end))),
    ...plan.lines.flatMap(([talker, listener]) => (talker === end ? [listener] : [])),
  ];

  const firstSent = (device: DevicePlan, port: PortPlan, signal: string): readonly Packet[] => {
    const carried = CARRIED[signal];
    const give = device.gives.find(({ name }) => name === signal);
    if (carried === undefined || give === undefined) return [];
    const own = `${device.name}.${port.name}`;
    if (port.medium === 'bus') {
      const [usual] = carried.pgns;
      const list = port.sends.length > 0 ? port.sends : [{ name: usual?.[0] ?? '', hertz: undefined }];
      return list.flatMap(({ name, hertz }) => {
        const known = carried.pgns.find(([pgn]) => pgn === name);
        return known === undefined
          ? []
          : [{ port: own, message: name, hertz: hertz ?? give.hertz ?? known[1] }];
      });
    }
    if (port.medium !== 'talks') return [];
    const list =
      port.sends.length > 0 ? port.sends : [{ name: carried.sentences[0] ?? '', hertz: undefined }];
    return list
      .filter(({ name }) => carried.sentences.includes(name))
      .map(({ name, hertz }) => ({ port: own, message: name, hertz: hertz ?? give.hertz }));
  };

  /** As it leaves a gateway: the same on the same medium, else the usual message of the other. */
  const turned = (message: string, signal: string, to: PortPlan): string => {
    const carried = CARRIED[signal];
    const isPgn = /^\d+$/u.test(message);
    if (isPgn === (to.medium === 'bus')) return message;
    return (to.medium === 'bus' ? carried?.pgns[0]?.[0] : carried?.sentences[0]) ?? '';
  };

  const lets = ({ filter }: PassPlan, before: string, after: string): boolean => {
    if (filter === undefined) return true;
    const listed = filter.messages.includes(before) || filter.messages.includes(after);
    return listed === (filter.kind === 'with');
  };

  /** Everything of a source's signal that arrives over buses and lines, by device; `hoping` that silent gateways pass all. */
  const flow = (source: string, signal: string, hoping: boolean): ReadonlyMap<string, readonly Rate[]> => {
    const seen = new Set<string>();
    const todo: Packet[] = [];
    const heard = new Map<string, Rate[]>();
    const put = (packet: Packet): void => {
      const key = `${packet.port} ${packet.message} ${packet.hertz ?? '?'}`;
      if (seen.has(key)) return;
      seen.add(key);
      todo.push(packet);
    };
    if (!off.has(source))
      for (const port of get(source).ports) firstSent(get(source), port, signal).forEach(put);
    for (let packet = todo.pop(); packet !== undefined; packet = todo.pop()) {
      for (const end of hearers(packet.port)) {
        const name = deviceOf(end);
        if (off.has(name) || name === source) continue;
        heard.set(name, [...(heard.get(name) ?? []), packet.hertz]);
        const device = get(name);
        const here = end.slice(name.length + 1);
        const silent = device.class === 'gateway' && device.passes.length === 0 && hoping;
        const ways: readonly PassPlan[] = silent
          ? device.ports
              .filter((port) => port.name !== here)
              .map((port) => ({ from: [here], to: port.name, filter: undefined }))
          : device.passes;
        for (const way of ways) {
          if (!way.from.includes(here)) continue;
          const to = portAt(`${name}.${way.to}`);
          if (to.medium === 'listens' || to.medium === 'net') continue;
          const after = turned(packet.message, signal, to);
          if (lets(way, packet.message, after))
            put({ port: `${name}.${way.to}`, message: after, hertz: packet.hertz });
        }
      }
    }
    return heard;
  };

  /** Whether ethernet joins two devices, over switches that are on. */
  const joined = (from: string, to: string): boolean => {
    const seen = new Set([from]);
    const todo = [from];
    for (const at of todo)
      for (const [a, b] of plan.cords) {
        const next = deviceOf(a) === at ? deviceOf(b) : deviceOf(b) === at ? deviceOf(a) : undefined;
        if (next === undefined || seen.has(next) || off.has(next)) continue;
        if (next === to) return true;
        seen.add(next);
        if (get(next).class === 'switch') todo.push(next);
      }
    return false;
  };
  const akin = (a: string, b: string): boolean => {
    const [one, other] = [get(a).family, get(b).family];
    return one === undefined || other === undefined || one === other;
  };
  const takes = (device: DevicePlan, signal: string): boolean =>
    device.shows.includes(signal) || device.wants.some(({ name }) => name === signal);

  const comeOf = (rates: readonly Rate[]): Come => {
    const known = rates.flatMap((rate) => rate ?? []);
    return { best: known.length === 0 ? undefined : Math.max(...known), open: known.length < rates.length };
  };

  /** By itself: over ethernet, else over buses and lines. */
  const direct = (device: string, source: string, signal: string): Reach => {
    if (off.has(device) || off.has(source) || !takes(get(device), signal)) return { kind: 'no' };
    if (joined(source, device) && akin(source, device)) {
      const rate = get(source).gives.find(({ name }) => name === signal)?.hertz;
      return { kind: 'yes', come: comeOf([rate]) };
    }
    const rates = flow(source, signal, false).get(device);
    if (rates !== undefined) return { kind: 'yes', come: comeOf(rates) };
    return { kind: flow(source, signal, true).has(device) ? 'maybe' : 'no' };
  };

  const reach = (device: string, source: string, signal: string): Reach => {
    const own = direct(device, source, signal);
    if (own.kind === 'yes' || off.has(device) || !takes(get(device), signal)) return own;
    const relayed = plan.devices
      .filter(({ name, shares }) => name !== device && name !== source && shares.includes(signal))
      .filter(({ name }) => !off.has(name) && akin(name, device) && joined(name, device))
      .map(({ name }) => direct(name, source, signal));
    const sure = relayed.flatMap((one) => (one.kind === 'yes' ? [one.come] : []));
    if (sure.length > 0)
      return {
        kind: 'yes',
        come: {
          best: comeOf(sure.flatMap(({ best }) => best ?? [])).best,
          open: sure.some(({ open }) => open),
        },
      };
    return { kind: own.kind === 'maybe' || relayed.some(({ kind }) => kind === 'maybe') ? 'maybe' : 'no' };
  };

  return {
    judge: (device, signal) => {
      const givers = plan.devices.filter(
        ({ name, gives }) => !off.has(name) && gives.some((give) => give.name === signal),
      );
      const all = givers.map(({ name }) => ({ name, reach: reach(device, name, signal) }));
      const sure = all.flatMap(({ name, reach: one }) =>
        one.kind === 'yes' ? [{ name, come: one.come }] : [],
      );
      const maybe = all.filter(({ reach: one }) => one.kind === 'maybe').map(({ name }) => name);
      const order = plan.prefers.filter((one) => one.signal === signal).flatMap(({ from }) => from);
      const chosen = order.find((name) => sure.some((one) => one.name === name));
      const base = {
        sources: sure.map(({ name }) => name),
        settled: chosen !== undefined,
        given: givers.length > 0,
      };
      const say = (verdict: Verdict): Judgement => ({ ...base, verdict });
      if (sure.length === 0) return say(maybe.length > 0 ? 'unknown' : 'none');
      const wanted = Math.max(
        0,
        ...get(device).wants.flatMap(({ name, hertz }) => (name === signal ? (hertz ?? []) : [])),
      );
      if (wanted === 0) return say('met');
      const ahead = chosen === undefined ? order : order.slice(0, order.indexOf(chosen));
      if (ahead.some((name) => maybe.includes(name))) return say('unknown');
      const rivals = chosen === undefined ? sure : sure.filter(({ name }) => name === chosen);
      if (rivals.some(({ come }) => (come.best ?? 0) >= wanted)) return say('met');
      if (rivals.some(({ come }) => come.open) || (chosen === undefined && maybe.length > 0))
        return say('unknown');
      return say('slow');
    },
  };
}
