/** The measures themselves: each finds what it is for, in a good drawing with one thing moved. */
import { describe, expect, it } from 'vitest';
import { drawSheets } from '../../src/documents/draw.js';
import type { GroupItem, Item, Scene } from '../../src/documents/scene/scene.js';
import { example } from './boats.js';
import { measure } from './measure.js';

const [sheet] = drawSheets(await example('kittiwake/kittiwake'), { paper: 'A3', sheets: ['network'] });
if (sheet === undefined) throw new Error('nothing is drawn');
const { scene } = sheet;

/** The scene with the group of a name changed. */
function changed(name: string, change: (group: GroupItem) => GroupItem): Scene {
  return {
    ...scene,
    items: scene.items.map((item): Item =>
      item.kind === 'group' && item.name === name ? change(item) : item,
    ),
  };
}

function shifted(item: Item, dx: number, dy: number): Item {
  if (item.kind === 'group') return { ...item, items: item.items.map((one) => shifted(one, dx, dy)) };
  if (item.kind === 'line')
    return { ...item, points: item.points.map(({ x, y }) => ({ x: x + dx, y: y + dy })) };
  return { ...item, x: item.x + dx, y: item.y + dy };
}
const moved =
  (dx: number, dy: number) =>
  (group: GroupItem): GroupItem => ({ ...group, items: group.items.map((item) => shifted(item, dx, dy)) });
const cable = scene.items.find((item) => item.kind === 'group' && item.role === 'link');
const cableName = cable?.kind === 'group' ? cable.name : '';

describe('the measures', () => {
  it('find nothing in a good drawing', () => {
    const good = measure(scene);
    expect(good.faults).toEqual([]);
    expect(good.wires).toBeGreaterThan(4);
    expect(good.boxes.size).toBeGreaterThan(6);
  });

  it.each([
    ['does not end on a port', changed('hub', moved(0, 1))],
    ['overlap', changed('live', moved(0, -40))],
    ['is outside the frame', changed('sternSonar', moved(60, 0))],
    ['is written over', changed('legend', moved(25, -200))],
    ['goes through the box', changed('bowScreen', moved(90, 0))],
    ['goes through "', changed('plotter', moved(35, 0))],
    [
      'is not at right angles',
      changed(cableName, (group) => ({
        ...group,
        items: group.items.map((item) =>
          item.kind === 'line'
            ? {
                ...item,
                points: [
                  ...item.points.slice(0, 1),
                  ...item.points.slice(-1).map(({ x, y }) => ({ x, y: y + 7 })),
                ],
              }
            : item,
        ),
      })),
    ],
    [
      'run on one line',
      {
        ...scene,
        items: scene.items.flatMap((item): readonly Item[] =>
          item.kind === 'group' && item === cable ? [item, { ...item, id: 'twin' }] : [item],
        ),
      },
    ],
    [
      'is there twice',
      { ...scene, items: [...scene.items, ...scene.items.filter((item) => item === cable)] },
    ],
    [
      'is only 2 mm high',
      changed('hub', (group) => ({
        ...group,
        items: group.items.map((item) => (item.kind === 'text' ? { ...item, height: 2 } : item)),
      })),
    ],
  ])('find what %s', (fault, broken) => {
    expect(measure(broken).faults.join('\n')).toContain(fault);
  });
});
