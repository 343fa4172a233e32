/**
 * Each element taken away in turn, on data and power together: what the boat then no longer does. What is dark is as if it were not
 * there. A need is judged again only where what it rests on is touched: nothing that is taken away brings a picture back.
 */
import type { End, Need, Vessel, View } from '../../vessel/model.js';
import type { Lookup } from '../../vessel/lookup.js';
import { devicesOfNeed, devicesOfView } from '../../vessel/options/names.js';
import { createHearing } from '../data/data.js';
import { createEthernet, type Ethernet } from '../network/ethernet.js';
import { computeNeeds } from '../needs/needs.js';
import { computePanes } from '../needs/panes.js';
import type { Energy } from '../power/energy/energy.js';
import { createSharing, type Sharing } from '../sharing/sharing.js';
import type { Wiring } from '../wiring/wiring.js';
import type { Failure, FailureReport, ViewAnswer } from '../analysis.js';
import type { Context } from '../context.js';
import { elementsOf, type Element } from './elements.js';
import { ALL_WELL, createLights, type Lit, type Outage } from './lit.js';

export function computeFailures(context: Context): FailureReport {
  const { vessel } = context;
  const lights = createLights(context);
  const before = lights(ALL_WELL);
  const supports = supportsOf(context);
  const judge = createJudge(context);
  const elements = elementsOf(context);
  return {
    failures: elements.map((element) => failureOf(element, { judge, lights, before, supports })),
    notAnalysed: [
      ...context.needs
        .filter((need) => need.met !== true)
        .map(({ spot, text, met, reason }) => ({
          spot,
          what: `need ${text}`,
          why: met === null ? (reason ?? 'it is not judged') : 'it is not met with everything aboard',
        })),
      ...context.panes
        .filter((pane) => pane.shown.visible !== true)
        .map(({ pane, view, shown }) => ({
          spot: { origin: pane.origin },
          what: `pane ${view.name}/${pane.name}`,
          why: shown.reason ?? 'it does not show with everything aboard',
        })),
      ...(vessel.feeds.length === 0
        ? [{ spot: { origin: vessel.origin }, what: 'power', why: 'no feed is declared' }]
        : vessel.devices
            .filter((device) => !device.leaving && !before.devices.has(device.name))
            .map((device) => ({
              spot: { origin: device.origin },
              what: `power of ${device.name}`,
              why: 'nothing powers it as the boat lies',
            }))),
    ],
  };
}

interface Ground {
  readonly judge: ReturnType<typeof createJudge>;
  readonly lights: (outage: Outage) => Lit;
  readonly before: Lit;
  readonly supports: readonly Support[];
}

function failureOf(element: Element, { judge, lights, before, supports }: Ground): Failure {
  const outage = outageOf(element);
  const after = lights(outage);
  const dark = [...before.devices].filter((name) => name !== element.device && !after.devices.has(name));
  const silent = new Set([...before.backbones].filter((name) => !after.backbones.has(name)));
  if (element.backbone !== undefined) silent.add(element.backbone);
  const gone = new Set([...outage.devices, ...dark]);
  const touched = supports.filter(
    ({ devices, links, backbones }) =>
      meet(devices, gone) || meet(links, outage.links) || meet(backbones, silent),
  );
  const lost = judge({ devices: gone, links: outage.links, backbones: silent }, touched);
  const name = ({ text }: Support): string => text;
  const of = (kind: Support['kind'], isLost: boolean): readonly string[] =>
    touched.filter((one) => one.kind === kind && lost.has(one) === isLost).map(name);
  return {
    kind: element.kind,
    name: element.name,
    what: element.what,
    spot: element.at,
    needsLost: of('need', true),
    viewsLost: of('pane', true),
    devicesDark: dark.sort(),
    otherPath: [...of('need', false), ...of('pane', false)],
  };
}

const outageOf = (element: Element): Outage => ({
  devices: new Set(element.device === undefined ? [] : [element.device]),
  links: new Set(element.link === undefined ? [] : [element.link]),
  backbones: new Set(element.backbone === undefined ? [] : [element.backbone]),
  cuts: element.cuts,
});

function meet(some: ReadonlySet<string>, others: ReadonlySet<string>): boolean {
  for (const one of others) if (some.has(one)) return true;
  return false;
}

// ---------------------------------------------------------------- what rests on what

/** A need that is met or a pane that is shown, with what its answers go over. */
interface Support {
  readonly kind: 'need' | 'pane';
  readonly text: string;
  readonly need: Need | undefined;
  readonly view: View | undefined;
  readonly devices: ReadonlySet<string>;
  readonly links: ReadonlySet<string>;
  readonly backbones: ReadonlySet<string>;
}

function supportsOf({ vessel, needs, panes, wiring }: Context): readonly Support[] {
  const linkOrigins = new Set(vessel.links.map((link) => link.origin));
  const busOf = new Map<string, string>();
  for (const backbone of vessel.backbones) {
    busOf.set(backbone.origin, backbone.name);
    for (const item of backbone.items) busOf.set(item.origin, backbone.name);
  }
  const over = (answers: readonly ViewAnswer[]): Pick<Support, 'devices' | 'links' | 'backbones'> => {
    const devices = new Set<string>();
    const links = new Set<string>();
    const backbones = new Set<string>();
    for (const { screen, source, path, hops } of answers) {
      for (const name of [screen, source, ...path]) devices.add(name);
      for (const { device, spot } of hops) {
        devices.add(device);
        if (linkOrigins.has(spot.origin)) links.add(spot.origin);
        const bus = busOf.get(spot.origin);
        if (bus !== undefined) backbones.add(bus);
      }
    }
    return { devices, links, backbones };
  };
  const found: Support[] = [];
  for (const { index, met, text, answers } of needs) {
    const need = vessel.needs[index];
    if (met !== true || need === undefined || need.kind === 'cost' || need.kind === 'last') continue;
    const support = over(answers);
    const named = [...support.devices, ...devicesOfNeed(need)];
    // Free ports go with the device that has them; capped tees with their bus.
    const medium = need.kind === 'spare' ? need.medium : undefined;
    const free =
      medium === undefined
        ? []
        : wiring.ports.filter((use) => use.port.medium === medium && use.on.length === 0);
    found.push({
      ...support,
      kind: 'need',
      text,
      need,
      view: undefined,
      devices: new Set([...named, ...free.map((use) => use.device)]),
      backbones:
        medium === 'nmea2000' ? new Set(vessel.backbones.map(({ name }) => name)) : support.backbones,
    });
  }
  const byPane = new Map<string, { view: View; text: string; seen: boolean; answers: ViewAnswer[] }>();
  for (const { view, pane, shown } of panes) {
    const one = byPane.get(pane.origin) ?? {
      view: { ...view, panes: [pane] },
      text: `${view.name}/${pane.name}`,
      seen: true,
      answers: [],
    };
    one.seen &&= shown.visible === true;
    one.answers.push(...shown.answers);
    byPane.set(pane.origin, one);
  }
  for (const { view, text, seen, answers } of byPane.values())
    if (seen) found.push({ ...over(answers), kind: 'pane', text, need: undefined, view });
  return found;
}

// ---------------------------------------------------------------- judged again

/** What is not there: devices that failed or have no power, links, and buses that carry nothing. */
interface Gone {
  readonly devices: ReadonlySet<string>;
  readonly links: ReadonlySet<string>;
  readonly backbones: ReadonlySet<string>;
}

/** Judges supports with something gone. Many failures come to the same: a feed, its fuse, what it feeds. */
function createJudge(context: Context): (gone: Gone, touched: readonly Support[]) => ReadonlySet<Support> {
  const { vessel, lookup, wiring, energy } = context;
  // One of its own: what it remembers is of no use to anybody else.
  const whole = createSharing(vessel, lookup, wiring, context.ethernet);
  const known = new Map<string, ReadonlySet<Support>>();
  return (gone, touched) => {
    const key = [gone.devices, gone.links, gone.backbones]
      .map((set) => [...set].sort().join('\n'))
      .join('\n\n');
    const before = known.get(key);
    if (before) return before;
    const isWhole = gone.links.size + gone.backbones.size === 0;
    const left = isWhole ? wiring : wiringWithout(wiring, gone);
    const ethernet = isWhole ? context.ethernet : createEthernet(vessel, lookup, left);
    const sharing = isWhole ? whole : createSharing(vessel, lookup, left, ethernet);
    const lost = lostOf(touched, {
      vessel,
      lookup,
      wiring: left,
      ethernet,
      sharing: without(sharing, gone.devices),
      energy,
      gone,
    });
    known.set(key, lost);
    return lost;
  };
}

function wiringWithout(wiring: Wiring, { links, backbones }: Gone): Wiring {
  return {
    ...wiring,
    links: wiring.links.filter(({ link }) => !links.has(link.origin)),
    linksAt: (device) => wiring.linksAt(device).filter(({ link }) => !links.has(link.origin)),
    backbones: wiring.backbones.filter(({ backbone }) => !backbones.has(backbone.name)),
  };
}

/** The same questions with devices off, which then give nothing either. */
function without(sharing: Sharing, gone: ReadonlySet<string>): Sharing {
  const off = (more: ReadonlySet<string> | undefined): ReadonlySet<string> =>
    more === undefined || more.size === 0 ? gone : new Set([...gone, ...more]);
  return {
    ...sharing,
    answer: (screen, source, signal, more) => sharing.answer(screen, source, signal, off(more)),
    hears: (device, source, signal, more) => sharing.hears(device, source, signal, off(more)),
    rate: (device, source, signal, more) => sharing.rate(device, source, signal, off(more)),
    standsFor: (device, signal) => sharing.standsFor(device, signal).filter((one) => !gone.has(one.source)),
  };
}

/** Ports that a link or a feed leaves behind, as on a spec in which it is crossed out. */
function freed(vessel: Vessel, wiring: Wiring, { devices, links }: Gone): Wiring {
  const isGone = (end: End): boolean => end.device !== undefined && devices.has(end.device);
  const off = new Set([
    ...links,
    ...vessel.links.filter(({ a, b }) => isGone(a) || isGone(b)).map(({ origin }) => origin),
    ...vessel.feeds.filter(({ from, to }) => isGone(from) || to.every(isGone)).map(({ origin }) => origin),
  ]);
  return {
    ...wiring,
    useOf: (device, port) => wiring.useOf(device, port).filter(({ spot }) => !off.has(spot.origin)),
  };
}

interface Remains {
  readonly vessel: Vessel;
  readonly lookup: Lookup;
  readonly wiring: Wiring;
  readonly ethernet: Ethernet;
  readonly sharing: Sharing;
  /** Of the boat whole: needs for hours on a bank are not asked here. */
  readonly energy: Energy;
  readonly gone: Gone;
}

function lostOf(touched: readonly Support[], remains: Remains): ReadonlySet<Support> {
  const { vessel, lookup, wiring, ethernet, sharing, energy, gone } = remains;
  const needs = touched.filter((one) => one.kind === 'need');
  const left: Vessel = {
    ...vessel,
    devices: vessel.devices.filter((device) => !gone.devices.has(device.name)),
    backbones: vessel.backbones.filter((backbone) => !gone.backbones.has(backbone.name)),
    needs: needs.flatMap(({ need }) => need ?? []),
    absent: [...vessel.absent, ...gone.devices],
  };
  const results = computeNeeds(left, {
    lookup,
    wiring: needs.some(({ need }) => need?.kind === 'spare') ? freed(vessel, wiring, gone) : wiring,
    sharing,
    hearing: createHearing(left, lookup, ethernet, sharing, gone.devices),
    energy,
  });
  const lost = new Set(needs.filter((_, index) => results[index]?.met !== true));
  for (const support of touched) {
    if (!support.view) continue;
    if (devicesOfView(support.view).some((device) => gone.devices.has(device))) {
      lost.add(support);
      continue;
    }
    const layers = computePanes({ ...vessel, views: [support.view] }, lookup, sharing);
    if (layers.some((layer) => layer.shown.visible !== true)) lost.add(support);
  }
  return lost;
}
