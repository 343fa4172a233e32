/** From what is drawn to the text and back: places of elements, and the ports at the ends of wires. */
import { groupsOf, type GroupItem, type Point, type Scene } from '../../../documents/scene/scene.js';
import type { Origin, Place, Places, Position, Range } from '../../../vessel/origin.js';
import type { DrawnPort, DrawnReference, End } from './protocol.js';

/** What to select for an element, or for one end of it. */
export function placeOf(places: Places, origin: Origin, end: End | undefined): Place | undefined {
  return places.find(end === undefined ? { origin } : { origin, part: end });
}

/** The innermost of some elements at a position of a file, if any: a cursor anywhere in its text is at it. */
export function originAt(
  places: Places,
  origins: Iterable<Origin>,
  file: string,
  position: Position,
): Origin | undefined {
  let best: { readonly origin: Origin; readonly range: Range } | undefined;
  for (const origin of origins) {
    const whole = places.find({ origin, part: 'whole' });
    if (whole?.file !== file || !holds(whole.range, position)) continue;
    if (best === undefined || within(whole.range, best.range)) best = { origin, range: whole.range };
  }
  return best?.origin;
}

const before = (a: Position, b: Position): boolean =>
  a.line < b.line || (a.line === b.line && a.character < b.character);

const holds = ({ start, end }: Range, at: Position): boolean => !before(at, start) && !before(end, at);

/** Whether `a` lies in `b`. */
const within = (a: Range, b: Range): boolean => !before(a.start, b.start) && !before(b.end, a.end);

/** The ports of a sheet: a wire's line begins at `a` and ends at `b`; a reference is a stub at one of them. */
export function portsOf(scene: Scene): readonly DrawnPort[] {
  return [...groupsOf(scene.items)].flatMap((group): readonly DrawnPort[] => {
    const { origin } = group;
    const points = lineOf(group);
    const from = points.at(0);
    const to = points.at(-1);
    if (group.role !== 'link' || origin === undefined || from === undefined || to === undefined) return [];
    if (group.leadsTo !== undefined) {
      const end = group.id.endsWith('-a') ? 'a' : 'b';
      return [{ x: from.x, y: from.y, origin, end }];
    }
    return [
      { x: from.x, y: from.y, origin, end: 'a' },
      { x: to.x, y: to.y, origin, end: 'b' },
    ];
  });
}

/** The references of a sheet to others. */
export function referencesOf(scene: Scene): readonly DrawnReference[] {
  return [...groupsOf(scene.items)].flatMap(({ id, leadsTo }) =>
    leadsTo === undefined ? [] : [{ id, to: leadsTo }],
  );
}

function lineOf({ items }: GroupItem): readonly Point[] {
  const [first] = items;
  return first?.kind === 'line' ? first.points : [];
}
