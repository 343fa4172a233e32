/** What belongs together in a text: statements, their blocks and the items in these, as ranges of pieces; and what is broken. */
import { AstUtils, GrammarUtils, type AstNode } from 'langium';
import { columnsOf } from './columns.js';
import { isComment, type Pieces } from './pieces.js';

/** A statement, a property, or any other item of a block. Numbers are indexes of pieces. */
export interface Item {
  readonly first: number;
  /** Last piece, the comma that follows included. */
  readonly last: number;
  readonly blocks: readonly Block[];
  readonly run: string | undefined;
  readonly stops: readonly (number | undefined)[];
  /** What has two spaces before it, or none. */
  readonly apart: readonly number[];
  /** What has two spaces before it in a column that is shared. */
  readonly wide: readonly number[];
  readonly tight: readonly number[];
}

export interface Block {
  readonly open: number;
  readonly close: number;
  readonly items: readonly Item[];
  /** Items separated by commas. */
  readonly list: boolean;
  /** Each item on a line of its own, whatever the author's lines. */
  readonly statements: boolean;
}

/** A stretch of the file that has a syntax error and is left as written. */
export interface Broken {
  readonly first: number;
  readonly last: number;
  readonly broken: true;
}

export type Part = Item | Broken;

export function isBroken(part: Part): part is Broken {
  return 'broken' in part;
}

/** The index of the piece that begins at an offset of the syntax tree. */
type Find = (offset: number) => number | undefined;

/**
 * The file's parts in order; each piece that is not a comment is in exactly one.
 * @param reread in a file with syntax errors: reads a statement by itself, and gives undefined where it has an error. In the tree of
 * such a file even a sound statement may be read wrongly, because of an error elsewhere.
 */
export function outline(
  pieces: Pieces,
  statements: readonly AstNode[],
  reread?: (text: string) => AstNode | undefined,
): readonly Part[] {
  const starts = new Map(pieces.list.map((piece, index) => [piece.start, index]));
  const ends = new Map(pieces.list.map((piece, index) => [piece.end, index]));
  const good: Item[] = [];
  for (const statement of statements) {
    const cst = statement.$cstNode;
    const node = cst && reread ? reread(cst.text) : statement;
    if (!cst || !node) continue;
    const first = starts.get(cst.offset);
    const last = ends.get(cst.end);
    if (first === undefined || last === undefined || first <= (good.at(-1)?.last ?? -1)) continue;
    const base = reread ? cst.offset : 0;
    good.push(itemOf(node, first, last, pieces, (offset) => starts.get(offset + base)));
  }
  return parts(pieces, good);
}

/** Puts the broken stretches between the good statements; a line that is partly broken is broken. */
function parts(pieces: Pieces, good: readonly Item[]): Part[] {
  const result: Part[] = [];
  const stray = (from: number, to: number): void => {
    let first = from;
    let last = to;
    while (first <= last && commentAt(pieces, first)) first++;
    while (last >= first && commentAt(pieces, last)) last--;
    if (first <= last) add(pieces, result, { first, last, broken: true });
  };
  let next = 0;
  for (const item of good) {
    stray(next, item.first - 1);
    const unreadable = pieces.list
      .slice(item.first, item.last + 1)
      .some((piece) => piece.kind === 'unreadable');
    add(pieces, result, unreadable ? { first: item.first, last: item.last, broken: true } : item);
    next = item.last + 1;
  }
  stray(next, pieces.list.length - 1);
  return result;
}

function add(pieces: Pieces, result: Part[], part: Part): void {
  const before = result.at(-1);
  if (!before || !(isBroken(before) || isBroken(part))) {
    result.push(part);
    return;
  }
  const sameLine = pieces.list[before.last]?.endLine === pieces.list[part.first]?.line;
  if (!sameLine && !(isBroken(before) && isBroken(part))) {
    result.push(part);
    return;
  }
  result.pop();
  add(pieces, result, { first: before.first, last: part.last, broken: true });
}

function commentAt(pieces: Pieces, index: number): boolean {
  const piece = pieces.list[index];
  return piece !== undefined && isComment(piece);
}

function itemOf(node: AstNode, first: number, last: number, pieces: Pieces, find: Find): Item {
  const columns = columnsOf(node);
  return {
    first,
    last,
    blocks: blocksOf(node, pieces, find),
    run: columns.run,
    stops: columns.stops.map((stop) =>
      stop === 'second' ? secondWord(pieces, first, last) : stop === undefined ? stop : find(stop),
    ),
    apart: columns.apart.flatMap((offset) => find(offset) ?? []),
    wide: columns.wide.flatMap((offset) => find(offset) ?? []),
    tight: columns.tight.flatMap((offset) => find(offset) ?? []),
  };
}

function secondWord(pieces: Pieces, first: number, last: number): number | undefined {
  for (let i = first + 1; i <= last; i++) if (!commentAt(pieces, i)) return i;
  return undefined;
}

function blocksOf(node: AstNode, pieces: Pieces, find: Find): Block[] {
  const brace = node.$cstNode && GrammarUtils.findNodeForKeyword(node.$cstNode, '{');
  const open = brace && find(brace.offset);
  const children = AstUtils.streamContents(node)
    .filter((child) => child.$cstNode !== undefined)
    .toArray();
  const start = brace?.offset ?? Infinity;
  const result = children
    .filter((child) => (child.$cstNode?.offset ?? 0) < start)
    .flatMap((child) => blocksOf(child, pieces, find));
  if (open === undefined) return result;
  const close = closing(pieces, open);
  const inside = children
    .filter((child) => (child.$cstNode?.offset ?? 0) > start)
    .sort((a, b) => (a.$cstNode?.offset ?? 0) - (b.$cstNode?.offset ?? 0));
  const firsts = inside.map((child) => find(child.$cstNode?.offset ?? -1) ?? -1);
  const items = inside.map((child, i) => {
    let last = (firsts[i + 1] ?? close) - 1;
    while (commentAt(pieces, last)) last--;
    return itemOf(child, firsts[i] ?? -1, last, pieces, find);
  });
  result.push({
    open,
    close,
    items,
    list: node.$type === 'TeeItem',
    statements: node.$type === 'OptionDecl',
  });
  return result;
}

function closing(pieces: Pieces, open: number): number {
  let depth = 0;
  for (let i = open; i < pieces.list.length; i++) {
    const piece = pieces.list[i];
    if (piece?.kind !== 'token') continue;
    if (piece.text === '{') depth++;
    else if (piece.text === '}' && --depth === 0) return i;
  }
  return pieces.list.length;
}
