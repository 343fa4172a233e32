/** From connections as written to the ports they use. */
import type { Vessel } from '../../vessel/model.js';
import type { Lookup } from '../../vessel/lookup.js';
import { compareText } from '../../vessel/words.js';
import type { Spot } from '../../vessel/origin.js';
import type { PortOfDevice, PortUse } from '../analysis.js';
import { once } from '../once.js';
import { resolveBuses } from './buses.js';
import { createLedger } from './ledger.js';
import { resolveLinks } from './links.js';
import { resolveSupply } from './supply.js';
import { endText, portText, type Problem, type ResolvedLink, type Wiring } from './wiring.js';

/** Work out the wiring of a vessel. */
export function resolveWiring(vessel: Vessel, lookup: Lookup): Wiring {
  const problems: Problem[] = [];
  const ledger = createLedger();
  const links = resolveLinks(lookup, vessel.links, ledger, problems);
  const taps = [...vessel.backbones]
    .sort((x, y) => compareText(x.origin, y.origin))
    .flatMap(({ name, items }) =>
      items.flatMap((item) =>
        item.kind === 'tap' ? [{ from: item.from, origin: item.origin, backbone: name }] : [],
      ),
    );
  const supply = resolveSupply(lookup, vessel.feeds, taps, ledger, problems);
  const backbones = resolveBuses(lookup, vessel.backbones, supply.taps, ledger, problems);

  const uses = new Map<string, { readonly what: string; readonly spot: Spot }[]>();
  const use = (at: PortOfDevice | undefined, what: string, spot: Spot): void => {
    if (at === undefined) return;
    const key = portText(at);
    const list = uses.get(key);
    if (list === undefined) uses.set(key, [{ what, spot }]);
    else list.push({ what, spot });
  };
  const linksAt = new Map<string, ResolvedLink[]>();
  for (const wired of [...links].sort((x, y) => compareText(x.link.origin, y.link.origin))) {
    const { link } = wired;
    for (const device of new Set([link.a.device, link.b.device])) {
      if (device === undefined) continue;
      const list = linksAt.get(device);
      if (list === undefined) linksAt.set(device, [wired]);
      else list.push(wired);
    }
    if (wired.state === 'refused') continue;
    use(wired.a, wired.b === undefined ? endText(link.b) : portText(wired.b), { origin: link.origin });
    use(wired.b, wired.a === undefined ? endText(link.a) : portText(wired.a), { origin: link.origin });
  }
  for (const { feed, from, to } of supply.feeds) {
    const spot = { origin: feed.origin };
    const texts = feed.to.map((end, index) => {
      const at = to[index];
      return at === undefined ? endText(end) : portText(at);
    });
    use(from, texts.join(', '), spot);
    for (const at of to) use(at, from === undefined ? endText(feed.from) : portText(from), spot);
  }
  for (const { backbone, members, taps: tapped } of backbones) {
    for (const member of members) {
      if (member.port !== undefined)
        use({ device: member.device, port: member.port }, `backbone ${backbone.name}`, member.spot);
    }
    for (const at of tapped) use(at, `backbone ${backbone.name}`, { origin: backbone.origin });
  }
  for (const list of uses.values())
    list.sort((x, y) => compareText(x.what, y.what) || compareText(x.spot.origin, y.spot.origin));
  const useOf = (device: string, port: string): PortUse['on'] => uses.get(`${device}.${port}`) ?? [];
  const allPorts = once(() =>
    vessel.devices.flatMap((device) =>
      (lookup.modelOf(device.name)?.ports ?? []).map((port) => ({
        device: device.name,
        port,
        on: useOf(device.name, port.name),
      })),
    ),
  );
  return {
    links,
    feeds: supply.feeds,
    backbones,
    // A boat has many ports, and no check asks for all of them.
    get ports() {
      return allPorts();
    },
    problems,
    useOf,
    linksAt: (device) => linksAt.get(device) ?? [],
  };
}
