/** The measures themselves: each finds what it is for, and nothing else, on a good sheet in which that one thing is wrong. */
import { describe, expect, it } from 'vitest';
import { drawSheets } from '../../src/documents/draw.js';
import type { GroupItem, Item, Scene } from '../../src/documents/scene/scene.js';
import { example } from './boats.js';
import { measure } from './measure.js';
import { box, dot, FLAG, group, line, rect, SAMPLE, text, wire } from './measure/sample.js';

/** The sample with one group made anew. */
function changed(id: string, change: (group: GroupItem) => Item): Scene {
  const isMeant = (item: Item): boolean => item.kind === 'group' && item.id === `s-${id}`;
  if (!SAMPLE.items.some(isMeant)) throw new Error(`The sample has no ${id}.`);
  return {
    ...SAMPLE,
    items: SAMPLE.items.map((item) => (item.kind === 'group' && isMeant(item) ? change(item) : item)),
  };
}

/** With one item of a group for another, or none. */
const swapped = (id: string, at: number, ...by: readonly Item[]): Scene =>
  changed(id, (one) => ({ ...one, items: one.items.flatMap((item, index) => (index === at ? by : [item])) }));

/** With more items in a group. */
const within = (id: string, ...more: readonly Item[]): Scene =>
  changed(id, (one) => ({ ...one, items: [...one.items, ...more] }));

const beside = (...items: readonly Item[]): Scene => ({ ...SAMPLE, items: [...SAMPLE.items, ...items] });

/** A word that belongs to no box. */
const note = (x: number, y: number, word = 'note'): Item => group('note', 'note', [text(x, y, word)]);

/** A box over the wire W1, and something on its way down to it. */
const hung = (points: readonly (readonly [number, number])[], end: Item): Scene =>
  beside(group('device', 'golf', [rect(100, 22, 10, 8)]), group('trunk', 'drop 2', [line(...points), end]));

/** A sentence for each fault that there can be, and the sample with it. Some faults come in twos. */
const FAULTS: readonly (readonly [fault: string, scene: Scene])[] = [
  // Outside of the frame: a text, a box, a line, a dot.
  ['"note" is outside the frame', beside(note(276, 120))],
  ['golf is outside the frame', beside(group('device', 'golf', [rect(255, 110, 40, 12)]))],
  ['W1 is outside the frame', within('W1', line([278, 60], [281, 60]))],
  ['tap is outside the frame', within('nav-1-item-3', dot(20, 130))],
  ['legend is outside the frame', swapped('legend', 0, rect(20, 165, 180, 25.1))],
  // Boxes, regions, signs and blocks on one another.
  ['the boxes alpha and golf overlap', beside(group('device', 'golf', [rect(40, 58, 40, 12)]))],
  ['the box golf stands on the pulls', beside(group('device', 'golf', [rect(205, 45, 20, 12)]))],
  ['the box golf stands half in the zone helm', beside(box('golf', 35, 95, 8, []))],
  ['a sign of W2 is on the box beta', within('W2', rect(160, 57, 5, 5))],
  ['the zones helm and bow overlap', beside(group('zone', 'bow', [rect(22, 99, 60, 5)]))],
  ['the zone bow reaches into the legend', beside(group('zone', 'bow', [rect(22, 155, 20, 11)]))],
  ['the legend is on the title block', swapped('legend', 0, rect(20, 165, 181, 25))],
  ['a sign of W2 is on the title block', within('W2', rect(230, 160, 5, 2))],
  ['signs of W1 and W2 overlap', within('W1', rect(96, 48, 5, 1.5))],
  ['golf has no box', beside(group('device', 'golf', []))],
  ['W5 has no line', beside(group('link', 'W5', []))],
  ['the id s-nav-1-item-3 is there twice', beside(group('note', 'twin', [], { id: 's-nav-1-item-3' }))],
  // Texts: small, over one another, over boxes and blocks, over lines, out of their boxes.
  ['"W1" is only 2 mm high', swapped('W1', 1, text(82, 38.8, 'W1', { height: 2 }))],
  ['"helm zone" is written over "note"', beside(note(45, 26))],
  ['"note" is written over the box delta', beside(note(50, 88))],
  ['"port" sticks out of the box delta', within('delta', text(240, 120, 'port'))],
  ['"delta" is written over a line of delta', swapped('delta', 2, line([44, 75], [46, 79]))],
  ['"a2" is written over a dot of alpha', within('alpha', dot(60, 50), text(59, 51, 'a2'))],
  ['"note" is written over the title block', beside(note(230, 180))],
  ['"Legend" sticks out of the legend', swapped('legend', 1, text(22, 160, 'Legend'))],
  ['"run" is written over a line of pulls', swapped('pulls', 2, text(238.6, 32, 'run'))],
  ['"W2" is written over a line of W2', swapped('W2', 1, text(93, 49.4, 'W2'))],
  ['"note" is written over a line of W2', beside(note(92, 53))],
  ['"/2.A1" is written over a line of W4', swapped('W4', 2, text(201, 103, '/2.A1'))],
  ['"120" is written over a line of terminator', swapped('nav-1-item-1', 1, text(36, 129, '120'))],
  // Conductors through texts, boxes, blocks and the signs of others.
  ['W1 goes through "note"', beside(note(100, 41))],
  ['W2 goes through "note"', beside(group('note', 'note', [text(111, 80, 'note', { upright: true })]))],
  ['nav goes through "note"', beside(note(85, 131))],
  ['W3 goes through the box golf', beside(group('device', 'golf', [rect(100, 66, 6, 6)]))],
  ['nav goes through the box golf', beside(group('device', 'golf', [rect(85, 128, 6, 6)]))],
  ['W3 goes through the pulls', swapped('pulls', 0, rect(100, 66, 6, 6))],
  ['nav goes through the legend', changed('legend', (one) => ({ ...one, items: [rect(85, 128, 6, 6)] }))],
  ['W1 goes through a sign of W3', within('W3', rect(120, 39, 5, 2))],
  ['W1 goes through a sign of W4', swapped('W4', 1, FLAG, line([120, 37], [121, 43]))],
  // At right angles, and not over itself: wires, backbones, drops.
  ['W1 is not at right angles', swapped('W1', 0, line([80, 40], [115, 40], [115.5, 40.1], [150, 40]))],
  ['nav is not at right angles', swapped('nav-1-trunk', 0, line([40, 130], [149, 130], [150, 130.1]))],
  ['drop is not at right angles', swapped('nav-1-item-2', 0, line([70, 130], [70.1, 140]))],
  ['W1 runs over itself', swapped('W1', 0, line([80, 40], [130, 40], [120, 40], [150, 40]))],
  // Ends of wires: on a port, each on one of its own, on the boxes that their labels name.
  ['W1 does not end on a port', swapped('beta', 3)],
  ['W5 does not end on a port', beside(wire('W5', 'from delta', [line([230, 120], [230, 124])]))],
  ['a port of alpha has no wire', within('alpha', dot(40, 50))],
  [
    'W5 ends where it begins, on the box golf',
    beside(
      box('golf', 230, 70, 20, [dot(270, 74), dot(270, 84)]),
      wire('W5', 'golf', [line([270, 74], [274, 74], [274, 84], [270, 84])]),
    ),
  ],
  [
    'W1 ends on the box beta, of which its label says nothing',
    changed('W1', (one) => ({ ...one, label: 'from alpha' })),
  ],
  // Ends of references, of backbones and of drops.
  ['W4 does not end on a port', swapped('gamma', 4)],
  ['W4 does not end on its flag', swapped('W4', 0, line([190, 100], [199, 100]))],
  ['W4 has a flag that leads nowhere', changed('W4', ({ leadsTo: _, ...one }) => one)],
  ['drop ends in the air', swapped('nav-1-item-2', 0, line([70, 130], [70, 139]))],
  ['tap ends in the air', swapped('nav-1-item-3', 0, line([110, 121], [110, 130]))],
  ['nav ends in the air', swapped('nav-1-trunk', 0, line([40, 130], [160, 130]))],
  // An end on the inside of another net, one on the line of another, a crossing on a dot.
  [
    'W1 and drop 2 touch',
    hung(
      [
        [105, 30],
        [105, 40],
      ],
      dot(105, 40),
    ),
  ],
  [
    'W1 and drop 2 touch; W1 and drop 2 run on one line',
    hung(
      [
        [105, 30],
        [105, 40],
        [108, 40],
      ],
      dot(108, 40),
    ),
  ],
  ['W2 and W3 cross on a dot', within('W2', dot(110, 70))],
  // Joints: a dot on each, and no fourth way.
  ['nav and tap meet without a dot', swapped('nav-1-item-3', 1)],
  [
    'tap and drop 2 run on one line; 4 ways meet on a dot of tap',
    beside(
      group('device', 'golf', [rect(105, 140, 20, 8)]),
      group('trunk', 'drop 2', [line([110, 130], [110, 140])], { id: 's-nav-1-item-6' }),
    ),
  ],
];

describe('the measures', () => {
  it('find nothing on a good sheet, made by hand or drawn', async () => {
    expect(measure(SAMPLE)).toMatchObject({ faults: [], wires: 4, crossings: 1, bends: 6 });
    const [sheet] = drawSheets(await example('kittiwake/kittiwake'), { paper: 'A3', sheets: ['network'] });
    const good = sheet === undefined ? undefined : measure(sheet.scene);
    expect(good?.faults).toEqual([]);
    expect(good?.wires).toBeGreaterThan(4);
    expect(good?.boxes.size).toBeGreaterThan(6);
  });

  it.each(FAULTS)('find alone: %s', (fault, scene) => {
    expect(measure(scene).faults.join('; ')).toBe(fault);
  });
});
