/** Words of closed lists, and names that are only suggested. */
import type { Boat } from '../boat.js';
import {
  CHEMISTRIES,
  CONNECTIONS,
  HULLS,
  LOAD_KINDS,
  PRACTICES,
  SERVICES,
  SIDES,
  STATUSES,
} from '../../../typing/words.js';
import { CURRENCIES } from '../../../../vessel/units.js';
import { around } from '../place.js';
import { textOf, type Part } from '../reading/parts.js';
import { kinds, type Suggestion } from '../suggestion.js';
import { begun, documented, wordsFrom, written, type Offer } from './offer.js';

const currencies = (): Suggestion[] =>
  CURRENCIES.map((label) => ({ label, kind: kinds.word, detail: 'currency (ISO 4217)' }));

/** The value of practice, currency, hull or status. */
export const vesselWords: Offer = ({ part }) => {
  switch (textOf(part, 'key')) {
    case 'practice':
      return wordsFrom(PRACTICES);
    case 'hull':
      return wordsFrom(HULLS);
    case 'status':
      return wordsFrom(STATUSES);
    case 'currency':
      return currencies();
    default:
      return [];
  }
};

export const modelWords: Offer = ({ part }) =>
  wordsFrom(textOf(part, 'key') === 'kind' ? LOAD_KINDS : CHEMISTRIES);

/** Sides, and decks that other zones are on. */
export const zoneWords: Offer = ({ part }, boat) => {
  if (textOf(part, 'key') === 'side') return wordsFrom(SIDES);
  const decks = new Set(boat.analysis?.vessel.zones.flatMap((zone) => zone.deck ?? []));
  return [...decks].map((label) => ({ label, kind: kinds.word, detail: 'deck of another zone' }));
};

/** What an antenna port serves, where that is not said yet. */
export const services: Offer = (place) => {
  const port = place.owners[0]?.part;
  const medium = port && textOf(port, 'medium');
  const isSaid = port !== undefined && begun(place, port, 'features').has('service');
  return !isSaid && (medium === 'coax' || medium === 'wireless') ? wordsFrom(SERVICES) : [];
};

export const connections: Offer = () => wordsFrom(CONNECTIONS);

const CODES: Readonly<Record<string, string>> = {
  IP20: 'no water; kept from fingers',
  IP22: 'dripping water',
  IPX4: 'splashing water from any side',
  IPX5: 'water jets',
  IPX6: 'powerful water jets',
  IPX7: 'under water for a time',
  IPX8: 'under water for as long as its maker states',
  IP65: 'dust-tight, and water jets',
  IP66: 'dust-tight, and powerful water jets',
  IP67: 'dust-tight, and under water for a time',
};

/** Codes of IEC 60529 that gear aboard is declared with. */
export const codes: Offer = (place) => {
  const there = written(place);
  return wordsFrom(CODES)
    .filter(({ label }) => !there.has(label))
    .map((item) => ({ ...item, detail: `${item.detail} (IEC 60529)` }));
};

const PANES: Readonly<Record<string, string>> = {
  left: 'the left half',
  right: 'the right half',
  top: 'the upper half',
  bottom: 'the lower half',
  whole: 'the whole screen',
};

export const paneNames: Offer = (place) => {
  const view = around(place, 'ViewDecl');
  const there = new Set(view ? namesOf(place.whole(view)) : []);
  return wordsFrom(PANES)
    .filter(({ label }) => !there.has(label) && (label !== 'whole' || there.size === 0))
    .map((item) => ({ ...item, detail: `a pane: ${item.detail}`, text: `${item.label}: ` }));
};

function* namesOf(view: Part): Iterable<string> {
  for (let value = view.values; value; value = value.before)
    if (value.property === 'panes' && 'id' in value.content) {
      const name = textOf(value.content, 'name');
      if (name) yield name;
    }
}

// ---------------------------------------------------------------- what the library declares

export const classes: Offer = (_place, boat) =>
  boat.declared('ClassDecl').map(([name, node]) => ({
    label: name,
    kind: kinds.word,
    detail: node.title ?? 'class',
    ...documented(node),
  }));

export function mediaItems(boat: Boat, fits: (name: string) => boolean): Suggestion[] {
  return boat
    .declared('MediumDecl')
    .flatMap(([name, node]) =>
      fits(name)
        ? [{ label: name, kind: kinds.word, detail: node.title ?? 'medium', ...documented(node) }]
        : [],
    );
}

export const media: Offer = (_place, boat) => mediaItems(boat, () => true);

/** Media that some device aboard has ports of. */
export const spareMedia: Offer = (_place, boat) => {
  const aboard = new Set<string>(
    boat.devices().flatMap(({ model }) => model?.ports.map((port) => port.medium) ?? []),
  );
  return mediaItems(boat, (name) => aboard.has(name));
};

export const vessels: Offer = (_place, boat) =>
  boat.declared('VesselDecl').map(([name, node]) => ({
    label: name,
    kind: kinds.zone,
    detail: node.title ?? 'vessel',
    ...documented(node),
  }));

export const modes: Offer = (place, boat) => {
  const day = around(place, 'DayDecl');
  const there = new Set<string>();
  for (let value = day && place.whole(day).values; value; value = value.before)
    if (value.property === 'parts' && 'id' in value.content) there.add(textOf(value.content, 'mode') ?? '');
  return boat.declared('ModeDecl').map(([name, node]) => ({
    label: name,
    kind: kinds.mode,
    detail: `mode: ${node.duties.map((duty) => duty.$cstNode?.text.replace(/\s+/g, ' ')).join('; ')}`.slice(
      0,
      100,
    ),
    ...documented(node),
    rank: there.has(name) ? 1 : 0,
  }));
};

export const backbones: Offer = (_place, boat) =>
  boat.declared('BackboneDecl').map(([name, node]) => ({
    label: name,
    kind: kinds.device,
    detail: node.cable ? `backbone of ${node.cable.$refText}` : 'backbone',
    ...documented(node),
  }));

/** Positions of the switch that is set, with what each joins. */
export const positions: Offer = (place, boat) => {
  const device =
    place.part.type === 'SetDuty'
      ? textOf(place.part, 'device')
      : textOf(around(place, 'DeviceDecl') ?? place.part, 'name');
  const model =
    boat.device(device)?.model ??
    modelHere(textOf(around(place, 'DeviceDecl') ?? place.part, 'models'), boat);
  return (
    model?.positions.map((position) => ({
      label: position.name,
      kind: kinds.word,
      detail: position.joins.length > 0 ? `joins ${position.joins.join(' + ')}` : 'joins nothing',
    })) ?? []
  );
};

function modelHere(name: string | undefined, boat: Boat): ReturnType<Boat['model']> {
  return boat.model(boat.declared('ModelDecl').find(([known]) => known === name)?.[1]);
}
