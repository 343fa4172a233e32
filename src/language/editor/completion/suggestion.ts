/** What is offered, and how it goes to the editor. */
import type { LangiumDocument } from 'langium';
import {
  CompletionItemKind,
  InsertTextFormat,
  MarkupKind,
  type CompletionItem,
  type InsertReplaceEdit,
  type TextEdit,
} from 'vscode-languageserver';
import type { Span } from './cursor.js';

export interface Suggestion {
  readonly label: string;
  readonly kind: CompletionItemKind;
  /** One line. */
  readonly detail: string;
  readonly documentation?: string | undefined;
  /** What is written where it is not the label. */
  readonly text?: string;
  /** The same with places to fill in, for editors that have them. */
  readonly snippet?: string;
  /** What is replaced where it is not the word at the cursor. */
  readonly span?: Span;
  /** The lower, the earlier; nought where nothing is said. Within a rank, the order of the list holds. */
  readonly rank?: number;
}

/** What the editor can do with a suggestion. */
export interface Abilities {
  readonly snippets: boolean;
  readonly insertReplace: boolean;
  readonly markdown: boolean;
}

/** The items of a list, the best first. */
export function itemsOf(
  suggestions: readonly Suggestion[],
  span: Span,
  offset: number,
  document: LangiumDocument,
  abilities: Abilities,
): CompletionItem[] {
  const seen = new Set<string>();
  const distinct = suggestions.filter(({ label }) => !seen.has(label) && seen.add(label));
  return distinct
    .map((suggestion, index) => ({ suggestion, order: (suggestion.rank ?? 0) * 100_000 + index }))
    .sort((a, b) => a.order - b.order)
    .map(({ suggestion }, index) =>
      item(
        suggestion,
        index,
        edit(suggestion, suggestion.span ?? span, offset, document, abilities),
        abilities,
      ),
    );
}

function item(
  { label, kind, detail, documentation, snippet }: Suggestion,
  index: number,
  textEdit: TextEdit | InsertReplaceEdit,
  { snippets, markdown }: Abilities,
): CompletionItem {
  return {
    label,
    kind,
    detail,
    sortText: String(index).padStart(5, '0'),
    filterText: label,
    textEdit,
    ...(snippet !== undefined && snippets ? { insertTextFormat: InsertTextFormat.Snippet } : {}),
    ...(documentation === undefined
      ? {}
      : {
          documentation: {
            kind: markdown ? MarkupKind.Markdown : MarkupKind.PlainText,
            value: documentation,
          },
        }),
  };
}

function edit(
  { label, text, snippet }: Suggestion,
  { start, end }: Span,
  offset: number,
  { textDocument }: LangiumDocument,
  { snippets, insertReplace }: Abilities,
): TextEdit | InsertReplaceEdit {
  const newText = snippets && snippet !== undefined ? snippet : (text ?? label);
  const from = textDocument.positionAt(start);
  const replace = { start: from, end: textDocument.positionAt(end) };
  return insertReplace
    ? { newText, insert: { start: from, end: textDocument.positionAt(Math.max(start, offset)) }, replace }
    : { newText, range: replace };
}

export const kinds = {
  keyword: CompletionItemKind.Keyword,
  declaration: CompletionItemKind.Snippet,
  property: CompletionItemKind.Property,
  device: CompletionItemKind.Variable,
  port: CompletionItemKind.Interface,
  model: CompletionItemKind.Class,
  cable: CompletionItemKind.Struct,
  family: CompletionItemKind.Enum,
  zone: CompletionItemKind.Module,
  run: CompletionItemKind.Field,
  signal: CompletionItemKind.Event,
  word: CompletionItemKind.EnumMember,
  unit: CompletionItemKind.Unit,
  value: CompletionItemKind.Value,
  mode: CompletionItemKind.Function,
  rule: CompletionItemKind.Constant,
  file: CompletionItemKind.File,
} as const;
