/** An answer: what changes aboard, and the vessel that it makes. */
import type { Device, Link, Model, Port, Vessel } from '../../vessel/model.js';
import { compareText } from '../../vessel/words.js';
import type { Context } from '../context.js';
import type { Edge, Problem, Site } from './problem.js';

export interface Exchange {
  readonly device: string;
  readonly from: string;
  readonly to: string;
  /** The spec left the choice open. */
  readonly wasOpen: boolean;
}

export interface Added {
  readonly device: string;
  readonly model: Model;
  readonly zone: string | undefined;
  /** The way of a panel that feeds it; undefined where it takes no direct current. */
  readonly way: string | undefined;
}

/** An end of a link as it is written. */
export interface Plug {
  readonly device: string;
  readonly port: string | undefined;
}

export interface Plugged {
  readonly a: Plug;
  readonly b: Plug;
  readonly cable: string | undefined;
}

/** A link that stays, and has to name another port since the model at its end has changed. */
export interface Replugged {
  readonly link: Link;
  readonly end: 'a' | 'b';
  readonly plug: Plug;
}

export interface Design {
  readonly exchanges: readonly Exchange[];
  readonly dropped: readonly string[];
  readonly added: readonly Added[];
  readonly unplugged: readonly Link[];
  readonly plugged: readonly Plugged[];
  readonly replugged: readonly Replugged[];
}

/** What the solver chose: numbers of candidates (undefined for none) and of edges. */
export interface Chosen {
  readonly models: readonly (number | undefined)[];
  readonly choices: readonly (number | undefined)[];
  /** How many new switches of each model. */
  readonly counts: readonly number[];
  readonly edges: readonly number[];
}

export function isChange(design: Design): boolean {
  return Object.values(design).some((list: readonly unknown[]) => list.length > 0);
}

export function designOf(context: Context, problem: Problem, chosen: Chosen): Design {
  const { sites } = problem;
  const exchanges: Exchange[] = [];
  const dropped: string[] = [];
  const added: Added[] = [];
  const ways = [...problem.ways];
  const models = sites.map((site, number) => {
    const at = chosen.models[number];
    return at === undefined ? undefined : site.candidates[at]?.model;
  });
  sites.forEach((site, number) => {
    const model = models[number];
    if (site.kind === 'new') {
      if (model === undefined) return;
      const fed = model.ports.some((port) => port.medium === 'dc');
      added.push({ device: site.name, model, zone: site.zone, way: fed ? ways.shift() : undefined });
      return;
    }
    if (model === undefined) dropped.push(site.name);
    else exchanges.push(...exchangeOf(context, site.name, model));
  });
  problem.choices.forEach(({ device, candidates }, number) => {
    const model = candidates[chosen.choices[number] ?? 0]?.model;
    if (model !== undefined) exchanges.push(...exchangeOf(context, device.name, model));
  });
  const edges = chosen.edges.flatMap((number) => problem.edges[number] ?? []);
  const staying = new Set(edges.flatMap((edge) => edge.present?.link ?? []));
  return {
    exchanges,
    dropped,
    added,
    unplugged: problem.pluggable.filter((link) => !staying.has(link)),
    ...plug(context, sites, models, edges, staying),
  };
}

function exchangeOf({ lookup }: Context, name: string, model: Model): readonly Exchange[] {
  const device = lookup.device(name);
  const [from] = device?.models ?? [];
  if (device === undefined || from === undefined) return [];
  const wasOpen = device.models.length > 1;
  return from === model.name && !wasOpen ? [] : [{ device: name, from, to: model.name, wasOpen }];
}

function plug(
  { wiring }: Context,
  sites: readonly Site[],
  models: readonly (Model | undefined)[],
  edges: readonly Edge[],
  staying: ReadonlySet<Link>,
): Pick<Design, 'plugged' | 'replugged'> {
  const free = models.map((model) => (model?.ports ?? []).filter((port) => port.medium === 'ethernet'));
  const numbers = new Map(sites.map((site, number) => [site.name, number]));
  const take = (site: number, fits: (port: Port) => boolean): Port | undefined => {
    const ports = free[site] ?? [];
    const at = ports.findIndex(fits);
    return at < 0 ? undefined : ports.splice(at, 1)[0];
  };
  // Ports that stay in use first: of links that stay, and of those to elsewhere.
  const replugged: Replugged[] = [];
  const loose: { readonly link: Link; readonly end: 'a' | 'b'; readonly site: number }[] = [];
  const among = new Set(edges.flatMap((edge) => edge.present?.link ?? []));
  for (const { link, a, b, medium } of wiring.links) {
    if (medium !== 'ethernet') continue;
    for (const [end, at] of [
      ['a', a],
      ['b', b],
    ] as const) {
      const site = at === undefined ? undefined : numbers.get(at.device);
      if (at === undefined || site === undefined) continue;
      const other = (end === 'a' ? b : a)?.device;
      const inside = other !== undefined && sites[numbers.get(other) ?? -1]?.network === sites[site]?.network;
      if (inside && !among.has(link)) continue;
      if (inside && !staying.has(link)) continue;
      const taken = take(site, (port) => port.name === at.port.name);
      if (taken === undefined) loose.push({ link, end, site });
    }
  }
  for (const { link, end, site } of loose) {
    const port = take(site, () => true);
    if (link[end].port !== undefined) replugged.push({ link, end, plug: plugAt(sites, models, site, port) });
  }
  const wantsPower = (site: number): boolean =>
    models[site]?.ports.some((port) => port.poe?.role === 'wants') === true;
  const choose = (site: number, other: number): Port | undefined => {
    const powered = wantsPower(other);
    return take(site, (port) => (port.poe?.role === 'gives') === powered) ?? take(site, () => true);
  };
  const plugged = edges
    .filter((edge) => edge.present === undefined)
    .map((edge): Plugged => {
      const [a, b] = [choose(edge.a, edge.b), choose(edge.b, edge.a)];
      return {
        a: plugAt(sites, models, edge.a, a),
        b: plugAt(sites, models, edge.b, b),
        cable: edge.cable?.name,
      };
    });
  return { plugged, replugged };
}

/** The port is written where a device has several. */
function plugAt(
  sites: readonly Site[],
  models: readonly (Model | undefined)[],
  site: number,
  port: Port | undefined,
): Plug {
  const several = (models[site]?.ports ?? []).filter((one) => one.medium === 'ethernet').length > 1;
  return { device: sites[site]?.name ?? '', port: several ? port?.name : undefined };
}

/** The vessel with a design carried out. */
export function withDesign(vessel: Vessel, design: Design): Vessel {
  const gone = new Set(design.dropped);
  const models = new Map(design.exchanges.map(({ device, to }) => [device, to]));
  // By their origins: a design may have come from another thread, with links of its own.
  const unplugged = new Set(design.unplugged.map(({ origin }) => origin));
  const end = ({ device, port }: Plug): Link['a'] => ({ device, port, portUnresolved: false });
  const moved = (link: Link): Link => {
    const changes = design.replugged.filter((one) => one.link.origin === link.origin);
    return changes.reduce((changed, change) => ({ ...changed, [change.end]: end(change.plug) }), link);
  };
  const [wayOf] = [
    (way: string): Plug => {
      const dot = way.lastIndexOf('.');
      return { device: way.slice(0, dot), port: way.slice(dot + 1) };
    },
  ];
  return {
    ...vessel,
    devices: [
      ...vessel.devices
        .filter((device) => !gone.has(device.name))
        .map((device) => {
          const model = models.get(device.name);
          return model === undefined ? device : { ...device, models: [model] };
        }),
      ...design.added.map(newDevice),
    ],
    links: [
      ...vessel.links.filter((link) => !unplugged.has(link.origin) && !touches(link, gone)).map(moved),
      ...design.plugged.map((plugged): Link => ({
        origin: `link ${textOf(plugged.a)} -- ${textOf(plugged.b)}`,
        a: end(plugged.a),
        b: end(plugged.b),
        cable: plugged.cable,
        joins: [],
        by: [],
        lengthMetres: undefined,
        label: undefined,
        existing: false,
      })),
    ],
    feeds: [
      ...vessel.feeds.flatMap((feed) => {
        const to = feed.to.filter((one) => one.device === undefined || !gone.has(one.device));
        return to.length === 0 ? [] : [to.length === feed.to.length ? feed : { ...feed, to }];
      }),
      ...design.added.flatMap(({ device, way }) =>
        way === undefined
          ? []
          : [
              {
                origin: `feed ${way} -> ${device}`,
                from: end(wayOf(way)),
                wayLabel: undefined,
                to: [end({ device, port: undefined })],
                existing: false,
                protections: [],
                protectedUpstream: false,
                cranking: false,
                sheathed: false,
                wire: undefined,
                wireRatedCelsius: undefined,
                cable: undefined,
                joins: [],
                by: [],
                lengthMetres: undefined,
                label: undefined,
              },
            ],
      ),
    ],
  };
}

function touches(link: Link, gone: ReadonlySet<string>): boolean {
  return [link.a, link.b].some((one) => one.device !== undefined && gone.has(one.device));
}

function newDevice({ device, model, zone }: Added): Device {
  return {
    origin: `device ${device}`,
    name: device,
    models: [model.name],
    zone,
    back: undefined,
    existing: false,
    leaving: false,
    doc: undefined,
    note: undefined,
    series: undefined,
    parallel: undefined,
    offsetMetres: undefined,
    instance: undefined,
    normally: undefined,
    syncedWith: [],
  };
}

export function textOf({ device, port }: Plug): string {
  return port === undefined ? device : `${device}.${port}`;
}

/** Names a design's devices, whatever its cables: two designs of one key do not differ to whoever orders the gear. */
export function gearOf(design: Design): string {
  return [
    ...design.exchanges.map(({ device, to }) => `${device}:${to}`),
    ...design.dropped.map((device) => `-${device}`),
    ...design.added.map(({ model }) => `+${model.name}`),
  ]
    .sort(compareText)
    .join(' ');
}
