/** Devices by what they are for: screens, sources, banks, switches, engines. */
import type { DeviceClass, Model } from '../../../../vessel/model.js';
import { count } from '../../../../vessel/words.js';
import { covers } from '../../../../vessel/signals.js';
import type { Boat, DeviceAboard } from '../boat.js';
import { deviceDetail, joined } from '../details.js';
import { around, type Place } from '../place.js';
import { partOf, partsOf, textOf, textsOf, type Part } from '../reading/parts.js';
import { kinds, type Suggestion } from '../suggestion.js';
import { documented, written, type Offer } from './offer.js';

/** A device with something said of it. */
export function deviceItem(device: DeviceAboard, what?: string, rank = 0): Suggestion {
  return {
    label: device.name,
    kind: kinds.device,
    detail: joined(deviceDetail(device), what),
    ...documented(device.node),
    rank,
  };
}

/** Devices of a kind that are not in the list yet. */
function listed(
  is: (model: Model, device: DeviceAboard, boat: Boat) => boolean,
  what?: (model: Model) => string,
): Offer {
  return (place, boat) => {
    const there = written(place);
    return boat
      .devices()
      .filter(
        (device) => !there.has(device.name) && device.model !== undefined && is(device.model, device, boat),
      )
      .map((device) => deviceItem(device, device.model && what?.(device.model)));
  };
}

export const isScreen = (model: Model): boolean => model.shows.length > 0;
const ofClass =
  (...classes: readonly DeviceClass[]) =>
  (model: Model): boolean =>
    classes.includes(model.class);
const wants = (model: Model): boolean => model.wants.length > 0;

/** Current comes into it through a port, or through its network plug. */
const draws = (model: Model): boolean =>
  model.ports.some(
    (port) => port.dc?.draws !== undefined || port.dc?.direction === 'in' || port.medium === 'nmea2000',
  );
/** It charges a battery: a charger, an alternator, solar, a converter. */
const charges = (model: Model): boolean =>
  ofClass('charger', 'solar', 'engine', 'converter')(model) &&
  model.ports.some((port) => port.dc?.outVolts !== undefined || port.dc?.direction === 'out');
const cranks = (model: Model): boolean =>
  model.class === 'engine' && model.ports.some((port) => port.dc?.cranks !== undefined);
const sounds = (model: Model): boolean =>
  model.bandsHertz.length > 0 || ofClass('sonar', 'transducer')(model);

const signalNames = (signals: readonly { readonly signal: string }[]): string =>
  signals.map(({ signal }) => signal).join(', ');

export const screens: Offer = listed(isScreen, (model) => `shows ${model.shows.join(', ')}`);
export const batteries: Offer = listed(ofClass('battery'));
export const switches: Offer = listed(
  (model) => model.positions.length > 0,
  (model) => `positions ${model.positions.map((position) => position.name).join(', ')}`,
);
export const engines: Offer = listed(cranks);
export const chargers: Offer = (place, boat) => unlisted(listed(charges)(place, boat), place, 'ChargeDuty');
export const sounders: Offer = (place, boat) => {
  const own = textOf(around(place, 'DeviceDecl') ?? place.part, 'name');
  return listed((model, device) => sounds(model) && device.name !== own)(place, boat);
};

/** What a mode may switch on, and has not yet. */
export const loads: Offer = (place, boat) => unlisted(listed(draws)(place, boat), place, 'OnDuty');

function unlisted(suggestions: readonly Suggestion[], place: Place, duty: string): Suggestion[] {
  const mode = around(place, 'ModeDecl');
  const named = new Set(
    mode
      ? partsOf(place.whole(mode), 'duties')
          .filter((part) => part.type === duty)
          .flatMap((part) => partsOf(part, 'items').flatMap((item) => textOf(item, 'device') ?? []))
      : [],
  );
  return suggestions.filter(({ label }) => !named.has(label));
}

/** After `need`: screens, then banks, then what hears; only those that can do what the need goes on to say. */
export const subjects: Offer = (place, boat) => {
  const goal = place.whole(place.part);
  const ability = partOf(goal, 'ability')?.type;
  const there = written(place);
  const ranks: readonly (readonly [string, (model: Model) => boolean, (model: Model) => string])[] = [
    ['ShowAbility', isScreen, () => 'a screen'],
    ['LastAbility', ofClass('battery'), () => 'a bank'],
    ['HearAbility', wants, (model) => `wants ${signalNames(model.wants)}`],
  ];
  return boat.devices().flatMap((device) => {
    const { model } = device;
    if (!model || there.has(device.name)) return [];
    const rank = ranks.findIndex(([type, is]) => (ability === undefined || ability === type) && is(model));
    const found = ranks[rank];
    return found ? [deviceItem(device, found[2](model), rank)] : [];
  });
};

/** What may be off: anything but the screens and sources of the need themselves. */
export const offDevices: Offer = (place, boat) => {
  const goal = around(place, 'NamedGoal');
  const named = new Set(goal ? textsOf(goal, 'subjects') : []);
  const wanted = new Set(partsOf(place.part, 'wanted').flatMap((source) => textOf(source, 'head') ?? []));
  return listed((model, device) => draws(model) && !named.has(device.name) && !wanted.has(device.name))(
    place,
    boat,
  );
};

/** Sources of the signal that is preferred. */
export const preferred: Offer = (place, boat) => {
  const signal = textOf(place.part, 'signal') ?? '';
  const gives = (model: Model): boolean =>
    model.gives.some((item) => covers(signal, item.signal) || covers(item.signal, signal));
  return listed(gives, (model) => `gives ${signalNames(model.gives)}`)(place, boat);
};

/** Devices with ports of the medium that is to be spare. */
export const spareOn: Offer = (place, boat) => {
  const medium = textOf(place.part, 'medium');
  const there = written(place);
  return boat.devices().flatMap((device) => {
    const ports = device.model?.ports.filter((port) => port.medium === medium) ?? [];
    if (ports.length === 0 || there.has(device.name)) return [];
    const free = ports.filter((port) => boat.isFree(device.name, port)).length;
    return [deviceItem(device, `${free} of ${ports.length} ${medium ?? ''} ports free`, free > 0 ? 0 : 1)];
  });
};

/** Devices with the terminator built in, free or on this backbone. */
export const terminators: Offer = (place, boat) => {
  const backbone = `backbone ${textOf(around(place, 'BackboneDecl') ?? place.part, 'name') ?? ''}`;
  return boat
    .devices()
    .flatMap((device) =>
      device.model?.ports.some(
        (port) => port.terminates && boat.uses(device.name, port.name).every((use) => use.what === backbone),
      )
        ? [deviceItem(device, 'has the terminator built in')]
        : [],
    );
};

/** The devices at whose end of a feed a fuse may sit. */
export const fuseEnds: Offer = (place, boat) => {
  const feed = around(place, 'FeedDecl', 'TapItem');
  const ends = feed ? endNames(feed) : [];
  return boat
    .devices()
    .filter((device) => ends.includes(device.name))
    .map((device) => {
      const isBank = device.model?.class === 'battery';
      return deviceItem(device, isBank ? 'fault current comes from here' : undefined, isBank ? 0 : 1);
    });
};

function endNames(feed: Part): string[] {
  return ['from', 'to'].flatMap((side) => partsOf(feed, side).flatMap((end) => textOf(end, 'device') ?? []));
}

/** Devices on the backbone that an option adds a tee to. */
export const besides: Offer = (place, boat) => {
  const name = textOf(place.part, 'backbone');
  const bus = boat.analysis?.backbones.find(({ backbone }) => backbone.name === name);
  const members = new Set(bus?.members.map((member) => member.device));
  return boat
    .devices()
    .filter((device) => members.has(device.name))
    .map((device) => deviceItem(device, `on backbone ${name ?? ''}`));
};

/** What an option may exchange: a device with another model in scope to change it for. */
export const changeable: Offer = (_place, boat) => {
  const models = boat.declared('ModelDecl').flatMap(([, node]) => boat.model(node) ?? []);
  return boat.devices().flatMap((device) => {
    const others = models.filter((model) => device.model && mayReplace(model, device.model));
    return others.length > 0 ? [deviceItem(device, count(others.length, 'other model'))] : [];
  });
};

/** Of the same class, and at home in one of its families. */
export const mayReplace = (model: Model, now: Model): boolean =>
  model.class === now.class &&
  model.name !== now.name &&
  (model.families.length === 0 ||
    now.families.length === 0 ||
    model.families.some((family) => now.families.includes(family)));
