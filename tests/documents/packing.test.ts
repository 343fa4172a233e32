/** Few and full pages: what a sheet that breaks over several keeps together, and how much of each it uses. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Analysis } from '../../src/checks/analysis.js';
import { wholeOf, type Diagram } from '../../src/documents/diagram/diagram.js';
import { diagramArea, layDiagram } from '../../src/documents/diagram/lay.js';
import type { RoutedPage } from '../../src/documents/diagram/route.js';
import { paperOf, PAPERS, type PaperName } from '../../src/documents/frame/paper.js';
import { collectFacts } from '../../src/documents/sheets/facts.js';
import { networkDiagram } from '../../src/documents/sheets/network.js';
import { planDiagram } from '../../src/documents/sheets/plan.js';
import { powerDiagram } from '../../src/documents/sheets/power.js';
import { analysed, EXAMPLES, example, fleetParts } from './boats.js';

/** Of the room on a page, what the boxes of the two emptiest pages of a sheet cover together at least: else they could be one. */
const TWO_PAGES = 0.25;
/** What those of a page cover on average. */
const MEAN = 0.15;
/** Of the wires, those that leave their page. */
const BROKEN = 0.4;

const DIAGRAMS = { power: powerDiagram, network: networkDiagram, plan: planDiagram };
type Kind = keyof typeof DIAGRAMS;
const KINDS = Object.keys(DIAGRAMS) as readonly Kind[];

const diagramOf = (analysis: Analysis, kind: Kind): Diagram => DIAGRAMS[kind](collectFacts(analysis));

/** The share of each page's room that its boxes cover, the emptiest first. */
function filled(pages: readonly RoutedPage[], paper: PaperName): readonly number[] {
  const { width, height } = diagramArea(paperOf(paper));
  return pages
    .map(({ page }) => page.nodes.reduce((sum, { box }) => sum + box.width * box.height, 0) / width / height)
    .sort((a, b) => a - b);
}

/** Wires that lead to another page. */
function broken(pages: readonly RoutedPage[]): number {
  const rows = pages.flatMap(({ page }) => page.nodes.flatMap((node) => node.rows));
  return new Set(rows.filter(({ reference }) => reference).map(({ wire }) => wire.id)).size;
}

describe('a sheet that breaks over pages', () => {
  it.each(EXAMPLES.flatMap((name) => PAPERS.map((paper) => [name, paper] as const)))(
    'has few and full ones: %s on %s',
    async (name, paper) => {
      const analysis = await example(name);
      for (const kind of ['power', 'network'] as const) {
        const diagram = diagramOf(analysis, kind);
        const pages = layDiagram(diagram, paperOf(paper));
        const shares = filled(pages, paper);
        const [least, next] = shares;
        if (least === undefined || next === undefined) continue;
        const said = `${kind}: ${shares.map((share) => share.toFixed(2)).join(' ')}`;
        expect(least + next, said).toBeGreaterThanOrEqual(TWO_PAGES);
        expect(shares.reduce((sum, share) => sum + share, 0) / shares.length, said).toBeGreaterThanOrEqual(
          MEAN,
        );
        expect(broken(pages) / diagram.wires.length, said).toBeLessThanOrEqual(BROKEN);
      }
    },
  );

  it('is seldom: one page to a sheet on the larger papers, two on the smaller', async () => {
    const counts = new Map<PaperName, number>();
    for (const name of EXAMPLES) {
      const analysis = await example(name);
      for (const paper of PAPERS)
        for (const kind of KINDS) {
          const { length } = layDiagram(diagramOf(analysis, kind), paperOf(paper));
          counts.set(paper, (counts.get(paper) ?? 0) + length);
        }
    }
    const sheets = EXAMPLES.length * KINDS.length;
    const most = { A3: 1.25, tabloid: 1.25, A4: 2.25, letter: 2.25 };
    for (const [paper, count] of counts) expect(count / sheets, paper).toBeLessThanOrEqual(most[paper]);
  });

  it.each([40, 120])('keeps what is joined together: %i devices in stations of their own', (size) => {
    for (const paper of PAPERS) {
      const pages = layDiagram(diagramOf(analysed(fleetParts(size)), 'power'), paperOf(paper));
      expect(broken(pages), paper).toBe(0);
    }
  });

  it('shows every box of a boat once', () => {
    let several = 0;
    fc.assert(
      fc.property(
        fc.integer({ min: 14, max: 70 }),
        fc.constantFrom(...PAPERS),
        fc.constantFrom(...KINDS),
        (size, paper, kind) => {
          const diagram = diagramOf(analysed(fleetParts(size)), kind);
          const pages = layDiagram(diagram, paperOf(paper));
          if (pages.length > 1) several += 1;
          const ids = pages.flatMap(({ page }) => page.nodes.map(({ node }) => node.id));
          expect(new Set(ids).size).toBe(ids.length);
          const all = diagram.groups.flatMap((group) => group.nodes.map(({ id }) => id));
          expect([...new Set(ids.map(wholeOf))].sort()).toEqual([...all].sort());
        },
      ),
      { numRuns: 40 },
    );
    expect(several).toBeGreaterThan(5);
  });
});
