/** The boat as somebody would write it who has crossed something out: with what is plugged into it, and nothing else. */
import type { Failure } from '../../src/checks/analysis.js';
import type { BackboneItem, End, Vessel } from '../../src/vessel/model.js';

const on = (end: End | undefined, name: string): boolean => end?.device === name;

/** Without one device, its links, its ends of feeds, its tees and taps. */
export function withoutDevice(vessel: Vessel, name: string): Vessel {
  return {
    ...vessel,
    devices: vessel.devices.filter((one) => one.name !== name),
    links: vessel.links.filter((one) => !on(one.a, name) && !on(one.b, name)),
    feeds: vessel.feeds.flatMap((one) => {
      const to = one.to.filter((end) => !on(end, name));
      return on(one.from, name) || to.length === 0 ? [] : [{ ...one, to }];
    }),
    backbones: vessel.backbones.map((one) => ({
      ...one,
      items: one.items.flatMap((item): BackboneItem[] => {
        if (item.kind === 'terminator') return item.in === name ? [] : [item];
        if (item.kind === 'tap') return on(item.from, name) ? [] : [item];
        if (item.kind !== 'tee') return [item];
        if (on(item.end, name)) return [];
        return [{ ...item, branches: item.branches.filter(({ end }) => !on(end, name)) }];
      }),
    })),
  };
}

export const withoutBackbone = (vessel: Vessel, name: string): Vessel => ({
  ...vessel,
  backbones: vessel.backbones.filter((one) => one.name !== name),
});

/** Without what fails. A fuse takes the conductor that it is in, or the one leg at whose far end it sits. */
export function crossedOut(vessel: Vessel, { kind, what, name, spot }: Failure): Vessel {
  const { origin, part = '' } = spot;
  const items = (keep: (item: BackboneItem) => BackboneItem | undefined): Vessel => ({
    ...vessel,
    backbones: vessel.backbones.map((one) => ({
      ...one,
      items: one.items.flatMap((item) => keep(item) ?? []),
    })),
  });
  const number = Number(/\d+$/.exec(part)?.[0] ?? '0');
  if (kind === 'device') return withoutDevice(vessel, name);
  if (kind === 'bus') return withoutBackbone(vessel, name);
  if (what === 'drop')
    return items((item) => {
      if (item.kind !== 'tee' || item.origin !== origin) return item;
      if (part === 'end') return { ...item, end: undefined, branches: [] };
      return { ...item, branches: item.branches.filter((_, index) => index !== number) };
    });
  if (kind === 'cable') return { ...vessel, links: vessel.links.filter((one) => one.origin !== origin) };
  const bare = items((item) => (item.origin === origin ? undefined : item));
  return {
    ...bare,
    feeds: bare.feeds.flatMap((one) => {
      if (one.origin !== origin) return [one];
      const at = kind === 'fuse' ? one.protections[number]?.at : undefined;
      const left = at === undefined || at === one.from.device ? [] : one.to.filter((end) => !on(end, at));
      return left.length === 0 || left.length === one.to.length ? [] : [{ ...one, to: left }];
    }),
  };
}
