/** Zones, runs and exposures. */
import { runDetail, zoneDetail } from '../details.js';
import { textOf } from '../reading/parts.js';
import { kinds } from '../suggestion.js';
import { documented, written, type Offer } from './offer.js';

/** Zones, but for the one at the other end of a run or span, and the one that a device's face is in. */
export const zones: Offer = (place, boat) => {
  const taken = ['from', 'to', 'zone', 'back']
    .filter((property) => property !== place.property)
    .map((property) => textOf(place.whole(place.part), property));
  return boat
    .declared('ZoneDecl')
    .filter(([name]) => !taken.includes(name))
    .map(([name, node]) => ({
      label: name,
      kind: kinds.zone,
      detail: zoneDetail(node),
      ...documented(node),
    }));
};

/** Runs that have a name and are not on the way yet. */
export const runs: Offer = (place, boat) => {
  const there = written(place);
  return boat
    .declared('RunDecl')
    .filter(([name]) => !there.has(name))
    .map(([name, node]) => ({ label: name, kind: kinds.run, detail: runDetail(node), ...documented(node) }));
};

export const exposures: Offer = (_place, boat) =>
  boat.declared('ExposureDecl').map(([name, node]) => ({
    label: name,
    kind: kinds.word,
    detail: [node.title, ...node.properties.map((property) => property.$cstNode?.text.replace(/\s+/g, ' '))]
      .filter((piece) => piece !== undefined)
      .join(', '),
    ...documented(node),
  }));
