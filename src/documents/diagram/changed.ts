/**
 * How a difference is marked: by weight, dash, hatching and a letter, so that it is read in black and white; colour only helps.
 */
import { INK, lineItem, rectItem, textItem } from '../scene/make.js';
import type { Box, Item, Stroke } from '../scene/scene.js';
import { GREEN, RED, BLUE } from '../style.js';
import type { DiagramChange } from './diagram.js';

/** The letter in the corner of a box, and before the number of a cable; none for what stayed. */
export const CHANGE_LETTERS: Readonly<Record<DiagramChange, string>> = {
  added: 'A',
  removed: 'R',
  changed: 'C',
  same: '',
};

export const CHANGE_WORDS: Readonly<Record<DiagramChange, string>> = {
  added: 'added',
  removed: 'removed',
  changed: 'changed',
  same: 'as before',
};

const FAINT = '#767676';

export const CHANGE_STROKES: Readonly<Record<DiagramChange, Stroke>> = {
  added: { colour: GREEN, width: 1 },
  removed: { colour: RED, width: 0.5, dash: [1.5, 1.5] },
  changed: { colour: BLUE, width: 0.7, dash: [6, 1.5] },
  same: { colour: FAINT, width: 0.25 },
};

/** Between the lines of the hatching, and their grey: text on them stays legible. */
const HATCH_PITCH = 3;
const HATCH: Stroke = { colour: '#c4c4c4', width: 0.25 };

/** What lies under the texts of a marked box: hatching where it goes, a second edge where it is changed. */
export function changedUnder(box: Box, change: DiagramChange): readonly Item[] {
  if (change === 'removed') return hatching(box);
  if (change === 'changed')
    return [
      rectItem(
        { x: box.x + 0.9, y: box.y + 0.9, width: box.width - 1.8, height: box.height - 1.8 },
        { colour: BLUE, width: 0.25 },
      ),
    ];
  return [];
}

/** Lines at 45 degrees, cut off at the edges. */
function hatching({ x, y, width, height }: Box): readonly Item[] {
  const lines: Item[] = [];
  for (let at = HATCH_PITCH; at < width + height; at += HATCH_PITCH) {
    const from = { x: x + Math.min(at, width), y: y + Math.max(0, at - width) };
    const to = { x: x + Math.max(0, at - height), y: y + Math.min(at, height) };
    lines.push(lineItem(from.x, from.y, to.x, to.y, HATCH));
  }
  return lines;
}

/** Width that the letter takes at the right of a box's head. */
export const LETTER_ROOM = 5;

/** The letter in a frame of its own; `x` is its right edge, `y` the top. */
export function letterItems(x: number, y: number, change: DiagramChange): readonly Item[] {
  const letter = CHANGE_LETTERS[change];
  if (letter === '') return [];
  return [
    rectItem({ x: x - 4, y, width: 4, height: 4 }, { colour: INK, width: 0.35 }, '#ffffff'),
    textItem(x - 2, y + 3.25, letter, { anchor: 'middle', bold: true }),
  ];
}
