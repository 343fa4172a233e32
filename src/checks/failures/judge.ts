/** Judges needs and panes again with something gone. */
import type { End, Vessel } from '../../vessel/model.js';
import type { Lookup } from '../../vessel/lookup.js';
import { devicesOfView } from '../../vessel/options/names.js';
import type { Context } from '../context.js';
import { createHearing } from '../data/data.js';
import { createEthernet, type Ethernet } from '../network/ethernet.js';
import { computeNeeds } from '../needs/needs.js';
import { computePanes } from '../needs/panes.js';
import type { Energy } from '../power/energy/energy.js';
import { createSharing, type Sharing } from '../sharing/sharing.js';
import type { Wiring } from '../wiring/wiring.js';
import type { LostDrop } from './elements.js';
import type { Support } from './supports.js';

/** What is not there: devices that failed or have no power, links, buses that carry nothing, and a drop. */
interface Gone {
  readonly devices: ReadonlySet<string>;
  readonly links: ReadonlySet<string>;
  readonly backbones: ReadonlySet<string>;
  readonly drop: LostDrop | undefined;
}

/** Judges supports with something gone. Many failures come to the same: a feed, its fuse, what it feeds. */
export function createJudge(
  context: Context,
): (gone: Gone, touched: readonly Support[]) => ReadonlySet<Support> {
  const { vessel, lookup, wiring, energy } = context;
  // One of its own: what it remembers is of no use to anybody else.
  const whole = createSharing(vessel, lookup, wiring, context.ethernet);
  const known = new Map<string, ReadonlySet<Support>>();
  return (gone, touched) => {
    const { drop } = gone;
    const key = [
      ...[gone.devices, gone.links, gone.backbones].map((set) => [...set].sort().join('\n')),
      drop === undefined ? '' : [drop.backbone, ...drop.devices].join('\n'),
    ].join('\n\n');
    const before = known.get(key);
    if (before) return before;
    const isWhole = gone.links.size + gone.backbones.size === 0 && drop === undefined;
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

function wiringWithout(wiring: Wiring, { links, backbones, drop }: Gone): Wiring {
  const isOff = (backbone: string, device: string): boolean =>
    drop?.backbone === backbone && drop.devices.includes(device);
  return {
    ...wiring,
    links: wiring.links.filter(({ link }) => !links.has(link.origin)),
    linksAt: (device) => wiring.linksAt(device).filter(({ link }) => !links.has(link.origin)),
    backbones: wiring.backbones.flatMap((wired) => {
      const { name } = wired.backbone;
      if (backbones.has(name)) return [];
      const members = wired.members.filter(({ device }) => !isOff(name, device));
      return [members.length === wired.members.length ? wired : { ...wired, members }];
    }),
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
