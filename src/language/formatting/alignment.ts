/** Columns: like parts of neighbouring lines, and the comments at their ends, stand below one another. */
import { GOES_ON, type Gap, type Laid } from './gaps.js';
import type { Item } from './outline.js';
import { isComment, type Pieces } from './pieces.js';
import { LONGEST_LINE, type Flat } from './spacing.js';

/** Comments are put in a column up to here; behind longer lines they follow after two spaces. */
const LAST_COMMENT_COLUMN = 80;
const COMMENT_GAP = 2;

/** A line as it is laid out; numbers are indexes of pieces. */
interface Line {
  readonly first: number;
  readonly last: number;
  readonly indent: number;
  readonly blankBefore: boolean;
  /** A comment at the end, after something else. */
  readonly comment: number | undefined;
  /** The line is a comment that goes on from the line above. */
  readonly goesOn: boolean;
  /** The line is a comment and nothing else. */
  readonly onlyComment: boolean;
  /** The item that has this line to itself. */
  readonly item: Item | undefined;
}

/** Widens gaps so that columns stand below one another. */
export function align(pieces: Pieces, laid: Laid, flat: Flat): void {
  const lines = linesOf(pieces, laid);
  const gaps = laid.gaps;
  for (const run of runs(
    lines,
    (line, above) => line.item?.run !== undefined && line.item.run === above.item?.run,
  ))
    alignColumns(
      run.filter((line) => line.item !== undefined),
      flat,
      gaps,
    );
  for (const run of runs(lines, (line, above) => !closes(pieces, line) && !closes(pieces, above)))
    alignComments(run, pieces, gaps);
}

function linesOf(pieces: Pieces, laid: Laid): Line[] {
  const lines: Line[] = [];
  const { gaps, starts } = laid;
  let first = 0;
  for (let i = 1; i <= pieces.list.length; i++) {
    const gap = gaps[i];
    const ends =
      i === pieces.list.length ||
      (gap ? gap.newlines > 0 : pieces.list[i]?.line !== pieces.list[i - 1]?.endLine);
    if (!ends) continue;
    const begin = gaps[first];
    const last = i - 1;
    const end = pieces.list[last];
    const comment = end && isComment(end) && last > first ? last : undefined;
    const item = starts.get(first);
    const code = comment === undefined ? last : last - 1;
    lines.push({
      first,
      last,
      indent: begin?.spaces ?? 0,
      blankBefore: (begin?.newlines ?? 0) > 1,
      comment,
      goesOn: begin?.spaces === GOES_ON,
      onlyComment: first === last && end !== undefined && isComment(end),
      item: item?.last === code && begin && spansOneLine(pieces, first, code) ? item : undefined,
    });
    first = i;
  }
  return lines;
}

function closes(pieces: Pieces, line: Line): boolean {
  return pieces.list[line.first]?.text === '}';
}

function spansOneLine(pieces: Pieces, first: number, last: number): boolean {
  for (let i = first; i <= last; i++) {
    const piece = pieces.list[i];
    if (!piece || piece.line !== piece.endLine) return false;
  }
  return true;
}

/** Neighbouring lines with the same indent and nothing between them, as long as `joins` says so. */
function runs(lines: readonly Line[], joins: (line: Line, above: Line) => boolean): Line[][] {
  const result: Line[][] = [];
  let above: Line | undefined;
  for (const line of lines) {
    if (line.goesOn) {
      result.at(-1)?.push(line);
      continue;
    }
    const together =
      above !== undefined &&
      !line.blankBefore &&
      line.indent === above.indent &&
      !line.onlyComment &&
      !above.onlyComment &&
      joins(line, above);
    if (together) result.at(-1)?.push(line);
    else result.push([line]);
    above = line;
  }
  return result;
}

/** A line that a column would make too long has it no more, nor those after it. */
function alignColumns(run: readonly Line[], flat: Flat, gaps: (Gap | undefined)[]): void {
  let members = run.map((line) => ({
    line,
    added: 0,
    width: line.indent + flat.width(line.first, line.item?.last ?? line.last),
  }));
  const count = run.reduce((most, line) => Math.max(most, line.item?.stops.length ?? 0), 0);
  for (let stop = 0; stop < count; stop++) {
    members = members.filter(({ width }) => width <= LONGEST_LINE);
    const here = members.flatMap((member) => {
      const { line } = member;
      const index = line.item?.stops[stop];
      if (index === undefined) return [];
      const own = line.indent + flat.width(line.first, index - 1) + flat.before(index) + member.added;
      return [{ member, index, own }];
    });
    const wide = here.length > 1 && here.some(({ member, index }) => member.line.item?.wide.includes(index));
    const column = here.reduce((most, { own }) => Math.max(most, own), 0) + (wide ? 1 : 0);
    for (const { member, index, own } of here) {
      const more = column - own;
      member.width += more;
      member.added += more;
      if (member.width <= LONGEST_LINE) gaps[index] = { newlines: 0, spaces: flat.before(index) + more };
    }
  }
}

function alignComments(run: readonly Line[], pieces: Pieces, gaps: (Gap | undefined)[]): void {
  const widths = new Map<Line, number>();
  for (const line of run) {
    const atEnd = line.comment !== undefined && pieces.list[line.comment]?.kind === 'lineComment';
    if (atEnd && gaps[line.first]) widths.set(line, widthOf(line, pieces, gaps));
  }
  const columns = [...widths.values()]
    .map((width) => width + COMMENT_GAP)
    .filter((column) => column <= LAST_COMMENT_COLUMN);
  const column = columns.reduce((most, wanted) => Math.max(most, wanted), 0);
  let at = 0;
  for (const line of run) {
    const width = widths.get(line);
    if (line.goesOn) gaps[line.first] = { newlines: 1, spaces: at };
    else if (width !== undefined && line.comment !== undefined) {
      at = Math.max(column, width + COMMENT_GAP);
      gaps[line.comment] = { newlines: 0, spaces: at - width };
    }
  }
}

/** Width of a line up to its comment. */
function widthOf(line: Line, pieces: Pieces, gaps: readonly (Gap | undefined)[]): number {
  let width = line.indent;
  for (let i = line.first; i < (line.comment ?? line.last + 1); i++) {
    const piece = pieces.list[i];
    if (!piece) continue;
    if (i > line.first) width += gaps[i]?.spaces ?? 0;
    const lineEnd = piece.text.lastIndexOf('\n');
    width = lineEnd < 0 ? width + piece.text.length : piece.text.length - lineEnd - 1;
  }
  return width;
}
