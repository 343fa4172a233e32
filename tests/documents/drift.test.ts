/** What laying out anew would save: told where boxes stand on more sheets than they need, and nowhere else. */
import { describe, expect, it } from 'vitest';
import { drawSet, driftOf } from '../../src/documents/draw.js';
import type { KeptPlaces } from '../../src/documents/sheet.js';
import { example } from './boats.js';

const paper = 'A3';

/** The places with one box on a sheet of its own after the others. */
function spread(places: KeptPlaces, diagram: string, id: string): KeptPlaces {
  const kept = places[diagram];
  if (kept === undefined) throw new Error(`Nothing is drawn as ${diagram}.`);
  const last = Math.max(...kept.nodes.map(({ page }) => page));
  const nodes = kept.nodes.map((node) => (node.id === id ? { ...node, page: last + 1 } : node));
  return { ...places, [diagram]: { ...kept, nodes } };
}

describe('a drawing that has grown out of its sheets', () => {
  it('is told by the diagrams that would take fewer', async () => {
    const boat = await example('sailing/whimbrel');
    const { sheets, places } = drawSet(boat, { paper });
    const wide = spread(spread(places, 'power', 'vhf'), 'network', 'vane');
    const drift = driftOf(boat, { paper, places: wide });
    expect([...drift].sort((x, y) => (x.diagram < y.diagram ? -1 : 1))).toEqual([
      { diagram: 'network', sheets: 2, anew: 1 },
      { diagram: 'power', sheets: 2, anew: 1 },
    ]);
    // As many as are drawn more than without the places.
    expect(drawSet(boat, { paper, places: wide }).sheets.length).toBe(sheets.length + 2);
    expect(driftOf(boat, { paper, places: wide, sheets: ['power'] })).toEqual([
      { diagram: 'power', sheets: 2, anew: 1 },
    ]);
  });

  it('is none where she is drawn from nothing, or stands as she would then', async () => {
    const boat = await example('motoryacht/razorbill');
    const { places } = drawSet(boat, { paper });
    expect(driftOf(boat, { paper })).toEqual([]);
    expect(driftOf(boat, { paper, places })).toEqual([]);
    // Places for another paper do not hold on this one.
    expect(driftOf(boat, { paper: 'A4', places: spread(places, 'power', 'lights') })).toEqual([]);
  });
});
