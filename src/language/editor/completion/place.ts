/** One thing that may stand at the cursor: a keyword, or a value of a property, with all that is known around it. */
import type { AstNode } from 'langium';
import { isPart, type Part } from './reading/parts.js';
import { ownersOf, type Owner, type Step } from './reading/reading.js';
import type { InText, Span } from './cursor.js';

export interface Place {
  readonly kind: 'keyword' | 'value';
  /** The keyword; the terminal of a value. */
  readonly word: string;
  /** What the value is of; undefined for a keyword that is kept nowhere. */
  readonly property: string | undefined;
  /** The part that the word goes to, and those around it from the inside out. */
  readonly part: Part;
  readonly owners: readonly Owner[];
  /** What is replaced. */
  readonly span: Span;
  /** Goes on with an item that was begun, rather than begin one in a block or a file. */
  readonly continues: boolean;
  readonly whole: (part: Part) => Part;
}

/** `Type.property` of the value, or of the item that a keyword begins. */
export function keyOf(place: Place): string {
  return place.property === undefined ? place.part.type : `${place.part.type}.${place.property}`;
}

/** `Type.property` under which the part is held by the one around it. */
export function heldAs({ owners }: Pick<Place, 'owners'>): string {
  const [owner] = owners;
  return owner ? `${owner.part.type}.${owner.property ?? ''}` : '';
}

/** The nearest part around the word, or the one it goes to, that is of a type. */
export function around(place: Place, ...types: readonly string[]): Part | undefined {
  return [place.part, ...place.owners.map((owner) => owner.part)].find((part) => types.includes(part.type));
}

/** The parts as far as they are known, in the shape of a node: for tables that ask a node's type and words. */
export function asNode(parts: readonly Part[]): AstNode {
  const [part, ...rest] = parts;
  const node: Record<string, unknown> = { $type: part?.type ?? '' };
  for (let value = part?.values; value; value = value.before)
    if (value.property !== undefined && !isPart(value.content)) node[value.property] ??= value.content.text;
  if (rest.length > 0) node['$container'] = asNode(rest);
  return node as unknown as AstNode;
}

/** The places at the cursor, those that go on with what was begun first. */
export function placesAt(cursor: InText): Place[] {
  const going: Place[] = [];
  const beginning: Place[] = [];
  for (const place of distinct(cursor.steps, cursor)) (place.continues ? going : beginning).push(place);
  if (!cursor.fresh) return [...going, ...beginning.filter((place) => !isStatement(place))];
  // White space means nothing to the language, and yet it tells what the writer is about: a line that is not indented
  // further than the item before it begins another, whether that one is whole or not.
  const deeper = going.filter((place) => cursor.column > indentOf(place, cursor));
  if (beginning.length > 0) return [...deeper, ...beginning];
  return deeper.length > 0 ? deeper : [...going, ...distinct(cursor.givenUp(), cursor)];
}

/** Whether something has to come next: what was begun cannot end here. */
export function isAwaited(cursor: InText): boolean {
  return cursor.steps.length > 0 && distinct(cursor.steps, cursor).every((place) => place.continues);
}

function distinct(steps: readonly Step[], cursor: InText): Place[] {
  const known = new Map<string, Place>();
  for (const place of steps.map((step) => placeOf(step, cursor))) {
    const key = `${place.kind} ${place.kind === 'keyword' ? place.word : ''} ${keyOf(place)} ${heldAs(place)}`;
    if (!known.has(key)) known.set(key, place);
  }
  return [...known.values()];
}

function placeOf({ reading, edge }: Step, cursor: InText): Place {
  let { part } = reading;
  let owners = ownersOf(reading);
  let { property } = edge;
  let { span } = cursor;
  const [owner] = owners;
  if (part.isText && owner) {
    span = { start: part.first?.offset ?? span.start, end: span.end };
    part = owner.part;
    property = owner.property;
    owners = owners.slice(1);
  }
  const begun = [part, ...owners.map((o) => o.part)].find((p) => p.first !== undefined || p.open);
  return {
    kind: 'keyword' in edge.match ? 'keyword' : 'value',
    word: 'keyword' in edge.match ? edge.match.keyword : edge.match.terminal,
    property,
    part,
    owners,
    span,
    continues: begun !== undefined && !begun.open,
    whole: cursor.whole,
  };
}

/** A keyword that begins a declaration of the file. */
function isStatement(place: Place): boolean {
  const inner = place.part.first === undefined ? place.owners[0]?.part : place.part;
  return inner?.type === 'Spec';
}

/** Indentation of the line on which the item that a place goes on with began. */
function indentOf(place: Place, cursor: InText): number {
  const begun = [place.part, ...place.owners.map((owner) => owner.part)].find((part) => part.first);
  return begun?.first ? cursor.indentOf(begun.first) : 0;
}
