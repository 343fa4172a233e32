/** Who hears what: everything that a device wants, held against the sources aboard that reach it, with path and rate. */
import type { Device, DeviceClass, Vessel } from '../../vessel/model.js';
import type { Lookup } from '../../vessel/lookup.js';
import { meet } from '../../vessel/signals.js';
import { compareText } from '../../vessel/words.js';
import type { SourceSignal } from '../analysis.js';
import type { Ethernet } from '../network/ethernet.js';
import { once } from '../once.js';
import { connections } from './connected.js';
import { createMeans, hear, type Heard, type Supply } from './hearing.js';
import type { Sharing } from '../sharing/sharing.js';

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

/** What is asked of the data aboard. */
export interface Hearing {
  /** Everything that a device aboard wants. Devices that leave in the refit want nothing. */
  readonly wants: () => readonly DataWant[];
  /** A signal at a device, at the rate that the device wants it at, whether it wants it or only shows it. */
  readonly of: (device: string, signal: string) => DataWant;
}

/** Prepare the data of a vessel; nothing is searched until it is asked for. Devices that are `off` pass nothing on. */
export function createHearing(
  vessel: Vessel,
  lookup: Lookup,
  ethernet: Ethernet,
  sharing: Sharing,
  off: ReadonlySet<string> = new Set(),
): Hearing {
  const means = once(() => createMeans(aboardOf(vessel, lookup), lookup, ethernet, sharing, off));
  const joined = once(() => connections(vessel));
  const known = new Map<string, DataWant>();
  const ask = (name: string, signal: string, hertz: number | undefined): DataWant => {
    const key = `${name} ${signal} ${hertz ?? ''}`;
    const before = known.get(key);
    if (before !== undefined) return before;
    const maybeJoined = joined();
    const sources = sourceNames(sharing.sourcesOf(signal, name)).filter((one) => !off.has(one));
    const heard = sources.map((source) => ({
      source,
      heard: maybeJoined(source, name) ? hear(means(), name, source, signal) : APART,
    }));
    const asked = {
      device: name,
      class: lookup.modelOf(name)?.class ?? 'instrument',
      origin: lookup.device(name)?.origin ?? `device ${name}`,
      signal,
      wantedHertz: hertz,
    } as const;
    const found = judge(vessel, asked, heard);
    known.set(key, found);
    return found;
  };
  return {
    wants: once(() =>
      aboardOf(vessel, lookup).flatMap(({ name }) =>
        (lookup.modelOf(name)?.wants ?? []).map(({ signal, hertz }) => ask(name, signal, hertz)),
      ),
    ),
    of: (device, signal) => ask(device, signal, wantedRate(lookup, device, signal)),
  };
}

/** By name, so that the order of declarations decides nothing. */
function aboardOf(vessel: Vessel, lookup: Lookup): readonly Device[] {
  return vessel.devices
    .filter((device) => !device.leaving && lookup.device(device.name) === device)
    .sort((x, y) => compareText(x.name, y.name));
}

/** The fastest rate at which a device wants a signal, or one that has to do with it; undefined where it names none. */
function wantedRate(lookup: Lookup, device: string, signal: string): number | undefined {
  const rates = (lookup.modelOf(device)?.wants ?? []).flatMap((want) =>
    want.hertz !== undefined && meet(want.signal, signal) ? [want.hertz] : [],
  );
  return rates.length === 0 ? undefined : Math.max(...rates);
}

type Asked = Pick<DataWant, 'device' | 'class' | 'origin' | 'signal' | 'wantedHertz'>;

function judge(
  vessel: Vessel,
  asked: Asked,
  all: readonly { readonly source: string; readonly heard: Heard }[],
): DataWant {
  const { device, signal, wantedHertz } = asked;
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
    ...asked,
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
        reason: open.heard.reason() ?? `whether ${open.source} reaches ${device}`,
      };
    const [first] = all;
    const reason =
      first === undefined
        ? `nothing aboard gives ${signal}`
        : (firstReason(all) ?? `no way leads from ${first.source} to ${device}`);
    return { ...base, verdict: 'none', reason };
  }
  if (wantedHertz === undefined) return { ...base, verdict: 'met', reason: null };
  const unsure = (reaching: string): DataWant => ({
    ...base,
    verdict: 'unknown',
    reason: `whether ${reaching} reaches ${device}, which would settle how often ${signal} comes`,
  });
  const maybe = all.filter(({ heard }) => heard.reaches === null);
  const before = maybe.find(
    ({ source }) => preferred.includes(source) && preferred.indexOf(source) < rank(used),
  );
  if (before !== undefined) return unsure(before.source);
  // Without a preference any of them may be the one that it listens to, and the fastest is the best that can be hoped for.
  const rivals = settled ? [used] : supplies;
  if (rivals.some((one) => one.hertz !== undefined && one.hertz >= wantedHertz - 1e-9))
    return { ...base, verdict: 'met', reason: null };
  if (!settled && maybe[0] !== undefined) return unsure(maybe[0].source);
  const silent = rivals.find((one) => one.hertz === undefined || one.atLeast);
  if (silent !== undefined)
    return {
      ...base,
      verdict: 'unknown',
      reason: `how often ${silent.source} brings ${signal} to ${device}`,
    };
  return { ...base, verdict: 'slow', reason: `${used.source} brings it less often` };
}

function firstReason(all: readonly { readonly heard: Heard }[]): string | null {
  for (const { heard } of all) {
    const reason = heard.reason();
    if (reason !== null) return reason;
  }
  return null;
}

/** Nothing is plugged together between the two. */
const APART: Heard = { supply: undefined, reaches: false, reason: () => null };

/** Each source once, by name. */
function sourceNames(signals: Iterable<SourceSignal>): readonly string[] {
  return [...new Set(Array.from(signals, ({ source }) => source))].sort(compareText);
}
