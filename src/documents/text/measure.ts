/** How wide a text is, from the metrics of the font that is embedded; and texts made fit for a drawing. */
import { BOLD, REGULAR } from './widths.js';

export type Face = 'regular' | 'bold';

/** Height of the capitals in ems, as the font says. */
export const CAPITAL = 0.729;
/** Smallest height of capitals on any sheet in mm (after ISO 3098). */
export const SMALL = 2.5;

const UNITS = 2048;
const ELLIPSIS = '…';
/** Stands for what the font has no glyph for. */
const MISSING = '\ufffd';

function table(runs: string): ReadonlyMap<number, number> {
  const widths = new Map<number, number>();
  for (const run of runs.split(' ')) {
    const [start = 0, count = 0, width = 0] = run.split(',').map((part) => Number.parseInt(part, 36));
    for (let index = 0; index < count; index += 1) widths.set(start + index, width);
  }
  return widths;
}

const WIDTHS: Readonly<Record<Face, ReadonlyMap<number, number>>> = {
  regular: table(REGULAR),
  bold: table(BOLD),
};

/** Width in mm of a text whose capitals are `height` mm high. */
export function widthOf(text: string, height: number = SMALL, face: Face = 'regular'): number {
  const widths = WIDTHS[face];
  const missing = widths.get(0xfffd) ?? UNITS;
  let units = 0;
  for (const character of text) units += widths.get(character.codePointAt(0) ?? 0) ?? missing;
  return (units / UNITS) * (height / CAPITAL);
}

/** What every face has all signs for, in words with one space between them: most texts, so that they are not looked through. */
const PLAIN = /^[!-~]+(?: [!-~]+)*$/;

/**
 * A text as it can be drawn on one line: composed, without control and direction signs, and with a visible sign in place of every
 * character that the font lacks, so that the reader sees that something is missing.
 */
export function drawable(text: string): string {
  if (PLAIN.test(text)) return text;
  let drawn = '';
  for (const character of text.normalize('NFC')) {
    if (/^[\p{Cc}\p{Zs}\p{Zl}\p{Zp}]$/u.test(character)) {
      if (!drawn.endsWith(' ')) drawn += ' ';
    } else if (!/^[\p{Cf}\p{Mn}\p{Me}\u{fe00}-\u{fe0f}]$/u.test(character)) {
      const code = character.codePointAt(0) ?? 0;
      drawn += WIDTHS.regular.has(code) && WIDTHS.bold.has(code) ? character : MISSING;
    }
  }
  return drawn.trim();
}

/** The text, or as much of it as goes into `width` mm, with an ellipsis. */
export function fitted(text: string, width: number, height: number = SMALL, face: Face = 'regular'): string {
  const whole = drawable(text);
  if (widthOf(whole, height, face) <= width) return whole;
  const characters = Array.from(whole);
  let low = 0;
  let high = characters.length;
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    const candidate = characters.slice(0, middle).join('').trimEnd() + ELLIPSIS;
    if (widthOf(candidate, height, face) <= width) low = middle;
    else high = middle - 1;
  }
  return characters.slice(0, low).join('').trimEnd() + ELLIPSIS;
}

/** The text in lines of `width` mm, broken at spaces; what does not go into `most` lines ends in an ellipsis. */
export function wrapped(
  text: string,
  width: number,
  most: number,
  height: number = SMALL,
  face: Face = 'regular',
): readonly string[] {
  const lines: string[] = [];
  let line = '';
  const words = drawable(text).split(' ');
  for (const [index, word] of words.entries()) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (widthOf(longer, height, face) <= width || line === '') {
      line = longer;
      continue;
    }
    if (lines.length === most - 1)
      return [...lines, fitted([line, ...words.slice(index)].join(' '), width, height, face)];
    lines.push(fitted(line, width, height, face));
    line = word;
  }
  return line === '' ? lines : [...lines, fitted(line, width, height, face)];
}

/** Lines of a box, each broken into two where it is too long; beside the first stands a symbol that takes `beside` mm. */
export function brokenLines(lines: readonly string[], width: number, beside: number): readonly string[] {
  return lines.flatMap((line, index) => {
    const text = drawable(line);
    const room = width - (index === 0 ? beside : 0);
    if (widthOf(text) <= room) return [text];
    const words = text.split(' ');
    let count = 1;
    while (widthOf(words.slice(0, count + 1).join(' ')) <= room) count += 1;
    // After a comma, if all else then goes into the second line: a figure stays with its unit.
    const comma = words.slice(0, count).findLastIndex((word) => word.endsWith(','));
    if (comma >= 0 && widthOf(words.slice(comma + 1).join(' ')) <= width) count = comma + 1;
    const rest = words.slice(count).join(' ');
    const first = fitted(words.slice(0, count).join(' '), room);
    return rest === '' ? [first] : [first, fitted(rest, width)];
  });
}
