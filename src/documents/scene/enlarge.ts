/** Items drawn larger about a point; lines keep their weight. */
import type { Item, Point } from './scene.js';

/** Enlarge items. */
export function enlarged(items: readonly Item[], by: number, about: Point): readonly Item[] {
  const moved = ({ x, y }: Point): Point => ({
    x: about.x + (x - about.x) * by,
    y: about.y + (y - about.y) * by,
  });
  return items.map((item): Item => {
    switch (item.kind) {
      case 'group':
        return { ...item, items: enlarged(item.items, by, about) };
      case 'rect':
        return {
          ...item,
          ...moved(item),
          width: item.width * by,
          height: item.height * by,
          ...(item.radius === undefined ? {} : { radius: item.radius * by }),
        };
      case 'line':
        return { ...item, points: item.points.map(moved) };
      case 'disc':
        return { ...item, ...moved(item), radius: item.radius * by };
      case 'text':
        return { ...item, ...moved(item), height: item.height * by };
    }
  });
}
