/** Keywords: those that begin a property, feature, clause or item only where it fits and is not there yet. */
import type * as ast from '../../../generated/ast.js';
import { ALWAYS, rulesOf } from '../../../typing/keywords.js';
import {
  CABLE_PROPERTIES,
  CLAUSES,
  DEVICE_PROPERTIES,
  MODEL_PROPERTIES,
  PORT_FEATURES,
  VESSEL_PROPERTIES,
  type Property,
} from '../../../typing/properties.js';
import type { Boat } from '../boat.js';
import { around, heldAs, type Place } from '../place.js';
import { textOf, type Part } from '../reading/parts.js';
import { kinds, type Suggestion } from '../suggestion.js';
import { added, statement } from './declarations.js';
import { isInlineFitting, INLINE, ITEMS } from './inline.js';
import { begun } from './offer.js';

type Table = Readonly<Record<string, Property>>;

/** Properties that may be given more than once. */
const MANY: ReadonlySet<string> = new Set([
  'ModelDecl port',
  'ModelDecl passes',
  'ModelDecl loss',
  'CableDecl loss',
  'LinkDecl join',
  'FeedDecl join',
  'TapItem join',
]);

/** Words that do not go together. */
const EITHER: readonly (readonly string[])[] = [
  ['fuse', 'breaker', 'protected', 'cranking'],
  ['single', 'differential'],
  ['petrol', 'diesel'],
];

/** What a keyword at a place comes to; nothing where it does not fit. */
export function keyword(place: Place, boat: Boat): readonly Suggestion[] {
  if (place.word === '--' || place.word === '->')
    return [{ label: place.word, kind: kinds.keyword, detail: INLINE[place.word] ?? '' }];
  if (!/^[a-z]/.test(place.word)) return [];
  const owner = place.owners[0]?.part;
  const begins = place.part.first === undefined && owner !== undefined;
  switch (begins ? heldAs(place) : '') {
    case 'Spec.statements':
      return statement(place.word, boat);
    case 'AddEdit.declaration':
      return added(place.word);
    case 'ModelDecl.properties':
      return modelProperty(place, owner, boat);
    case 'PortDecl.features':
      return portFeature(place, owner, boat);
    case 'CableDecl.properties':
      return once(place, owner, 'properties', CABLE_PROPERTIES);
    case 'VesselDecl.properties':
      return once(place, owner, 'properties', VESSEL_PROPERTIES);
    case 'DeviceDecl.properties':
      return isOfDevice(place.word, owner, boat) ? once(place, owner, 'properties', DEVICE_PROPERTIES) : [];
    case 'LinkDecl.clauses':
    case 'FeedDecl.clauses':
    case 'TapItem.clauses':
    case 'ZoneDecl.clauses':
      return once(place, owner, 'clauses', CLAUSES);
    default:
      return other(place, boat);
  }
}

const item = (label: string, detail: string, rank = 0): Suggestion => ({
  label,
  kind: kinds.property,
  detail,
  rank,
});

function once(place: Place, owner: Part | undefined, property: string, table: Table, rank = 0): Suggestion[] {
  const { word } = place;
  if (!owner || isGiven(word, owner.type, begun(place, owner, property))) return [];
  return [item(word, table[word]?.doc ?? '', rank)];
}

function isGiven(word: string, type: string, given: ReadonlySet<string>): boolean {
  if (MANY.has(`${type} ${word}`)) return false;
  return (
    given.has(word) || EITHER.some((words) => words.includes(word) && words.some((other) => given.has(other)))
  );
}

/** What the class must have first, then what it may have, then what every model may. */
function modelProperty(place: Place, owner: Part | undefined, boat: Boat): Suggestion[] {
  const name = owner && textOf(owner, 'class');
  const declaration = boat.declared('ClassDecl').find(([known]) => known === name)?.[1];
  if (!declaration) return once(place, owner, 'properties', MODEL_PROPERTIES);
  const rank = rankIn(declaration, place.word, ALWAYS);
  if (rank === undefined || !owner) return [];
  const isThere = begun(place, owner, 'properties').has(place.word);
  return once(place, owner, 'properties', MODEL_PROPERTIES, rank === 0 && isThere ? 1 : rank);
}

/** Features of the port's medium. `in` takes and `out` gives; a direct-current port with both is a starter that charges. */
function portFeature(place: Place, owner: Part | undefined, boat: Boat): Suggestion[] {
  const name = owner && textOf(owner, 'medium');
  const declaration = boat.declared('MediumDecl').find(([known]) => known === name)?.[1];
  const given = owner ? begun(place, owner, 'features') : new Set<string>();
  const isOther = (place.word === 'in' && given.has('out')) || (place.word === 'out' && given.has('in'));
  if (!declaration || isOther) return [];
  const rank = rankIn(declaration, place.word, []);
  return rank === undefined ? [] : once(place, owner, 'features', PORT_FEATURES, rank);
}

function rankIn(
  declaration: ast.ClassDecl | ast.MediumDecl,
  word: string,
  always: readonly string[],
): number | undefined {
  const { must, may } = rulesOf(declaration);
  if (must.includes(word)) return 0;
  if (may.includes(word)) return 1;
  return always.includes(word) ? 2 : undefined;
}

/** Some properties belong to one class of device alone. */
function isOfDevice(word: string, owner: Part | undefined, boat: Boat): boolean {
  const name = owner && textOf(owner, 'models');
  const model = boat.model(boat.declared('ModelDecl').find(([known]) => known === name)?.[1]);
  if (!model) return true;
  switch (word) {
    case 'series':
    case 'parallel':
      return model.class === 'battery' || model.class === 'solar';
    case 'normally':
      return model.positions.length > 0;
    case 'synced':
      return model.bandsHertz.length > 0 || model.ports.some((port) => port.medium === 'transducer');
    default:
      return true;
  }
}

/** Items of blocks, and words inside a declaration. */
function other(place: Place, boat: Boat): Suggestion[] {
  const { word, part } = place;
  if (word === 'allow') return [item(word, CLAUSES['allow']?.doc ?? '', 4)];
  if (!isInlineFitting(place, boat)) return [];
  const detail = ITEMS[`${around(place)?.type ?? part.type} ${word}`] ?? ITEMS[`${part.type} ${word}`];
  return [{ label: word, kind: kinds.keyword, detail: detail ?? INLINE[word] ?? CLAUSES[word]?.doc ?? '' }];
}
