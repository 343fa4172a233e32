/** Devices, cables, feeds and buses of two revisions side by side. */
import type { Analysis, CableRun } from '../../checks/analysis.js';
import type { Backbone, Conductor, Device, Feed } from '../../vessel/model.js';
import { compareText, metres, number } from '../../vessel/words.js';
import type { Change } from './model.js';

/** Gives the name that something has in the newer revision. */
export type Renamed = (name: string) => string;
const same: Renamed = (name) => name;

export function deviceChanges(before: Analysis, after: Analysis, renamed: Renamed): readonly Change[] {
  const olds = new Map(before.vessel.devices.map((device) => [renamed(device.name), device]));
  const news = new Map(after.vessel.devices.map((device) => [device.name, device]));
  return both(olds, news).flatMap(([name, old, now]): Change[] => {
    const change = (action: Change['action'], was: string | null, is: string | null): Change => ({
      what: 'device',
      action,
      name,
      before: was,
      after: is,
      metres: null,
    });
    if (!old) return now ? [change('added', null, deviceText(now))] : [];
    if (!now) return [change('removed', deviceText(old), null)];
    const changes: Change[] = [];
    if (old.name !== now.name) changes.push(change('renamed', old.name, now.name));
    if (old.models.join() !== now.models.join())
      changes.push(change('exchanged', old.models.join(' or '), now.models.join(' or ')));
    if (placeText(old) !== placeText(now)) changes.push(change('moved', placeText(old), placeText(now)));
    if (restText(old) !== restText(now)) changes.push(change('changed', restText(old), restText(now)));
    return changes;
  });
}

const deviceText = (device: Device): string => `${device.models.join(' or ') || '?'} at ${placeText(device)}`;
const placeText = ({ zone, back }: Device): string =>
  `${zone ?? '?'}${back === undefined ? '' : `, back ${back}`}`;

function restText({ series, parallel, existing, leaving, normally, instance }: Device): string {
  return [
    series === undefined ? '' : `series ${series}`,
    parallel === undefined ? '' : `parallel ${parallel}`,
    existing ? 'existing' : '',
    leaving ? 'leaving' : '',
    normally === undefined ? '' : `normally ${normally}`,
    instance === undefined ? '' : `instance ${instance}`,
  ]
    .filter((part) => part !== '')
    .join(', ');
}

// ---------------------------------------------------------------- cables

export function cableChanges(before: Analysis, after: Analysis, renamed: Renamed): readonly Change[] {
  const olds = new Map(before.cables.map((run) => [cableName(run, before, renamed), run]));
  const news = new Map(after.cables.map((run) => [cableName(run, after, same), run]));
  const found = both(olds, news);
  const gone = found.filter(([, old, now]) => old && !now);
  const fresh = found.filter(([, old, now]) => now && !old);
  // Between the same devices, and only the ports differ: nothing is pulled.
  const pairs = new Map<string, [string, CableRun]>();
  const spent = new Set<string>();
  for (const [name, old] of gone) {
    const partner = fresh.find(
      ([other, , now]) =>
        now && old && !spent.has(other) && pairOf(other) === pairOf(name) && now.cable === old.cable,
    );
    if (!partner?.[2] || !old) continue;
    spent.add(partner[0]).add(name);
    pairs.set(partner[0], [name, old]);
  }
  return found.flatMap(([name, old, now]): Change[] => {
    const pair = pairs.get(name);
    if (pair) return [cable('replugged', name, pair[0], name, null)];
    if (spent.has(name)) return [];
    if (!old) return now ? [cable('added', name, null, cableText(now), now.neededMetres ?? null)] : [];
    if (!now) return [cable('removed', name, cableText(old), null, old.neededMetres ?? null)];
    const [was, is] = [cableText(old), cableText(now)];
    return was === is ? [] : [cable('changed', name, was, is, null)];
  });
}

function cable(
  action: Change['action'],
  name: string,
  before: string | null,
  after: string | null,
  length: number | null,
): Change {
  return { what: 'cable', action, name, before, after, metres: length };
}

function cableName(run: CableRun, { links }: Analysis, renamed: Renamed): string {
  const wired = links.find((one) => one.link === run.link);
  const end = (
    settled: { device: string; port: { name: string } } | undefined,
    written: { device: string | undefined; port: string | undefined },
  ): string => {
    const device = renamed(settled?.device ?? written.device ?? '?');
    const port = settled?.port.name ?? written.port;
    return port === undefined ? device : `${device}.${port}`;
  };
  return [end(wired?.a, run.link.a), end(wired?.b, run.link.b)].sort(compareText).join(' -- ');
}

const pairOf = (name: string): string =>
  name
    .split(' -- ')
    .map((end) => end.split('.')[0])
    .sort()
    .join(' ');

function cableText(run: CableRun): string {
  const length = run.neededMetres === undefined ? 'unknown length' : metres(run.neededMetres);
  const pieces =
    run.pieces.length > 0 ? ` (${run.pieces.map((piece) => metres(piece)).join(' + ')} bought)` : '';
  const kind = run.cable ?? (run.captiveMetres === undefined ? 'cable' : 'captive tail');
  const joins = run.link.joins
    .map((joint) => ` by ${joint.model ?? 'a joint'} at ${joint.zone ?? '?'}`)
    .join('');
  const label = run.link.label === undefined ? '' : ` "${run.link.label}"`;
  return `${kind}, ${length}${pieces}${joins}${run.zones.length > 0 ? `, ${run.zones.join(' - ')}` : ''}${label}`;
}

// ---------------------------------------------------------------- feeds and buses

export function feedChanges(before: Analysis, after: Analysis, renamed: Renamed): readonly Change[] {
  const keyed = (feeds: readonly Feed[], name: Renamed): Map<string, Feed> =>
    numbered(
      feeds,
      (feed) => `${endText(feed.from, name)} -> ${feed.to.map((end) => endText(end, name)).join(', ')}`,
    );
  return both(keyed(before.vessel.feeds, renamed), keyed(after.vessel.feeds, same)).flatMap(
    ([name, old, now]) => {
      const [was, is] = [old ? feedText(old, renamed) : null, now ? feedText(now, same) : null];
      return changed('feed', name, was, is);
    },
  );
}

/** A backbone's own cable; the devices on it are told of as devices. */
export function busChanges(before: Analysis, after: Analysis, renamed: Renamed): readonly Change[] {
  const keyed = (buses: readonly Backbone[]): Map<string, Backbone> =>
    new Map(buses.map((bus) => [bus.name, bus]));
  return both(keyed(before.vessel.backbones), keyed(after.vessel.backbones)).flatMap(([name, old, now]) =>
    changed('bus', name, old ? busText(old, renamed) : null, now ? busText(now, same) : null),
  );
}

function changed(
  what: Change['what'],
  name: string,
  before: string | null,
  after: string | null,
): readonly Change[] {
  if (before === after) return [];
  const action = before === null ? 'added' : after === null ? 'removed' : 'changed';
  return [{ what, action, name, before, after, metres: null }];
}

function endText(end: { device: string | undefined; port: string | undefined }, renamed: Renamed): string {
  const device = end.device === undefined ? '?' : renamed(end.device);
  return end.port === undefined ? device : `${device}.${end.port}`;
}

function feedText(feed: Feed, renamed: Renamed): string {
  const label = feed.wayLabel === undefined ? '' : `"${feed.wayLabel}" `;
  return `${label}${conductorText(feed, renamed)}`;
}

function conductorText(conductor: Conductor, renamed: Renamed): string {
  const { protections, wire, cable: kind, lengthMetres, by } = conductor;
  const fuses = protections.map(
    ({ device, amps, type, at }) =>
      `${device}${amps === undefined ? '' : ` ${number(amps)} A`}${type === undefined ? '' : ` ${type}`}${at === undefined ? '' : ` at ${renamed(at)}`}`,
  );
  return (
    [
      ...fuses,
      ...(wire === undefined ? [] : [`wire ${wire.size} ${wire.standard}`]),
      ...(kind === undefined ? [] : [kind]),
      ...(lengthMetres === undefined ? [] : [metres(lengthMetres)]),
      ...by.map((run) => `by ${run}`),
    ].join(', ') || 'fuse and wire left to the tool'
  );
}

function busText(bus: Backbone, renamed: Renamed): string {
  const items = bus.items.map((item) => {
    switch (item.kind) {
      case 'terminator':
        return item.in === undefined ? 'terminator' : `terminator in ${renamed(item.in)}`;
      case 'tee': {
        const on = item.end === undefined ? 'capped tee' : `tee ${endText(item.end, renamed)}`;
        const branches = item.branches.map((branch) => ` + ${endText(branch.end, renamed)}`).join('');
        return `${on}${branches}${item.dropMetres === undefined ? '' : ` ${metres(item.dropMetres)}`}`;
      }
      case 'span':
        return `span ${item.lengthMetres === undefined ? (item.between ?? ['?']).join(' to ') : metres(item.lengthMetres)}`;
      case 'tap':
        return `tap ${endText(item.from, renamed)} ${conductorText(item.conductor, renamed)}`;
      default:
        return item.kind;
    }
  });
  return [bus.cable ?? 'cable', ...items].join(', ');
}

// ---------------------------------------------------------------- side by side

/** Everything that either has, by its name, in the order of names. */
function both<T>(
  olds: ReadonlyMap<string, T>,
  news: ReadonlyMap<string, T>,
): readonly (readonly [string, T | undefined, T | undefined])[] {
  const names = [...new Set([...olds.keys(), ...news.keys()])].sort(compareText);
  return names.map((name) => [name, olds.get(name), news.get(name)] as const);
}

/** Of several with one name each further one gets a number. */
function numbered<T>(items: readonly T[], name: (item: T) => string): Map<string, T> {
  const found = new Map<string, T>();
  for (const item of items) {
    const key = name(item);
    let unique = key;
    for (let count = 2; found.has(unique); count++) unique = `${key} (${count})`;
    found.set(unique, item);
  }
  return found;
}
