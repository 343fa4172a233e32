/** How a signal gets from a source to a device, and how often: by bus, line, plug or network, or from a display that shares it. */
import type { Device } from '../../vessel/model.js';
import type { Lookup } from '../../vessel/lookup.js';
import { statedRate } from '../../vessel/messages.js';
import { anyCovers } from '../../vessel/signals.js';
import type { ViewAnswer } from '../analysis.js';
import type { Ethernet } from '../network/ethernet.js';
import { once } from '../once.js';
import { families, sameFamily, shows, way, type Ground, type Way } from '../sharing/conditions.js';
import type { Sharing } from '../sharing/sharing.js';

/** A source that reaches the device. */
export interface Supply {
  readonly source: string;
  /** Devices from the source to the consumer. */
  readonly path: readonly string[];
  /** How often it comes; undefined where nothing says. */
  readonly hertz: number | undefined;
  /** Nothing says how often another message of it comes. */
  readonly atLeast: boolean;
  /** The trace of the way. */
  readonly answer: ViewAnswer;
}

export interface Heard {
  readonly supply: Supply | undefined;
  /** Whether it reaches: null where that is not known. */
  readonly reaches: boolean | null;
  readonly reason: () => string | null;
}

interface Relay {
  readonly relay: string;
  /** How it hears the source itself. */
  readonly first: ViewAnswer;
}

/** The searches that many wants have in common, each done once. */
export interface Means {
  readonly lookup: Lookup;
  readonly ethernet: Ethernet;
  readonly sharing: Sharing;
  readonly ground: Ground;
  /** Devices that pass nothing on. */
  readonly off: ReadonlySet<string>;
  /** What hears a source, or may, and shares the signal. */
  readonly relays: (source: string, signal: string) => readonly Relay[];
  /** The way over ethernet from one device to another. */
  readonly over: (from: string, to: string) => Way;
}

export function createMeans(
  aboard: readonly Device[],
  lookup: Lookup,
  ethernet: Ethernet,
  sharing: Sharing,
  off: ReadonlySet<string>,
): Means {
  const sharers = aboard.flatMap(({ name }) => {
    const shares = lookup.modelOf(name)?.shares ?? [];
    return shares.length === 0 ? [] : [{ name, shares }];
  });
  const ground: Ground = { lookup, ethernet, hosting: sharing.hosting, nearest: sharing.nearest };
  const relays = new Map<string, readonly Relay[]>();
  const ways = new Map<string, Way>();
  return {
    lookup,
    ethernet,
    sharing,
    ground,
    off,
    relays: (source, signal) => {
      const key = `${source} ${signal}`;
      const known = relays.get(key);
      if (known !== undefined) return known;
      const found = sharers
        .filter(({ name, shares }) => name !== source && anyCovers(shares, signal))
        .filter(({ name }) => sharing.mayReach(name, source, signal))
        .map(({ name }) => ({ relay: name, first: sharing.hears(name, source, signal, off) }))
        .filter(({ first }) => first.visible !== false);
      relays.set(key, found);
      return found;
    },
    over: (from, to) => {
      const key = `${from} ${to}`;
      const known = ways.get(key);
      if (known !== undefined) return known;
      const found = way(ground, from, to, off);
      ways.set(key, found);
      return found;
    },
  };
}

/** Directly by bus, line, plug or network, else by a device of its family that hears it and shares it over ethernet. */
export function hear(means: Means, device: string, source: string, signal: string): Heard {
  const { lookup, ethernet, sharing, off } = means;
  const direct = once(() => sharing.hears(device, source, signal, off));
  const answer = sharing.mayReach(device, source, signal) ? direct() : undefined;
  const rate = (to: string, by: string | null): Pick<Supply, 'hertz' | 'atLeast'> =>
    by === 'bus'
      ? sharing.rate(to, source, signal, off)
      : { hertz: statedRate(lookup.modelOf(source), signal), atLeast: false };
  if (answer?.visible === true)
    return {
      supply: { source, path: answer.path, ...rate(device, answer.by), answer },
      reaches: true,
      reason: () => null,
    };
  let doubt = answer?.visible === null ? answer.reason : null;
  let open = answer?.visible === null;
  const question = { screen: device, source, signal, grade: undefined, off, hearing: true };
  const onNetwork = ethernet.segmentsOf(device).length > 0 || ethernet.isOpen(device);
  const relays = onNetwork ? means.relays(source, signal) : [];
  const taken = relays.length === 0 ? undefined : shows(means.ground, question, 'network');
  const relayed: Relayed[] = [];
  if (taken?.holds === true) {
    for (const { relay, first } of relays) {
      if (relay === device || !sameFamily(means.ground, relay, device)) continue;
      const over = means.over(relay, device);
      const barred = over.powered !== undefined || over.conditions.some(({ holds }) => holds === false);
      if (barred) continue;
      const unsure = over.conditions.find(({ holds }) => holds === null);
      if (unsure !== undefined || first.visible === null) {
        doubt ??= first.reason ?? unsure?.hop.why ?? null;
        open = true;
        continue;
      }
      relayed.push({ relay, first, over, ...rate(relay, first.by) });
    }
  }
  const best = fastest(relayed);
  if (best === undefined || taken === undefined)
    return { supply: undefined, reaches: open ? null : false, reason: () => doubt ?? direct().reason };
  const { relay, first, over, hertz, atLeast } = best;
  const path = [...first.path, ...over.passed, device];
  const family = families(means.ground, relay, device);
  const told: ViewAnswer = {
    ...first,
    screen: device,
    by: 'network',
    path,
    needsPowered: [...first.needsPowered, relay, ...over.passed].filter(
      (name) => lookup.modelOf(name)?.class !== 'joint',
    ),
    hops: [...first.hops, ...over.conditions.map(({ hop }) => hop), family.hop, taken.hop],
  };
  return { supply: { source, path, hertz, atLeast, answer: told }, reaches: true, reason: () => null };
}

/** A relay from which the device can take the signal. */
interface Relayed extends Relay, Pick<Supply, 'hertz' | 'atLeast'> {
  readonly over: Way;
}

/** Of several that share it the one that hears it most often; the first by name among equals. */
function fastest(all: readonly Relayed[]): Relayed | undefined {
  let best: Relayed | undefined;
  for (const one of all) if (best === undefined || (one.hertz ?? -1) > (best.hertz ?? -1)) best = one;
  if (best?.hertz === undefined) return best;
  return { ...best, atLeast: all.some(({ hertz, atLeast }) => hertz === undefined || atLeast) };
}
