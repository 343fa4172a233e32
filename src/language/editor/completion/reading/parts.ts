/** What has been read: a tree that never changes, with what the rules assign, as far as the text goes. */
import type { Word } from './words.js';

/** What a rule is making of its words. */
export interface Part {
  /** The same for all later states of the part. */
  readonly id: number;
  readonly type: string;
  readonly isText: boolean;
  /** Undefined until a word of it has been read. */
  readonly first: Word | undefined;
  readonly last: Word | undefined;
  /** Inside its braces. */
  readonly open: boolean;
  readonly values: Value | undefined;
}

/** The last of a part's values, and those before it. */
export interface Value {
  readonly property: string | undefined;
  readonly content: Word | Part;
  readonly before: Value | undefined;
}

export const isPart = (content: Word | Part): content is Part => 'id' in content;

let count = 0;

export function newPart(type: string, isText: boolean): Part {
  count = (count + 1) % Number.MAX_SAFE_INTEGER;
  return { id: count, type, isText, first: undefined, last: undefined, open: false, values: undefined };
}

/** The part with one more word or part in it. */
export function grown(part: Part, property: string | undefined, content: Word | Part): Part {
  const first = isPart(content) ? content.first : content;
  const last = isPart(content) ? content.last : content;
  if (!first) return part;
  const open =
    isPart(content) || (content.text !== '{' && content.text !== '}') ? part.open : content.text === '{';
  const kept = property !== undefined || isPart(content) || part.isText;
  return {
    ...part,
    first: part.first ?? first,
    last: last ?? part.last,
    open,
    values: kept ? { property, content, before: part.values } : part.values,
  };
}

/** The text of a part that is one text, as one word. */
export function asWord(part: Part): Word | undefined {
  const { first, last } = part;
  if (!first || !last) return undefined;
  let text = '';
  for (let value = part.values; value; value = value.before)
    text = (isPart(value.content) ? (asWord(value.content)?.text ?? '') : value.content.text) + text;
  return { ...first, text, end: last.end };
}

/** The values of a property, in the order of the text. */
export function valuesOf(part: Part, property: string): (Word | Part)[] {
  const found: (Word | Part)[] = [];
  for (let value = part.values; value; value = value.before)
    if (value.property === property) found.unshift(value.content);
  return found;
}

/** The texts of a property. */
export function textsOf(part: Part, property: string): string[] {
  return valuesOf(part, property).flatMap((content) => (isPart(content) ? [] : [content.text]));
}

export function textOf(part: Part, property: string): string | undefined {
  return textsOf(part, property).at(-1);
}

/** The parts of a property. */
export function partsOf(part: Part, property: string): Part[] {
  return valuesOf(part, property).filter(isPart);
}

export function partOf(part: Part, property: string): Part | undefined {
  return partsOf(part, property).at(-1);
}

/** The part with an id, in a part and all that it holds. */
export function findPart(part: Part, id: number): Part | undefined {
  if (part.id === id) return part;
  for (let value = part.values; value; value = value.before) {
    const found = isPart(value.content) ? findPart(value.content, id) : undefined;
    if (found) return found;
  }
  return undefined;
}
