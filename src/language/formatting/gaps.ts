/** The white space before each piece, and after the last, as the canonical layout has it but for columns. */
import { isBroken, type Block, type Item, type Part } from './outline.js';
import { isComment, type Pieces } from './pieces.js';
import { LONGEST_LINE, type Flat } from './spacing.js';

/** White space between two pieces: line ends, then spaces. */
export interface Gap {
  readonly newlines: number;
  readonly spaces: number;
}

export interface Laid {
  /** One before each piece, and one after the last; undefined: as written. */
  readonly gaps: (Gap | undefined)[];
  /** Items that begin a line and have it to themselves, by their first piece. */
  readonly starts: ReadonlyMap<number, Item>;
}

/** In place of a number of spaces: as far in as the comment on the line above. */
export const GOES_ON = -1;

const STEP = 2;
const CONTINUATION = 4;

/** The end of one item and the beginning of the next. */
interface Border {
  readonly indent: number;
  /** Indent of comments between. */
  readonly comments: number;
  /** A blank line may stay before the first piece between, and after the last; a closing brace has none and its own line. */
  readonly blankFirst: boolean;
  readonly blankLast: boolean;
}

/** Lays the parts of a file out. What is broken stays as written, with the comments that follow it. */
export function layGaps(pieces: Pieces, parts: readonly Part[], flat: Flat): Laid {
  const layout = new Layout(pieces, flat);
  const end = pieces.list.length;
  let before = -1;
  for (const part of parts) {
    layout.border(before, part.first, { indent: 0, comments: 0, blankFirst: before >= 0, blankLast: true });
    if (!isBroken(part)) layout.item(part, 0);
    before = part.last;
  }
  layout.border(before, end, { indent: 0, comments: 0, blankFirst: before >= 0, blankLast: false });
  parts.forEach((part, index) => {
    if (isBroken(part)) layout.gaps.fill(undefined, part.first, parts[index + 1]?.first ?? end);
  });
  return layout;
}

class Layout implements Laid {
  readonly gaps: (Gap | undefined)[] = [];
  readonly starts = new Map<number, Item>();

  constructor(
    private readonly pieces: Pieces,
    private readonly flat: Flat,
  ) {}

  /** Lays an item out from its first piece, which stands at `indent`. */
  item(item: Item, indent: number): void {
    this.starts.set(item.first, item);
    let from = item.first;
    for (const block of item.blocks) {
      if (!this.explodes(item, block, indent)) continue;
      this.phrase(from, block.open, indent);
      this.block(block, indent);
      from = block.close;
    }
    this.phrase(from, item.last, indent);
  }

  private explodes(item: Item, block: Block, indent: number): boolean {
    return (
      this.line(block.open) !== this.line(block.close) ||
      indent + this.flat.width(item.first, item.last) > LONGEST_LINE
    );
  }

  /** Pieces that belong on one line; the author's line ends stay where they don't fit on one, and beside comments. */
  private phrase(from: number, to: number, indent: number): void {
    const long = indent + this.flat.width(from, to) > LONGEST_LINE;
    for (let i = from + 1; i <= to; i++) {
      const left = this.pieces.list[i - 1];
      const right = this.pieces.list[i];
      if (!left || !right) continue;
      const mayBreak = isComment(left) || isComment(right) || (long && this.flat.before(i) > 0);
      const breaks = left.kind === 'lineComment' || (mayBreak && right.line > left.endLine);
      this.gaps[i] = breaks
        ? { newlines: 1, spaces: indent + CONTINUATION }
        : { newlines: 0, spaces: this.flat.before(i) };
    }
  }

  /** A block whose items stand on lines of their own. */
  private block(block: Block, indent: number): void {
    const deeper = indent + STEP;
    let before = block.open;
    for (const group of this.groups(block, deeper)) {
      const [first] = group;
      const last = group.at(-1);
      if (!first || !last) continue;
      this.border(before, first.first, {
        indent: deeper,
        comments: deeper,
        blankFirst: before !== block.open,
        blankLast: true,
      });
      if (group.length > 1) this.phrase(first.first, last.last, deeper);
      else this.item(first, deeper);
      before = last.last;
    }
    this.border(before, block.close, {
      indent,
      comments: deeper,
      blankFirst: before !== block.open,
      blankLast: false,
    });
  }

  /** Short items that the author put on one line stay together. */
  private groups(block: Block, indent: number): Item[][] {
    const apart = block.statements || this.line(block.open) === this.line(block.close);
    const groups: Item[][] = [];
    let before: Item | undefined;
    for (const item of block.items) {
      const beside = before !== undefined && !apart && this.endLine(before.last) === this.line(item.first);
      if (beside && before && this.plain(before, indent) && this.plain(item, indent))
        groups.at(-1)?.push(item);
      else groups.push([item]);
      before = item;
    }
    return groups.flatMap((group) => {
      const width = this.flat.width(group[0]?.first ?? 0, group.at(-1)?.last ?? 0);
      return indent + width <= LONGEST_LINE ? [group] : group.map((item) => [item]);
    });
  }

  /** An item that is written on one line. */
  private plain(item: Item, indent: number): boolean {
    for (let i = item.first; i <= item.last; i++) {
      const piece = this.pieces.list[i];
      if (!piece || piece.kind === 'lineComment' || piece.line !== piece.endLine) return false;
      if (isComment(piece) && (this.endLine(i - 1) !== piece.line || this.line(i + 1) !== piece.line))
        return false;
    }
    return !item.blocks.some((block) => this.explodes(item, block, indent));
  }

  /** The white space between two items and around the comments between them. */
  border(before: number, after: number, border: Border): void {
    let broken = before < 0;
    for (let i = before + 1; i <= after; i++) {
      const left = this.pieces.list[i - 1];
      const right = this.pieces.list[i];
      const last = i === after;
      if (!left) {
        this.gaps[i] = { newlines: 0, spaces: 0 };
        continue;
      }
      const lines = right ? right.line - left.endLine : 1;
      if (lines === 0 && left.kind !== 'lineComment' && (!last || (broken && border.blankLast))) {
        this.gaps[i] = { newlines: 0, spaces: right?.kind === 'lineComment' ? 2 : 1 };
        continue;
      }
      broken = true;
      const blank = lines > 1 && (i > before + 1 || border.blankFirst) && (!last || border.blankLast);
      const spaces = this.goesOn(i) ? GOES_ON : last ? border.indent : border.comments;
      this.gaps[i] = { newlines: blank ? 2 : 1, spaces };
    }
  }

  /** Whether a comment goes on from the one that ends the line above: the author put them in one column. */
  private goesOn(index: number): boolean {
    const left = this.pieces.list[index - 1];
    const right = this.pieces.list[index];
    const above = this.gaps[index - 1];
    if (left?.kind !== 'lineComment' || right?.kind !== 'lineComment' || !above) return false;
    return (
      left.column === right.column &&
      right.line === left.line + 1 &&
      (above.newlines === 0 || above.spaces === GOES_ON) &&
      index > 1
    );
  }

  private line(index: number): number {
    return this.pieces.list[index]?.line ?? -1;
  }

  private endLine(index: number): number {
    return this.pieces.list[index]?.endLine ?? -1;
  }
}
