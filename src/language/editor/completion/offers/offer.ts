/** What an offer is: the suggestions for the values of one property. */
import type { AstNode } from 'langium';
import { docOf } from '../../../lowering/doc.js';
import type { WordList } from '../../../typing/words.js';
import type { Boat } from '../boat.js';
import type { Place } from '../place.js';
import { isPart, textsOf, valuesOf, type Part } from '../reading/parts.js';
import { kinds, type Suggestion } from '../suggestion.js';

export type Offer = (place: Place, boat: Boat) => readonly Suggestion[];

/** What stands in `///` above a declaration. */
export const documented = (node: AstNode): { documentation?: string } => {
  const documentation = docOf(node);
  return documentation === undefined ? {} : { documentation };
};

/** Words of a closed list. */
export const wordsFrom = (list: WordList): readonly Suggestion[] =>
  Object.entries(list).map(([label, detail]) => ({ label, kind: kinds.word, detail }));

/** Texts of a property that are written already, before or behind the cursor. */
export function written(
  place: Place,
  part: Part = place.part,
  property = place.property ?? '',
): ReadonlySet<string> {
  return new Set(textsOf(place.whole(part), property));
}

/** The keywords that the items of a property begin with, those that are written already. */
export function begun(place: Place, part: Part, property: string): ReadonlySet<string> {
  return new Set(
    valuesOf(place.whole(part), property).flatMap((item) =>
      isPart(item) ? (item.type === 'ServiceFeature' ? ['service'] : (item.first?.text ?? [])) : [],
    ),
  );
}
