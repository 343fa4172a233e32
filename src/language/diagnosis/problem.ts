/** Making problems out of nodes and offsets. */
import { AstUtils, GrammarUtils, type AstNode, type CstNode, type LangiumDocument } from 'langium';
import type { Severity } from '../../checks/finding.js';
import type { Place } from '../../vessel/origin.js';
import type { Fix, Problem } from '../project/report.js';

export interface Extra {
  readonly related?: Problem['related'];
  readonly fixes?: readonly Fix[];
  readonly severity?: Severity;
}

export function problem(rule: string, message: string, place: Place, extra: Extra = {}): Problem {
  return {
    rule,
    severity: extra.severity ?? 'error',
    message,
    place,
    related: extra.related ?? [],
    fixes: extra.fixes ?? [],
    waived: null,
    unused: false,
    option: null,
    finding: undefined,
  };
}

/** The place of a node's text, or of one of its properties. */
export function placeOf(node: AstNode, property?: string, index?: number): Place {
  const cst =
    property === undefined
      ? node.$cstNode
      : (GrammarUtils.findNodeForProperty(node.$cstNode, property, index) ?? node.$cstNode);
  return placeOfCst(AstUtils.getDocument(node).uri.toString(), cst);
}

/** The place of the keyword that begins a node, or of one in it. */
export function placeOfKeyword(node: AstNode, keyword: string): Place {
  const cst = GrammarUtils.findNodeForKeyword(node.$cstNode, keyword) ?? node.$cstNode;
  return placeOfCst(AstUtils.getDocument(node).uri.toString(), cst);
}

export function placeOfCst(file: string, cst: CstNode | undefined): Place {
  return { file, range: cst?.range ?? { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } } };
}

/** The place of a stretch of a document's text. */
export function placeAt(document: LangiumDocument, start: number, end: number): Place {
  return {
    file: document.uri.toString(),
    range: { start: document.textDocument.positionAt(start), end: document.textDocument.positionAt(end) },
  };
}

/** A fix that replaces the text at a place. */
export function replaceFix(title: string, place: Place, text: string, preferred = true): Fix {
  return { title, preferred, edits: [{ place, text }] };
}

/** `a`, `a or b`, `a, b or c`. */
export function either(words: readonly string[]): string {
  return words.length < 2
    ? (words[0] ?? '')
    : `${words.slice(0, -1).join(', ')} or ${words[words.length - 1] ?? ''}`;
}

export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** `an antenna`, `a display`. */
export const article = (noun: string): string => `${/^[aeiou]/.test(noun) ? 'an' : 'a'} ${noun}`;

/** `families`, `switches`, `zones`. */
export function plural(noun: string): string {
  if (/[^aeiou]y$/.test(noun)) return `${noun.slice(0, -1)}ies`;
  return /(s|ch|sh|x)$/.test(noun) ? `${noun}es` : `${noun}s`;
}
