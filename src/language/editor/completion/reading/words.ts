/** The words of a stretch of text, as readings of the grammar take them. */
import type { IToken } from 'chevrotain';
import type { Lexer, LangiumDocument } from 'langium';
import { type WireloftTokenBuilder } from '../../../parsing/tokens.js';

export interface Word {
  readonly text: string;
  /** Offset in the document. */
  readonly offset: number;
  readonly end: number;
  readonly line: number;
  /** Nothing but white space stands before it on its line. */
  readonly first: boolean;
  /** Terminals it may stand for: its own, and NAME or ANYNAME where it can be a name. */
  readonly terminals: readonly string[];
  /** Begins a declaration, an item or a property, and so ends whatever was left unfinished before it. */
  readonly anchor: boolean;
}

export interface Stretch {
  readonly words: readonly Word[];
  /** Comments, with one that is not closed. */
  readonly comments: readonly { readonly offset: number; readonly end: number; readonly line: boolean }[];
}

/** Reads the words from the start of a line up to an end. */
export function wordsOf(
  document: LangiumDocument,
  start: number,
  end: number,
  lexer: Lexer,
  builder: WireloftTokenBuilder,
): Stretch {
  const text = document.textDocument.getText().slice(start, end);
  const line = document.textDocument.positionAt(start).line;
  const { tokens, hidden, errors } = lexer.tokenize(text, { mode: 'full' });
  const words = tokens.map((token, index): Word => {
    const first = token.startLine !== tokens[index - 1]?.endLine;
    const anchor = first && isAnchor(token, tokens[index + 1], builder);
    return {
      text: token.image,
      offset: start + token.startOffset,
      end: start + token.startOffset + token.image.length,
      line: line + (token.startLine ?? 1) - 1,
      first,
      terminals: [token.tokenType.name, ...(anchor ? [] : categories(token))],
      anchor,
    };
  });
  const comments = hidden
    .filter((token) => token.image.startsWith('/'))
    .map((token) => ({
      offset: start + token.startOffset,
      end: start + token.startOffset + token.image.length,
      line: token.image.startsWith('//'),
    }));
  const unclosed = errors.find((error) => text.startsWith('/*', error.offset));
  if (unclosed) comments.push({ offset: start + unclosed.offset, end, line: true });
  return { words, comments };
}

/** As the parser's tokens have it, and also where the text breaks off right behind the keyword. */
function isAnchor(token: IToken, next: IToken | undefined, builder: WireloftTokenBuilder): boolean {
  const { tokenType } = token;
  if (builder.kept.has(tokenType)) return token.image !== '{' && token.image !== '}';
  return (
    builder.hardTwin.has(tokenType) &&
    (next === undefined || next.startLine !== token.startLine || /^-[->]/.test(next.image))
  );
}

const categories = (token: IToken): string[] =>
  (token.tokenType.CATEGORIES ?? []).map((type) => type.name).filter((name) => /^(ANY)?NAME$/.test(name));
