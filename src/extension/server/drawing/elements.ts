/** From what is drawn to the text: places of elements, and the ports at the ends of wires. */
import { groupsOf, type GroupItem, type Point, type Scene } from '../../../documents/scene/scene.js';
import type { Origin, Places } from '../../../vessel/origin.js';
import type { DrawnElement, DrawnPort } from './protocol.js';

/** The places of what the sheets show; what has none in the text is left out. */
export function elementsOf(origins: readonly Origin[], places: Places): readonly DrawnElement[] {
  return origins.flatMap((origin): readonly DrawnElement[] => {
    const place = places.find({ origin });
    if (place === undefined) return [];
    const whole = places.find({ origin, part: 'whole' })?.range ?? place.range;
    return [
      { origin, place, whole, a: places.find({ origin, part: 'a' }), b: places.find({ origin, part: 'b' }) },
    ];
  });
}

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

function lineOf({ items }: GroupItem): readonly Point[] {
  const [first] = items;
  return first?.kind === 'line' ? first.points : [];
}
