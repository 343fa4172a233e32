/** Who hears what: everything that a device wants, held against the sources aboard that reach it, with path and rate. */
import type { Device, DeviceClass, Vessel } from '../../vessel/model.js';
import type { Lookup } from '../../vessel/lookup.js';
import { statedRate } from '../../vessel/messages.js';
import { anyCovers, meet } from '../../vessel/signals.js';
import { compareText } from '../../vessel/words.js';
import type { SourceSignal, ViewAnswer } from '../analysis.js';
import type { Ethernet } from '../network/ethernet.js';
import { connections } from './connected.js';
import type { Sharing } from '../sharing/sharing.js';

/** A source that reaches the device. */
export interface Supply {
  readonly source: string;
  /** Devices from the source to the consumer. */
  readonly path: readonly string[];
  /** How often it comes; undefined where nothing says. */
  readonly hertz: number | undefined;
}

export interface DataWant {
  readonly device: string;
  readonly class: DeviceClass;
  readonly origin: string;
  readonly signal: string;
  readonly wantedHertz: number | undefined;
  /** Every source that reaches it, those first that `prefer` names. */
  readonly supplies: readonly Supply[];
  /** The one that counts: the preferred one, else the fastest. */
  readonly used: Supply | undefined;
  /** `prefer` names one of those that reach it. */
  readonly settled: boolean;
  /** Every device aboard that gives it, near or far. */
  readonly givenBy: readonly string[];
  readonly verdict: 'met' | 'slow' | 'none' | 'unknown';
  /** Why not, or what is not known; null where it is met. */
  readonly reason: string | null;
}

interface Heard {
  readonly supply: Supply | undefined;
  /** Whether it reaches: null where that is not known. */
  readonly reaches: boolean | null;
  readonly reason: string | null;
}

/** The wants of every device aboard. Devices that leave in the refit want nothing. */
export function computeData(
  vessel: Vessel,
  lookup: Lookup,
  ethernet: Ethernet,
  sharing: Sharing,
): readonly DataWant[] {
  // By name, so that the order of declarations decides nothing.
  const aboard = vessel.devices
    .filter((device) => !device.leaving && lookup.device(device.name) === device)
    .sort((x, y) => compareText(x.name, y.name));
  const means = createMeans(aboard, lookup, ethernet, sharing);
  const maybeJoined = connections(vessel);
  return aboard.flatMap((device) => {
    const model = lookup.modelOf(device.name);
    return (model?.wants ?? []).map(({ signal, hertz }) =>
      judge(
        vessel,
        device,
        model?.class ?? 'instrument',
        signal,
        hertz,
        sourceNames(sharing.sourcesOf(signal, device.name)).map((source) => ({
          source,
          heard: maybeJoined(source, device.name) ? hear(means, device.name, source, signal) : APART,
        })),
      ),
    );
  });
}

function judge(
  vessel: Vessel,
  device: Device,
  kind: DeviceClass,
  signal: string,
  wantedHertz: number | undefined,
  all: readonly { readonly source: string; readonly heard: Heard }[],
): DataWant {
  const preferred = vessel.preferences.filter((one) => meet(one.signal, signal)).flatMap((one) => one.from);
  const rank = (one: Supply): number => {
    const at = preferred.indexOf(one.source);
    return at < 0 ? preferred.length : at;
  };
  const bySource = new Map<string, Supply>();
  for (const { heard } of all)
    if (heard.supply !== undefined && !bySource.has(heard.supply.source))
      bySource.set(heard.supply.source, heard.supply);
  const supplies = [...bySource.values()].sort(
    (x, y) => rank(x) - rank(y) || (y.hertz ?? 0) - (x.hertz ?? 0) || compareText(x.source, y.source),
  );
  const [used] = supplies;
  const settled = used !== undefined && preferred.includes(used.source);
  const base = {
    device: device.name,
    class: kind,
    origin: device.origin,
    signal,
    wantedHertz,
    supplies,
    used,
    settled,
    givenBy: all.map((one) => one.source),
  };
  if (used === undefined) {
    const open = all.find((one) => one.heard.reaches === null);
    if (open !== undefined)
      return {
        ...base,
        verdict: 'unknown',
        reason: open.heard.reason ?? `whether ${open.source} reaches ${device.name}`,
      };
    const near = all.find((one) => one.heard.reason !== null) ?? all[0];
    const reason =
      near === undefined
        ? `nothing aboard gives ${signal}`
        : (near.heard.reason ?? `no way leads from ${near.source} to ${device.name}`);
    return { ...base, verdict: 'none', reason };
  }
  if (wantedHertz === undefined) return { ...base, verdict: 'met', reason: null };
  // Without a preference any of them may be the one that it listens to, and the fastest is the best that can be hoped for.
  const rivals = settled ? [used] : supplies;
  if (rivals.some((one) => one.hertz !== undefined && one.hertz >= wantedHertz - 1e-9))
    return { ...base, verdict: 'met', reason: null };
  const silent = rivals.find((one) => one.hertz === undefined);
  if (silent !== undefined)
    return {
      ...base,
      verdict: 'unknown',
      reason: `how often ${silent.source} brings ${signal} to ${device.name}`,
    };
  return { ...base, verdict: 'slow', reason: `${used.source} brings it less often` };
}

/** Nothing is plugged together between the two. */
const APART: Heard = { supply: undefined, reaches: false, reason: null };

/** Each source once, by name. */
function sourceNames(signals: Iterable<SourceSignal>): readonly string[] {
  return [...new Set(Array.from(signals, ({ source }) => source))].sort(compareText);
}

interface Relay {
  readonly relay: string;
  /** How it hears the source itself. */
  readonly first: ViewAnswer;
}

interface Means {
  readonly lookup: Lookup;
  readonly ethernet: Ethernet;
  readonly sharing: Sharing;
  /** What hears a source, or may, and shares the signal. */
  readonly relays: (source: string, signal: string) => readonly Relay[];
  /** The devices on the way over ethernet, the last one included. */
  readonly over: (from: string, to: string) => readonly string[] | undefined;
}

/** The searches that many wants have in common, each done once. */
function createMeans(aboard: readonly Device[], lookup: Lookup, ethernet: Ethernet, sharing: Sharing): Means {
  const sharers = aboard.flatMap(({ name }) => {
    const shares = lookup.modelOf(name)?.shares ?? [];
    return shares.length === 0 ? [] : [{ name, shares }];
  });
  const relays = new Map<string, readonly Relay[]>();
  const ways = new Map<string, readonly string[] | null>();
  return {
    lookup,
    ethernet,
    sharing,
    relays: (source, signal) => {
      const key = `${source} ${signal}`;
      const known = relays.get(key);
      if (known !== undefined) return known;
      const found = sharers
        .filter(({ name, shares }) => name !== source && anyCovers(shares, signal))
        .map(({ name }) => ({ relay: name, first: sharing.hears(name, source, signal) }))
        .filter(({ first }) => first.visible !== false);
      relays.set(key, found);
      return found;
    },
    over: (from, to) => {
      const key = `${from} ${to}`;
      let way = ways.get(key);
      if (way === undefined) {
        way = ethernet.path(from, to, NONE)?.map((step) => step.to) ?? null;
        ways.set(key, way);
      }
      return way ?? undefined;
    },
  };
}

/** Directly by bus, line, plug or network, else by a device of its family that hears it and shares it over ethernet. */
function hear(means: Means, device: string, source: string, signal: string): Heard {
  const { lookup, ethernet, sharing } = means;
  const answer = sharing.hears(device, source, signal);
  const rate = (to: string, by: string | null): number | undefined =>
    by === 'bus' ? sharing.rate(to, source, signal) : statedRate(lookup.modelOf(source), signal);
  if (answer.visible === true)
    return {
      supply: { source, path: answer.path, hertz: rate(device, answer.by) },
      reaches: true,
      reason: null,
    };
  let doubt = answer.visible === null ? answer.reason : null;
  let open = answer.visible === null;
  if (ethernet.segmentsOf(device).length > 0 || ethernet.isOpen(device)) {
    const families = lookup.modelOf(device)?.families ?? [];
    for (const { relay, first } of means.relays(source, signal)) {
      if (relay === device || !related(lookup.modelOf(relay)?.families ?? [], families)) continue;
      const over = means.over(relay, device);
      const maybe = over === undefined && (ethernet.isOpen(relay) || ethernet.isOpen(device));
      if (over === undefined && !maybe) continue;
      if (over === undefined || first.visible === null) {
        doubt ??= first.reason ?? `a link on the network of ${relay} is not settled`;
        open = true;
        continue;
      }
      const path = [...first.path, ...over];
      return { supply: { source, path, hertz: rate(relay, first.by) }, reaches: true, reason: null };
    }
  }
  return { supply: undefined, reaches: open ? null : false, reason: doubt ?? answer.reason };
}

const NONE: ReadonlySet<string> = new Set();

/** Displays network inside one family; what is of none is neutral. */
function related(one: readonly string[], other: readonly string[]): boolean {
  return one.length === 0 || other.length === 0 || one.some((family) => other.includes(family));
}
