/** Remembering what was worked out of a document, for as long as neither its text nor where its names lead has changed. */
import type { LangiumDocument } from 'langium';

/**
 * Keeps one value for each document. Unlinking a document gives it a new array of references, so that array and the tree
 * stand for the state in which the value was made.
 */
export class SinceLinked<T> {
  private readonly kept = new WeakMap<object, { readonly tree: object; readonly value: T }>();

  /** The value of a document, made if there is none of its present state. */
  of(document: LangiumDocument, make: () => T): T {
    const tree = document.parseResult.value;
    const known = this.kept.get(document.references);
    if (known?.tree === tree) return known.value;
    const value = make();
    this.kept.set(document.references, { tree, value });
    return value;
  }
}
