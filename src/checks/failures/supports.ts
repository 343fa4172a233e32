/** What needs and panes rest on: devices, links and buses that their answers go over. */
import type { Need, View } from '../../vessel/model.js';
import { devicesOfNeed } from '../../vessel/options/names.js';
import type { ViewAnswer } from '../analysis.js';
import type { Context } from '../context.js';

/** A need that is met or a pane that is shown, with what its answers go over. */
export interface Support {
  readonly kind: 'need' | 'pane';
  readonly text: string;
  readonly need: Need | undefined;
  readonly view: View | undefined;
  readonly devices: ReadonlySet<string>;
  readonly links: ReadonlySet<string>;
  readonly backbones: ReadonlySet<string>;
}

export function supportsOf({ vessel, needs, panes, wiring }: Context): readonly Support[] {
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
