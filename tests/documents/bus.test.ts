/** Findings on a backbone are marked at their places: at the box of a tee or a tap, and by number where there is no box. */
import { describe, expect, it } from 'vitest';
import { drawSheets } from '../../src/documents/draw.js';
import { toSvg } from '../../src/documents/formats/svg.js';
import type { Analysis } from '../../src/checks/analysis.js';
import type { Origin } from '../../src/vessel/origin.js';
import { example } from './boats.js';

/** The bus sheets of a boat in which one more thing is found. */
function drawn(analysis: Analysis, like: Analysis, origin: Origin): string {
  const [first] = like.findings;
  if (first === undefined) throw new Error('There is no finding to copy.');
  const finding = {
    ...first,
    rule: 'bus/made-up',
    severity: 'warning' as const,
    waived: null,
    at: { origin },
  };
  return drawSheets({ ...analysis, findings: [finding] }, { paper: 'A3', sheets: ['bus'] })
    .map(({ scene }) => toSvg(scene))
    .join('');
}

describe('a finding on a backbone is on its sheet', () => {
  it.each(['tee', 'tap', 'span', 'terminator'] as const)('at a %s', async (kind) => {
    const analysis = await example('kittiwake/kittiwake');
    const like = await example('motoryacht/razorbill');
    const item = analysis.buses[0]?.bus.backbone.items.find((one) => one.kind === kind);
    if (item === undefined) throw new Error(`The backbone has no ${kind}.`);
    expect(drawn(analysis, like, item.origin).includes('bus/made-up')).toBe(true);
    expect(drawn(analysis, like, analysis.vessel.origin).includes('bus/made-up')).toBe(false);
  });
});
