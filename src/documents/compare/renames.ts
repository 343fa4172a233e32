/**
 * Which devices of two revisions are the same under another name: the same model in the same place with the same connections. Several
 * may be renamed at once, so that a neighbour that has no partner yet counts by its model.
 */
import type { Device, End, Vessel } from '../../vessel/model.js';
import { compareText } from '../../vessel/words.js';

export interface Renames {
  /** From a name before to the name now; devices that keep their names are not in it. */
  readonly forward: ReadonlyMap<string, string>;
  readonly backward: ReadonlyMap<string, string>;
}

export function findRenames(before: Vessel, after: Vessel): Renames {
  const gone = onlyIn(before, after);
  const fresh = onlyIn(after, before);
  const forward = new Map<string, string>();
  const backward = new Map<string, string>();
  // Each round knows the neighbours that the last one paired.
  for (let paired = -1; paired !== forward.size;) {
    paired = forward.size;
    const left = signatures(
      before,
      gone.filter((device) => !forward.has(device.name)),
      forward,
    );
    const right = signatures(
      after,
      fresh.filter((device) => !backward.has(device.name)),
      new Map(),
    );
    for (const [signature, olds] of left) {
      const news = right.get(signature) ?? [];
      const pairs = Math.min(olds.length, news.length);
      for (let index = 0; index < pairs; index++) {
        const [old, now] = [olds[index] ?? '', news[index] ?? ''];
        forward.set(old, now);
        backward.set(now, old);
      }
    }
  }
  for (const [old, now] of movedToo(before, after, { gone, fresh, forward, backward })) {
    forward.set(old, now);
    backward.set(now, old);
  }
  return { forward, backward };
}

interface Unpaired {
  readonly gone: readonly Device[];
  readonly fresh: readonly Device[];
  readonly forward: ReadonlyMap<string, string>;
  readonly backward: ReadonlyMap<string, string>;
}

/** What has another name and another place as well: the same model on some of the same connections, where only one comes into question. */
function movedToo(
  before: Vessel,
  after: Vessel,
  { gone, fresh, forward, backward }: Unpaired,
): readonly (readonly [string, string])[] {
  const olds = gone.filter(({ name }) => !forward.has(name));
  const news = fresh.filter(({ name }) => !backward.has(name));
  const [was, is] = [factsOf(before, olds, forward), factsOf(after, news, new Map())];
  const alike = (old: Device, now: Device): boolean =>
    old.models.length > 0 &&
    old.models.join() === now.models.join() &&
    (was.get(old.name) ?? []).some((fact) => is.get(now.name)?.includes(fact) === true);
  return olds.flatMap((old) => {
    const [now, ...others] = news.filter((one) => alike(old, one));
    if (now === undefined || others.length > 0 || olds.some((one) => one !== old && alike(one, now)))
      return [];
    return [[old.name, now.name] as const];
  });
}

function onlyIn(one: Vessel, other: Vessel): readonly Device[] {
  const names = new Set(other.devices.map((device) => device.name));
  return one.devices.filter((device) => !names.has(device.name));
}

/** Devices by what is told of them without their names, each list in the order of names. */
function signatures(
  vessel: Vessel,
  devices: readonly Device[],
  known: ReadonlyMap<string, string>,
): ReadonlyMap<string, readonly string[]> {
  const facts = factsOf(vessel, devices, known);
  const found = new Map<string, string[]>();
  for (const { name, models, zone, back, series, parallel } of devices) {
    const key = JSON.stringify([models, zone, back, series, parallel, [...(facts.get(name) ?? [])].sort()]);
    found.set(key, [...(found.get(key) ?? []), name].sort(compareText));
  }
  return found;
}

/** How each device is joined, by the names that its neighbours have now. */
function factsOf(
  vessel: Vessel,
  devices: readonly Device[],
  known: ReadonlyMap<string, string>,
): ReadonlyMap<string, readonly string[]> {
  const open = new Map(devices.map((device) => [device.name, device]));
  const farEnd = ({ device, port }: End): string => {
    const unnamed = device === undefined ? undefined : open.get(device);
    const name = unnamed ? `a ${unnamed.models.join(' or ')}` : (known.get(device ?? '') ?? device ?? '?');
    return `${name}.${port ?? ''}`;
  };
  const facts = new Map<string, string[]>();
  const note = (name: string | undefined, fact: string): void => {
    if (name !== undefined && open.has(name)) facts.set(name, [...(facts.get(name) ?? []), fact]);
  };
  for (const link of vessel.links) {
    note(link.a.device, `link ${link.a.port ?? ''} ${farEnd(link.b)} ${link.cable ?? ''}`);
    note(link.b.device, `link ${link.b.port ?? ''} ${farEnd(link.a)} ${link.cable ?? ''}`);
  }
  for (const feed of vessel.feeds) {
    for (const end of feed.to) note(end.device, `fed ${end.port ?? ''} ${farEnd(feed.from)}`);
    note(feed.from.device, `feeds ${feed.from.port ?? ''} ${feed.to.map(farEnd).join(', ')}`);
  }
  for (const backbone of vessel.backbones)
    for (const item of backbone.items)
      if (item.kind === 'tee')
        for (const end of [item.end, ...item.branches.map((branch) => branch.end)])
          note(end?.device, `on ${backbone.name} ${end?.port ?? ''}`);
  return facts;
}
