/** Texts that would do harm, or fall apart, where they are taken for more than texts. */
import type { Analysis } from '../../src/checks/analysis.js';
import { backbone } from '../support/vessel.js';
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

/** A boat whose devices have the longest, tallest and deepest names that the language lets through. */
export function longNamed(): Analysis {
  const parts = fleetParts(13);
  const name = (device: string): string => `ŽÅ_${device}_${'jygqp'.repeat(6)}`;
  const inTexts = (texts: readonly string[] | undefined): readonly string[] =>
    (texts ?? []).map((text) => text.replace(/\b[a-z]+\d+(?=\.)/gi, name));
  return analysed({
    ...parts,
    devices: Object.fromEntries(
      Object.entries(parts.devices ?? {}).map(([device, what]) => [name(device), what]),
    ),
    links: inTexts(parts.links),
    feeds: inTexts(parts.feeds),
    backbones: [
      backbone('bus1', inTexts(['gnss1.n2k', 'main1.n2k', 'second1.n2k']), { cable: 'MicroTrunk' }),
    ],
  });
}
