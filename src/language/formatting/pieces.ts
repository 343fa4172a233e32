/** A text as the formatter sees it: tokens, comments and unreadable characters in order, with the white space left out. */
import type { LexerResult } from 'langium';

export type PieceKind = 'token' | 'lineComment' | 'blockComment' | 'unreadable';

export interface Piece {
  readonly kind: PieceKind;
  readonly text: string;
  /** Offset of the first character, and that after the last. */
  readonly start: number;
  readonly end: number;
  /** Lines from 0, of the first and of the last character. */
  readonly line: number;
  readonly endLine: number;
  /** Characters between the line's start and the piece. */
  readonly column: number;
}

export interface Pieces {
  readonly text: string;
  readonly list: readonly Piece[];
  readonly lineStarts: readonly number[];
  readonly eol: '\n' | '\r\n';
}

/** Takes a text apart. The white space at the end of a comment to the line's end is not part of it. */
export function piecesOf(text: string, lexed: LexerResult): Pieces {
  const lineStarts = startsOfLines(text);
  const raw: { kind: PieceKind; text: string; start: number }[] = [];
  for (const token of lexed.tokens) raw.push({ kind: 'token', text: token.image, start: token.startOffset });
  for (const comment of lexed.hidden) {
    const lineComment = comment.image.startsWith('//');
    raw.push({
      kind: lineComment ? 'lineComment' : 'blockComment',
      text: lineComment ? comment.image.trimEnd() : comment.image,
      start: comment.startOffset,
    });
  }
  for (const error of lexed.errors)
    raw.push({
      kind: 'unreadable',
      text: text.slice(error.offset, error.offset + error.length),
      start: error.offset,
    });
  raw.sort((a, b) => a.start - b.start);

  let line = 0;
  const lineAt = (offset: number): number => {
    while ((lineStarts[line + 1] ?? Infinity) <= offset) line++;
    return line;
  };
  const list = raw.map((piece): Piece => {
    const end = piece.start + piece.text.length;
    const first = lineAt(piece.start);
    return {
      ...piece,
      end,
      line: first,
      endLine: lineAt(end - 1),
      column: piece.start - (lineStarts[first] ?? 0),
    };
  });
  return { text, list, lineStarts, eol: /^[^\r\n]*\r\n/.test(text) ? '\r\n' : '\n' };
}

function startsOfLines(text: string): number[] {
  const starts = [0];
  for (const match of text.matchAll(/\r\n|\r|\n/g)) starts.push(match.index + match[0].length);
  return starts;
}

export function isComment(piece: Piece): boolean {
  return piece.kind === 'lineComment' || piece.kind === 'blockComment';
}
