/** Completion: offers what would be valid at the cursor, and nothing else. */
import type { LangiumDocument, MaybePromise } from 'langium';
import type { CompletionProvider, CompletionProviderOptions } from 'langium/lsp';
import {
  CompletionTriggerKind,
  MarkupKind,
  type CompletionClientCapabilities,
  type CompletionList,
  type CompletionParams,
} from 'vscode-languageserver';
import * as ast from '../../generated/ast.js';
import { Boat, type BoatServices } from './boat.js';
import { cursorAt, type InString, type InText, type Reader } from './cursor.js';
import { paths } from './offers/paths.js';
import { isUnit, suggestionsAt } from './offers/table.js';
import { around, isAwaited, placesAt, type Place } from './place.js';
import { textOf, type Part } from './reading/parts.js';
import { itemsOf, type Abilities, type Suggestion } from './suggestion.js';

export interface CompletionServices extends BoatServices {
  readonly reader: () => Reader;
  /** What the editor said it can do; undefined before it is initialised. */
  readonly client: () => CompletionClientCapabilities | undefined;
}

export class WireloftCompletionProvider implements CompletionProvider {
  readonly completionOptions: CompletionProviderOptions = { triggerCharacters: ['.', ':', ' ', '"'] };
  private reader: Reader | undefined;

  constructor(private readonly services: CompletionServices) {}

  getCompletion(document: LangiumDocument, params: CompletionParams): MaybePromise<CompletionList> {
    const offset = document.textDocument.offsetAt(params.position);
    this.reader ??= this.services.reader();
    const cursor = cursorAt(document, offset, this.reader);
    if (!cursor) return { isIncomplete: false, items: [] };
    const bySpace =
      params.context?.triggerKind === CompletionTriggerKind.TriggerCharacter &&
      params.context.triggerCharacter === ' ';
    const suggestions =
      cursor.kind === 'string' ? this.inString(document, cursor) : this.inText(document, cursor, bySpace);
    return {
      // What a space brings up is not all there is; typing on asks again.
      isIncomplete: bySpace,
      items: itemsOf(suggestions, cursor.span, offset, document, this.abilities()),
    };
  }

  private inString(document: LangiumDocument, cursor: InString): readonly Suggestion[] {
    return cursor.before?.text === 'use' ? paths(this.boat(document, cursor.span.start, [])) : [];
  }

  private inText(document: LangiumDocument, cursor: InText, bySpace: boolean): readonly Suggestion[] {
    const places = wanted(cursor, bySpace);
    const boat = this.boat(document, cursor.span.start, places);
    const found = places.flatMap((place) => suggestionsAt(place, boat));
    const text = document.textDocument.getText();
    return [
      ...found.map((suggestion) => spaced(suggestion, text)),
      ...this.unitsBehind(document, cursor, boat),
    ];
  }

  /** Units right behind a number that is being typed. */
  private unitsBehind(document: LangiumDocument, cursor: InText, boat: Boat): Suggestion[] {
    const { start, end } = cursor.span;
    const isNumber = /^\d+(\.\d+)?$/.test(document.textDocument.getText().slice(start, end));
    if (!isNumber || end !== cursor.offset || !this.reader) return [];
    const behind = cursorAt(document, end, this.reader, { start: end, end });
    if (behind?.kind !== 'text') return [];
    return placesAt(behind)
      .filter(isUnit)
      .flatMap((place) => suggestionsAt(place, boat))
      .map((suggestion) => ({ ...suggestion, text: ` ${suggestion.label}` }));
  }

  private boat(document: LangiumDocument, cursor: number, places: readonly Place[]): Boat {
    const [place] = places;
    const statement = place && around(place, 'LinkDecl', 'FeedDecl', 'TeeItem', 'TapItem');
    const option = place && around(place, 'OptionDecl');
    return new Boat(this.services, document, {
      cursor,
      statement: statement?.first?.offset ?? cursor,
      option: option && optionOf(document, option),
    });
  }

  private abilities(): Abilities {
    const item = this.services.client()?.completionItem;
    return {
      snippets: item?.snippetSupport === true,
      insertReplace: item?.insertReplaceSupport === true,
      markdown: item?.documentationFormat?.includes(MarkupKind.Markdown) === true,
    };
  }
}

/**
 * Every place, where the writer asked or typed a word. A space asks only for what has to come next: else the list would stand
 * in the way of whoever ends a line.
 */
function wanted(cursor: InText, bySpace: boolean): readonly Place[] {
  const places = placesAt(cursor);
  if (!bySpace || isAwaited(cursor)) return places;
  return cursor.before?.terminals.includes('NUMBER') ? places.filter(isUnit) : [];
}

/** The declaration of the option that is being typed in. */
function optionOf(document: LangiumDocument, part: Part): ast.OptionDecl | undefined {
  const name = textOf(part, 'name');
  return (document.parseResult.value as ast.Spec).statements
    .filter(ast.isOptionDecl)
    .find((option) => option.name === name);
}

/** A space where the word would stick to a sign before it. */
function spaced(suggestion: Suggestion, text: string): Suggestion {
  const start = suggestion.span?.start ?? 0;
  if (!/[:,>]$|--$/.test(text.slice(Math.max(0, start - 2), start))) return suggestion;
  const written = suggestion.text ?? suggestion.label;
  return {
    ...suggestion,
    text: ` ${written}`,
    ...(suggestion.snippet === undefined ? {} : { snippet: ` ${suggestion.snippet}` }),
  };
}
