/** Spaces within a line. */
import { isBroken, type Item, type Part } from './outline.js';
import { isComment, type Piece, type Pieces } from './pieces.js';

/** Longest line that the formatter makes of what the author wrote on one. */
export const LONGEST_LINE = 120;

/** Spaces before each piece, and widths, where everything is written on one line. */
export class Flat {
  private readonly spaces: number[];
  /** Width of everything before a piece's own first character, from the file's start. */
  private readonly upTo: number[] = [];

  constructor(
    private readonly pieces: Pieces,
    parts: readonly Part[],
  ) {
    this.spaces = ordinary(pieces);
    for (const part of parts) if (!isBroken(part)) this.setApart(part);
    let width = 0;
    pieces.list.forEach((piece, index) => {
      width += this.before(index);
      this.upTo.push(width);
      width += piece.text.length;
    });
  }

  /** Spaces before a piece. */
  before(index: number): number {
    return this.spaces[index] ?? 0;
  }

  /** Width of a stretch of pieces, without the spaces before the first. */
  width(first: number, last: number): number {
    return (this.upTo[last] ?? 0) - (this.upTo[first] ?? 0) + (this.pieces.list[last]?.text.length ?? 0);
  }

  private setApart(item: Item): void {
    for (const index of item.apart) this.spaces[index] = 2;
    for (const index of item.tight) this.spaces[index] = 0;
    for (const block of item.blocks) {
      block.items.forEach((inner, index) => {
        this.setApart(inner);
        if (index > 0 && !block.list) this.spaces[inner.first] = 2;
      });
    }
  }
}

function ordinary(pieces: Pieces): number[] {
  let before: Piece | undefined;
  return pieces.list.map((piece, index) => {
    if (isComment(piece)) return piece.kind === 'lineComment' ? 2 : 1;
    const wanted = before ? between(before, piece) : 0;
    before = piece;
    const left = pieces.list[index - 1];
    return left && isComment(left) ? Math.max(1, wanted) : wanted;
  });
}

const tight: ReadonlySet<string> = new Set(['.', '..']);

function between(left: Piece, right: Piece): number {
  return right.text === ',' || left.text === '-' || tight.has(left.text) || tight.has(right.text) ? 0 : 1;
}
