/** A vessel without some of its devices: what hangs on them goes with them. */
import type { Backbone, BackboneItem, Conductor, End, Feed, Need, Vessel, View } from '../model.js';

/**
 * Take devices out, with their links, their ends of feeds, the fuses at them, their tees, and the panes that show them. Needs stay
 * whatever they name: what the boat must do does not change with what is aboard. `Vessel.absent` says what is gone.
 */
export function withoutDevices(vessel: Vessel, gone: ReadonlySet<string>): Vessel {
  const out = vessel.devices.filter((device) => gone.has(device.name)).map((device) => device.name);
  if (out.length === 0) return vessel;
  const stays = (name: string | undefined): boolean => name === undefined || !gone.has(name);
  const endStays = (end: End): boolean => stays(end.device);
  return {
    ...vessel,
    devices: vessel.devices
      .filter((device) => !gone.has(device.name))
      .map((device) =>
        device.syncedWith.every(stays) ? device : { ...device, syncedWith: device.syncedWith.filter(stays) },
      ),
    links: vessel.links.filter((link) => endStays(link.a) && endStays(link.b)),
    feeds: vessel.feeds.flatMap((feed) => feedWithout(feed, stays)),
    backbones: vessel.backbones.map((backbone) => backboneWithout(backbone, stays)),
    needs: vessel.needs.map((need) => needWithout(need, stays)),
    modes: vessel.modes.map((mode) => ({
      ...mode,
      duties: mode.duties.filter((duty) => duty.kind === 'others' || stays(duty.device)),
    })),
    views: vessel.views.flatMap((view) => viewWithout(view, stays)),
    negatives: vessel.negatives.flatMap((negative) => {
      const banks = negative.banks.filter(stays);
      return banks.length === 0 ? [] : [{ ...negative, banks }];
    }),
    preferences: vessel.preferences.flatMap((preference) => {
      const from = preference.from.filter(stays);
      return from.length === 0 && preference.from.length > 0 ? [] : [{ ...preference, from }];
    }),
    absent: [...new Set([...vessel.absent, ...out])].sort(),
  };
}

type Stays = (name: string | undefined) => boolean;

function conductorWithout<T extends Conductor>(conductor: T, stays: Stays): T {
  return { ...conductor, protections: conductor.protections.filter(({ at }) => stays(at)) };
}

function feedWithout(feed: Feed, stays: Stays): readonly Feed[] {
  const to = feed.to.filter((end) => stays(end.device));
  if (!stays(feed.from.device) || (to.length === 0 && feed.to.length > 0)) return [];
  return [conductorWithout({ ...feed, to }, stays)];
}

function backboneWithout(backbone: Backbone, stays: Stays): Backbone {
  return { ...backbone, items: backbone.items.flatMap((item) => itemWithout(item, stays)) };
}

function itemWithout(item: BackboneItem, stays: Stays): readonly BackboneItem[] {
  switch (item.kind) {
    case 'terminator':
      // A terminator that is built into a device leaves with it.
      return stays(item.in) ? [item] : [];
    case 'tee':
      if (item.end !== undefined && !stays(item.end.device)) return [];
      return [{ ...item, branches: item.branches.filter((branch) => stays(branch.end.device)) }];
    case 'tap':
      return stays(item.from.device) ? [{ ...item, conductor: conductorWithout(item.conductor, stays) }] : [];
    case 'span':
    case 'isolate':
    case 'ground':
      return [item];
  }
}

/** What is not aboard is off in any case. */
function needWithout(need: Need, stays: Stays): Need {
  if (need.kind !== 'show' || need.without.every(stays)) return need;
  return { ...need, without: need.without.filter(stays) };
}

function viewWithout(view: View, stays: Stays): readonly View[] {
  if (!stays(view.screen)) return [];
  const panes = view.panes.filter((pane) => pane.layers.every((layer) => stays(layer.device)));
  return panes.length === 0 && view.panes.length > 0 ? [] : [{ ...view, panes }];
}
