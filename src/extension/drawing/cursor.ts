/** Which drawn element a place in the text belongs to. */
import type { Position, Range } from '../../vessel/origin.js';
import type { DrawnElement } from '../server/drawing/protocol.js';

const before = (a: Position, b: Position): boolean =>
  a.line < b.line || (a.line === b.line && a.character < b.character);

const holds = ({ start, end }: Range, at: Position): boolean => !before(at, start) && !before(end, at);

/** Whether `a` lies in `b`. */
const within = (a: Range, b: Range): boolean => !before(a.start, b.start) && !before(b.end, a.end);

/** The innermost element at a position of a file, if any. */
export function elementAt(
  elements: readonly DrawnElement[],
  file: string,
  position: Position,
): DrawnElement | undefined {
  let best: DrawnElement | undefined;
  for (const element of elements) {
    if (element.place.file !== file || !holds(element.whole, position)) continue;
    if (best === undefined || within(element.whole, best.whole)) best = element;
  }
  return best;
}
