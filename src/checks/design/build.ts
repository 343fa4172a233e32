/** Reads out of a vessel what may change about its ethernet, and what may not. */
import type { Device, Model, Need, Zone } from '../../vessel/model.js';
import { compareText } from '../../vessel/words.js';
import type { Context } from '../context.js';
import { dcDirection } from '../wiring/fit.js';
import { candidateOf, modelsFor, switches } from './candidates.js';
import { edgesOf, heldAt } from './cabling.js';
import { networksOf } from './networks.js';
import { pricesOf } from './prices.js';
import type { Candidate, OpenChoice, Problem, Reach, Site, Spare } from './problem.js';

export interface Keep {
  /** Names of devices that stay as they are. */
  readonly devices: ReadonlySet<string>;
  /** Origins of links that stay. */
  readonly links: ReadonlySet<string>;
}

/** The problem of a vessel; without anything that may change, its lists of candidates have one each. */
export function problemOf(context: Context, keep: Keep): Problem {
  const { vessel, lookup } = context;
  const prices = pricesOf(vessel);
  const unpriced = new Set<string>();
  const networks = networksOf(context);
  const asked = new Set(vessel.needs.flatMap(namedIn));
  const candidatesOf = (device: Device, held: number): readonly Candidate[] =>
    modelsFor(context, device, keep.devices.has(device.name)).flatMap((model, number) => {
      const candidate = candidateOf(prices, model, { device, present: number === 0, held });
      if (prices.ofModel(model) === undefined && !device.existing) unpriced.add(model.name);
      return candidate ?? [];
    });

  const sites: Site[] = [];
  const choices: OpenChoice[] = [];
  for (const device of vessel.devices) {
    if (device.leaving || lookup.device(device.name) !== device) continue;
    const model = lookup.modelOf(device.name);
    if (model === undefined) continue;
    const network = networks.of(device.name);
    if (network === undefined) {
      const candidates = candidatesOf(device, 0);
      if (device.models.length > 1 && candidates.length > 1) choices.push({ device, candidates });
      continue;
    }
    const loose =
      (model.class === 'switch' || model.class === 'joint') &&
      !device.existing &&
      !keep.devices.has(device.name) &&
      !asked.has(device.name);
    sites.push({
      name: device.name,
      kind: loose ? 'switch' : 'needed',
      network,
      zone: lookup.plugZone(device.name),
      candidates: candidatesOf(device, heldAt(context, networks, device.name)),
    });
  }
  sites.push(...newSites(context, sites, prices));
  const { edges, pluggable } = edgesOf(context, networks, sites, keep, prices, unpriced);
  const numbers = new Map(sites.map((site, number) => [site.name, number]));
  return {
    sites,
    edges,
    choices,
    reaches: reachesOf(context, sites, numbers),
    spares: sparesOf(context, sites, numbers),
    pluggable,
    ways: freeWays(context),
    unpriced: [...unpriced].sort(compareText),
  };
}

/**
 * Where a switch could go: into each zone that has something of the network, if it stands what the zone does to gear. There may be as many
 * in a zone as the devices there need ports for, those that are there counted: so a design that is written finds no better one.
 */
function newSites(
  context: Context,
  sites: readonly Site[],
  prices: ReturnType<typeof pricesOf>,
): readonly Site[] {
  const { lookup, vessel } = context;
  const offered = switches(context);
  const taken = new Set(vessel.devices.map((device) => device.name));
  const made: Site[] = [];
  const networks = [...new Set(sites.map((site) => site.network))];
  for (const network of networks) {
    const own = sites.filter((site) => site.network === network);
    if (own.length < 3) continue; // Two devices are joined by one cable.
    const zones = [...new Set(own.flatMap((site) => site.zone ?? []))].sort(compareText);
    for (const name of zones) {
      const zone = lookup.zone(name);
      const candidates = offered.flatMap(
        (model) =>
          (zone !== undefined && stands(model, zone)
            ? candidateOf(prices, model, { device: undefined, present: false, held: 0 })
            : undefined) ?? [],
      );
      if (candidates.length === 0) continue;
      const here = own.filter((site) => site.zone === name);
      const there = here.filter((site) => site.kind === 'switch').length;
      // One port of a switch leads on.
      const ports = Math.max(1, ...candidates.map(({ holds }) => holds - 1));
      const most = Math.max(1, Math.ceil((here.length - there) / ports));
      for (let more = there; more < most; more += 1) {
        let number = 1;
        while (taken.has(`switch${number}`)) number += 1;
        taken.add(`switch${number}`);
        made.push({ name: `switch${number}`, kind: 'new', network, zone: name, candidates });
      }
    }
  }
  return made;
}

/** Whether a model may be put into a zone: not where it gets wet without a code that says it stands that. */
function stands(model: Model, zone: Zone): boolean {
  const asks = zone.exposure?.asks ?? [];
  return (
    asks.length === 0 || asks.every((code) => model.ingress.includes(code)) || !(zone.exposure?.wet ?? false)
  );
}

function namedIn(need: Need): readonly string[] {
  switch (need.kind) {
    case 'show':
      return [...need.screens, ...need.wanted.flatMap((wanted) => wanted.device ?? []), ...need.without];
    case 'hear':
      return need.devices;
    case 'spare':
      return need.on;
    default:
      return [];
  }
}

function reachesOf(
  { vessel, wiring, lookup }: Context,
  sites: readonly Site[],
  numbers: ReadonlyMap<string, number>,
): readonly Reach[] {
  /** The site that stands for a source on the network: itself, or what it is plugged into. */
  const hostOf = (source: string): number | undefined => {
    const own = numbers.get(source);
    if (own !== undefined) return own;
    const hosts = wiring.links.flatMap(({ a, b, medium }) => {
      if (a === undefined || b === undefined || medium === 'dc') return [];
      const other = a.device === source ? b.device : b.device === source ? a.device : undefined;
      return other === undefined ? [] : (numbers.get(other) ?? []);
    });
    return hosts.length === 1 ? hosts[0] : undefined;
  };
  return vessel.needs.flatMap((need): readonly Reach[] => {
    if (need.kind !== 'show' || need.incomplete) return [];
    const off = new Set(need.without.flatMap((name) => numbers.get(name) ?? []));
    return need.screens.flatMap((screen) =>
      need.wanted.flatMap((wanted): readonly Reach[] => {
        const to = numbers.get(screen);
        if (wanted.device === undefined || to === undefined || lookup.device(wanted.device) === undefined)
          return [];
        const from = hostOf(wanted.device);
        if (from === undefined || from === to || off.has(from) || off.has(to)) return [];
        return sites[from]?.network === sites[to]?.network ? [{ need, from, to, off }] : [];
      }),
    );
  });
}

function sparesOf(
  { vessel }: Context,
  sites: readonly Site[],
  numbers: ReadonlyMap<string, number>,
): readonly Spare[] {
  return vessel.needs.flatMap((need): readonly Spare[] => {
    if (need.kind !== 'spare' || need.medium !== 'ethernet' || need.incomplete) return [];
    const where =
      need.on.length === 0 ? [...sites.keys()] : need.on.flatMap((name) => numbers.get(name) ?? []);
    return [{ need, sites: where, count: need.count }];
  });
}

/** Free outputs of panels, by name. */
function freeWays({ vessel, lookup, wiring }: Context): readonly string[] {
  return vessel.devices.flatMap((device) => {
    const model = lookup.modelOf(device.name);
    if (model?.class !== 'panel' || device.leaving) return [];
    return model.ports
      .filter((port) => port.medium === 'dc' && dcDirection(port) === 'out')
      .filter((port) => wiring.useOf(device.name, port.name).length === 0)
      .map((port) => `${device.name}.${port.name}`);
  });
}
