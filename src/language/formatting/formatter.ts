/** Serves an editor's requests for the canonical layout. */
import type { LangiumDocument } from 'langium';
import type { Formatter } from 'langium/lsp';
import type {
  DocumentFormattingParams,
  DocumentOnTypeFormattingOptions,
  DocumentOnTypeFormattingParams,
  DocumentRangeFormattingParams,
  TextEdit,
} from 'vscode-languageserver';
import { isSpec } from '../generated/ast.js';
import { formattingChanges, type FormattingServices, type LineRange } from './format.js';

/** The layout has no options: the same text comes out of every editor. */
export class WireloftFormatter implements Formatter {
  constructor(private readonly services: FormattingServices) {}

  get formatOnTypeOptions(): DocumentOnTypeFormattingOptions {
    return { firstTriggerCharacter: '\n', moreTriggerCharacter: ['}'] };
  }

  formatDocument(document: LangiumDocument, _params: DocumentFormattingParams): TextEdit[] {
    return this.edits(document);
  }

  formatDocumentRange(document: LangiumDocument, { range }: DocumentRangeFormattingParams): TextEdit[] {
    const last =
      range.end.character === 0 && range.end.line > range.start.line ? range.end.line - 1 : range.end.line;
    return this.edits(document, { first: range.start.line, last });
  }

  /** After a line's end the line that was left is laid out, after a closing brace the statement that it ends. */
  formatDocumentOnType(
    document: LangiumDocument,
    { position, ch }: DocumentOnTypeFormattingParams,
  ): TextEdit[] {
    if (ch === '\n')
      return position.line === 0
        ? []
        : this.edits(document, { first: position.line - 1, last: position.line - 1 });
    return this.edits(document, { first: this.statementLine(document, position.line), last: position.line });
  }

  /** First line of the statement that is on a line. */
  private statementLine(document: LangiumDocument, line: number): number {
    const root = document.parseResult.value;
    if (!isSpec(root)) return line;
    const holder = root.statements.find(
      ({ $cstNode: cst }) => cst && cst.range.start.line <= line && line <= cst.range.end.line,
    );
    return holder?.$cstNode?.range.start.line ?? line;
  }

  private edits(document: LangiumDocument, lines?: LineRange): TextEdit[] {
    const { textDocument, parseResult } = document;
    const text = textDocument.getText();
    const current = parseResult.value.$cstNode?.root.fullText === text && isSpec(parseResult.value);
    const changes = formattingChanges(text, this.services, {
      ...(lines && { lines }),
      ...(current && isSpec(parseResult.value) && { parsed: { ...parseResult, value: parseResult.value } }),
    });
    return changes.map((change) => ({
      range: { start: textDocument.positionAt(change.start), end: textDocument.positionAt(change.end) },
      newText: change.text,
    }));
  }
}
