/** Models, cables, joints and families. */
import type { Cable, Medium, Model } from '../../../../vessel/model.js';
import { isCabled, isLinkable } from '../../../../checks/wiring/fit.js';
import type { Boat } from '../boat.js';
import { cableDetail, modelDetail } from '../details.js';
import { linkMedia } from '../fitting.js';
import { around, type Place } from '../place.js';
import { partOf, partsOf, textOf, type Part } from '../reading/parts.js';
import { kinds, type Suggestion } from '../suggestion.js';
import { mayReplace } from './devices.js';
import { documented, written, type Offer } from './offer.js';

function modelsWhere(boat: Boat, rankOf: (model: Model) => number | undefined): Suggestion[] {
  return boat.declared('ModelDecl').flatMap(([, node]) => {
    const model = boat.model(node);
    const rank = model && rankOf(model);
    return model && rank !== undefined
      ? [{ label: model.name, kind: kinds.model, detail: modelDetail(model), ...documented(node), rank }]
      : [];
  });
}

/** Models after a device's name. An alternative is of the class of the first; what only joins cables comes last. */
export const models: Offer = (place, boat) => {
  const there = written(place);
  const [first] = there;
  const base = first === undefined || first === '' ? undefined : modelNamed(first, boat);
  return modelsWhere(boat, (model) => {
    if (there.has(model.name)) return undefined;
    if (base && base.class !== model.class) return undefined;
    return model.class === 'joint' ? 1 : 0;
  });
};

function modelNamed(name: string, boat: Boat): Model | undefined {
  return boat.model(boat.declared('ModelDecl').find(([known]) => known === name)?.[1]);
}

/** What a device may be changed for: another model of its class that works in its families. */
export const changes: Offer = (place, boat) => {
  const now = boat.device(textOf(place.part, 'device'))?.model;
  return now ? modelsWhere(boat, (model) => (mayReplace(model, now) ? 0 : undefined)) : [];
};

/** Joints: those with ports of the medium of the cable before those without any port. */
export const joints: Offer = (place, boat) => {
  const media = mediaAt(place, boat);
  return modelsWhere(boat, (model) => {
    if (model.class !== 'joint') return undefined;
    if (model.ports.length === 0) return 1;
    return media === undefined || model.ports.some((port) => media.has(port.medium)) ? 0 : undefined;
  });
};

export const families: Offer = (place, boat) => {
  const there = written(place);
  return boat
    .declared('FamilyDecl')
    .filter(([name]) => !there.has(name))
    .map(([name, node]) => ({
      label: name,
      kind: kinds.family,
      detail: node.title ?? 'family',
      ...documented(node),
    }));
};

/** Cables of the medium of the link, feed or backbone; sealed ones first where an end is in a wet place. */
export const cables: Offer = (place, boat) => {
  const media = mediaAt(place, boat);
  const wet = isWet(place, boat);
  return boat
    .cables()
    .filter(({ cable }) => media?.has(cable.medium) ?? (isCabled(cable.medium) && isLinkable(cable.medium)))
    .map(({ node, cable }) => ({
      label: cable.name,
      kind: kinds.cable,
      detail: cableDetail(cable),
      ...documented(node),
      rank: rankOf(cable, wet, boat, node),
    }));
};

/** Sealed before open in a wet place; what a catalogue sells before what is cut from the library's reel. */
function rankOf(cable: Cable, wet: boolean, boat: Boat, node: Parameters<typeof documented>[0]): number {
  const bundled = boat.closure?.names.goods.get(cable.name)?.[0] === node && cable.stock.length === 0;
  return (wet && !cable.sealed ? 2 : 0) + (bundled ? 1 : 0);
}

/** Media of the cable at the cursor; undefined where it may be any. */
function mediaAt(place: Place, boat: Boat): ReadonlySet<Medium> | undefined {
  const owner = around(place, 'LinkDecl', 'FeedDecl', 'TapItem', 'BackboneDecl', 'TeeItem', 'SpanItem');
  switch (owner?.type) {
    case 'LinkDecl':
      return linkMedia(place.whole(owner), boat);
    case 'FeedDecl':
    case 'TapItem':
      return new Set<Medium>(['dc']);
    case undefined:
      return undefined;
    default:
      return new Set<Medium>(['nmea2000']);
  }
}

function isWet(place: Place, boat: Boat): boolean {
  const owner = around(place, 'LinkDecl', 'FeedDecl', 'TapItem', 'TeeItem');
  if (!owner) return false;
  const whole: Part = place.whole(owner);
  const ends = [
    partOf(whole, 'a'),
    partOf(whole, 'b'),
    partOf(whole, 'end'),
    partOf(whole, 'from'),
    ...partsOf(whole, 'to'),
  ];
  return ends.some((end) => boat.exposureOf(boat.device(end && textOf(end, 'device')))?.wet === true);
}
