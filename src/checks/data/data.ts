/** Who hears what: everything that a device wants, held against the sources aboard that reach it, with path and rate. */
import type { Device, DeviceClass, Vessel } from '../../vessel/model.js';
import type { Lookup } from '../../vessel/lookup.js';
import { statedRate } from '../../vessel/messages.js';
import { anyCovers, meet } from '../../vessel/signals.js';
import type { Ethernet } from '../network/ethernet.js';
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
  /** How many devices aboard give it at all, near or far. */
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
  const aboard = vessel.devices.filter((device) => !device.leaving);
  return aboard.flatMap((device) => {
    const model = lookup.modelOf(device.name);
    return (model?.wants ?? []).map(({ signal, hertz }) =>
      judge(
        vessel,
        device,
        model?.class ?? 'instrument',
        signal,
        hertz,
        [...sharing.sourcesOf(signal, device.name)].map((one) => ({
          source: one.source,
          heard: hear({ lookup, ethernet, sharing, aboard }, device.name, one.source, signal),
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
  const supplies = [...bySource.values()].sort((x, y) => rank(x) - rank(y) || (y.hertz ?? 0) - (x.hertz ?? 0));
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
    givenBy: [...new Set(all.map((one) => one.source))],
  };
  if (used === undefined) {
    const open = all.find((one) => one.heard.reaches === null);
    if (open !== undefined)
      return {
        ...base,
        verdict: 'unknown',
        reason: open.heard.reason ?? `whether ${open.source} reaches ${device.name}`,
      };
    const [near] = all;
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

interface Means {
  readonly lookup: Lookup;
  readonly ethernet: Ethernet;
  readonly sharing: Sharing;
  readonly aboard: readonly Device[];
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
    for (const relay of means.aboard) {
      if (relay.name === device || relay.name === source) continue;
      const model = lookup.modelOf(relay.name);
      if (model === undefined || !anyCovers(model.shares, signal)) continue;
      if (!related(model.families, lookup.modelOf(device)?.families ?? [])) continue;
      const first = sharing.hears(relay.name, source, signal);
      if (first.visible === false) continue;
      const over = ethernet.path(relay.name, device, NONE);
      const maybe = over === undefined && (ethernet.isOpen(relay.name) || ethernet.isOpen(device));
      if (over === undefined && !maybe) continue;
      if (over === undefined || first.visible === null) {
        doubt ??= first.reason ?? `a link on the network of ${relay.name} is not settled`;
        open = true;
        continue;
      }
      const path = [...first.path, ...over.map((step) => step.to)];
      return { supply: { source, path, hertz: rate(relay.name, first.by) }, reaches: true, reason: null };
    }
  }
  return { supply: undefined, reaches: open ? null : false, reason: doubt ?? answer.reason };
}

const NONE: ReadonlySet<string> = new Set();

/** Displays network inside one family; what is of none is neutral. */
function related(one: readonly string[], other: readonly string[]): boolean {
  return one.length === 0 || other.length === 0 || one.some((family) => other.includes(family));
}
