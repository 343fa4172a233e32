/** Quotes a line of the source with marks under a stretch of it, as wide as it stands in a terminal. */
import stringWidth from 'string-width';
import type { Range } from '../../vessel/origin.js';
import { printable } from '../terminal/printable.js';

export interface Excerpt {
  readonly line: string;
  /** Spaces and carets that fit under `line`. */
  readonly marks: string;
}

const TAB_STOP = 4;
const CUT = '\u2026';
const graphemes = new Intl.Segmenter('en', { granularity: 'grapheme' });

/** What a reader sees as one character. */
interface Cell {
  readonly text: string;
  readonly width: number;
  readonly marked: boolean;
}

/**
 * Quotes `line`, the text that `range` starts in. A range over several lines is marked to the end of its first. A line wider than
 * `width` columns is cut to the neighbourhood of the marks.
 */
export function excerpt(line: string, range: Range, width: number): Excerpt {
  const whole = line.trimEnd();
  const start = Math.min(range.start.character, whole.length);
  const end = range.end.line > range.start.line ? whole.length : Math.min(range.end.character, whole.length);
  // More than this of a line never shows, and a line may be millions long.
  const from = start > 4 * width ? start - 2 * width : 0;
  const to = Math.min(whole.length, start + 4 * width);
  const cells = cellsOf(whole.slice(from, to), start - from, Math.max(end, start + 1) - from);
  if (start >= whole.length) cells.push({ text: ' ', width: 1, marked: true });
  return fit(cells, width, from > 0, to < whole.length);
}

function cellsOf(text: string, start: number, end: number): Cell[] {
  const cells: Cell[] = [];
  let column = 0;
  for (const { segment, index } of graphemes.segment(text)) {
    const shown = segment === '\t' ? ' '.repeat(TAB_STOP - (column % TAB_STOP)) : printable(segment);
    const width = stringWidth(shown);
    cells.push({ text: shown, width, marked: index < end && index + segment.length > start });
    column += width;
  }
  return cells;
}

/** Cuts the cells to the width, with a sign where something is left out. */
function fit(cells: readonly Cell[], width: number, cutBefore: boolean, cutAfter: boolean): Excerpt {
  const total = cells.reduce((sum, cell) => sum + cell.width, 0);
  if (total <= width && !cutBefore && !cutAfter) return render(cells);
  const first = Math.max(
    0,
    cells.findIndex((cell) => cell.marked),
  );
  const room = width - 2;
  let from = first;
  let before = 0;
  // A third of the width shows what stands before the marks.
  for (; from > 0; from--) {
    const next = cells[from - 1]?.width ?? 0;
    if (before + next > room / 3) break;
    before += next;
  }
  let to = from;
  let used = 0;
  for (; to < cells.length; to++) {
    const next = cells[to]?.width ?? 0;
    if (used + next > room) break;
    used += next;
  }
  const sign = { text: CUT, width: 1, marked: false };
  return render([
    ...(from > 0 || cutBefore ? [sign] : []),
    ...cells.slice(from, to),
    ...(to < cells.length || cutAfter ? [sign] : []),
  ]);
}

function render(cells: readonly Cell[]): Excerpt {
  const marks = cells.map((cell) => (cell.marked ? '^' : ' ').repeat(cell.width)).join('');
  return {
    line: cells
      .map((cell) => cell.text)
      .join('')
      .trimEnd(),
    marks: marks.trimEnd(),
  };
}
