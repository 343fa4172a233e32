/** Texts that would do harm, or fall apart, where they are taken for more than texts. */
import type { Analysis } from '../../src/checks/analysis.js';
import { analysed, fleetParts } from './boats.js';

export const HOSTILE = [
  '<script>alert(1)</script>',
  ']]>',
  '"quotes" & \'more\'',
  'boat ⛵ 🚤',
  'שלום',
  'a\nb\tc\u0000d\u202e',
  'x'.repeat(300),
];

/** A boat whose titles are all hostile; names are what the language lets through, and no more is promised of them. */
export function hostile(): Analysis {
  const parts = fleetParts(13);
  const models = (parts.models ?? []).map((model, index) => ({
    ...model,
    title: HOSTILE[index % HOSTILE.length],
    part: HOSTILE[(index + 3) % HOSTILE.length],
  }));
  return analysed({
    ...parts,
    models,
    more: {
      title: HOSTILE[0],
      owner: HOSTILE[2],
      yard: HOSTILE[6],
      drawingNumber: HOSTILE[1],
      revision: HOSTILE[5],
    },
  });
}
