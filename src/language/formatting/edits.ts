/** From white space to edits of the text. */
import type { Gap } from './gaps.js';
import type { Pieces } from './pieces.js';

/** Replaces the characters from `start` up to `end`. */
export interface Change {
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

/** The smallest changes that give the text the wanted white space; undefined gaps stay as they are. */
export function changesOf(pieces: Pieces, gaps: readonly (Gap | undefined)[]): Change[] {
  const changes: Change[] = [];
  for (let i = 0; i <= pieces.list.length; i++) {
    const gap = gaps[i];
    if (!gap) continue;
    // A byte order mark is white space to the lexer; it stays.
    const start = pieces.list[i - 1]?.end ?? (pieces.text.startsWith('\uFEFF') ? 1 : 0);
    const end = pieces.list[i]?.start ?? pieces.text.length;
    const change = narrowed(
      pieces.text,
      start,
      end,
      pieces.eol.repeat(gap.newlines) + ' '.repeat(gap.spaces),
    );
    if (change) changes.push(change);
  }
  return changes;
}

/** Leaves out what the old and the new text have in common at their ends. */
function narrowed(text: string, from: number, to: number, replacement: string): Change | undefined {
  const old = text.slice(from, to);
  if (old === replacement) return undefined;
  const most = Math.min(old.length, replacement.length);
  let head = 0;
  while (head < most && old[head] === replacement[head]) head++;
  let tail = 0;
  while (tail < most - head && old[old.length - 1 - tail] === replacement[replacement.length - 1 - tail])
    tail++;
  return { start: from + head, end: to - tail, text: replacement.slice(head, replacement.length - tail) };
}

export function apply(text: string, changes: readonly Change[]): string {
  let result = '';
  let at = 0;
  for (const change of changes) {
    result += text.slice(at, change.start) + change.text;
    at = change.end;
  }
  return result + text.slice(at);
}
