/** Remembering what was worked out of a document, for as long as neither its text nor where its names lead has changed. */
import type { LangiumDocument } from 'langium';

/**
 * Keeps one value for each document. Unlinking a document gives it a new array of references, so that array and the tree
 * stand for the state in which the value was made.
 */
export class SinceLinked<T> {
  private readonly kept = new WeakMap<object, { readonly tree: object; readonly value: T }>();

  constructor(private readonly make: (document: LangiumDocument) => T) {}

  of(document: LangiumDocument): T {
    const tree = document.parseResult.value;
    const known = this.kept.get(document.references);
    if (known?.tree === tree) return known.value;
    const value = this.make(document);
    this.kept.set(document.references, { tree, value });
    return value;
  }
}
