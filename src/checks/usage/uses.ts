/** What of the declared things is used by something. */
import type { End, Vessel } from '../../vessel/model.js';

export interface Uses {
  readonly devices: ReadonlySet<string>;
  readonly models: ReadonlySet<string>;
  readonly cables: ReadonlySet<string>;
  /** Some connection or need has a name that is not declared: nothing may be concluded from an absence. */
  readonly incomplete: boolean;
}

/** Work out what links, feeds, backbones, needs and views name. Modes and preferences do not make a device used. */
export function collectUses(vessel: Vessel): Uses {
  const devices = new Set(vessel.usedByOptions);
  const models = new Set(vessel.usedByOptions);
  const cables = new Set(vessel.usedByOptions);
  let incomplete = false;
  const device = (name: string | undefined): void => {
    if (name !== undefined) devices.add(name);
  };
  const end = (one: End): void => {
    if (one.device === undefined) incomplete = true;
    device(one.device);
  };
  const cable = (name: string | undefined): void => {
    if (name !== undefined) cables.add(name);
  };
  for (const one of vessel.devices) for (const model of one.models) models.add(model);
  for (const link of vessel.links) {
    end(link.a);
    end(link.b);
    cable(link.cable);
  }
  for (const feed of vessel.feeds) {
    end(feed.from);
    for (const to of feed.to) end(to);
    cable(feed.cable);
  }
  for (const { joins } of [...vessel.links, ...vessel.feeds]) {
    for (const { model } of joins) if (model !== undefined) models.add(model);
  }
  for (const backbone of vessel.backbones) {
    cable(backbone.cable);
    for (const item of backbone.items) {
      if (item.kind === 'terminator') device(item.in);
      if (item.kind === 'span' || item.kind === 'tee') cable(item.cable);
      if (item.kind === 'tap') {
        end(item.from);
        cable(item.conductor.cable);
        for (const { model } of item.conductor.joins) if (model !== undefined) models.add(model);
      }
      if (item.kind === 'tee') {
        if (item.end !== undefined) end(item.end);
        for (const branch of item.branches) end(branch.end);
      }
    }
  }
  for (const need of vessel.needs) {
    if (need.kind === 'show') {
      incomplete ||= need.incomplete;
      for (const name of [...need.screens, ...need.without]) device(name);
      for (const wanted of need.wanted) device(wanted.device);
    } else if (need.kind === 'hear') for (const name of need.devices) device(name);
    else if (need.kind === 'spare') for (const name of need.on) device(name);
    else if (need.kind === 'last') for (const name of [need.bank, ...need.cranks]) device(name);
  }
  for (const view of vessel.views) {
    device(view.screen);
    for (const pane of view.panes) for (const layer of pane.layers) device(layer.device);
  }
  return { devices, models, cables, incomplete };
}

/** Whether a declaration is the boat's own: those of catalogues and of the library are shared, and may lie unused. */
export function isOfTheBoat(origin: string): boolean {
  return !origin.startsWith('catalogue ') && !origin.startsWith('builtin ');
}
