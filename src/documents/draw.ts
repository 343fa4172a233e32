/** The drawing set of a boat: a pure function of its analysis, so that a server, a worker and a terminal draw the same. */
import type { Analysis } from '../checks/analysis.js';
import { diagramItems, layDiagram } from './diagram/lay.js';
import { frameGroup } from './frame/frame.js';
import { diagramLegend } from './diagram/legend.js';
import { legendGroup, type LegendEntry } from './frame/legend.js';
import { paperOf, type Paper } from './frame/paper.js';
import { titleBlock, type TitleFacts } from './frame/titleBlock.js';
import { hashOf } from './numbering.js';
import type { Item } from './scene/scene.js';
import { SHEET_KINDS, type DrawOptions, type Sheet, type SheetKind } from './sheet.js';
import { collectFacts, type Facts } from './sheets/facts.js';
import { powerDiagram } from './sheets/power.js';
import { networkDiagram } from './sheets/network.js';

/** A sheet that knows all but its place in the set. */
export interface Draft {
  readonly kind: SheetKind;
  readonly id: string;
  readonly title: string;
  readonly description: string;
  readonly legend: readonly LegendEntry[];
  /** `numberOf`: of any sheet of the set, by id. */
  readonly items: (numberOf: (id: string) => number) => readonly Item[];
}

/** Draw a boat: every sheet that it has something for, numbered from 1. */
export function drawSheets(analysis: Analysis, options: DrawOptions): readonly Sheet[] {
  const facts = collectFacts(analysis);
  const paper = paperOf(options.paper);
  const kinds = SHEET_KINDS.filter((kind) => options.sheets === undefined || options.sheets.includes(kind));
  const drafts = kinds.flatMap((kind) => draftsOf(kind, facts, paper));
  const numbers = new Map(drafts.map(({ id }, index) => [id, index + 1]));
  const title: TitleFacts = {
    vessel: analysis.vessel,
    date: options.date,
    revision: options.revision,
    file: options.file,
    hash: hashOf(JSON.stringify(analysis.vessel)).toString(16).padStart(8, '0'),
    version: options.version,
  };
  return drafts.map((draft, index) => ({
    kind: draft.kind,
    number: index + 1,
    scene: {
      id: draft.id,
      title: `${analysis.vessel.name}: ${draft.title}`,
      description: draft.description,
      width: paper.width,
      height: paper.height,
      items: [
        frameGroup(paper, draft.id),
        ...draft.items((id) => numbers.get(id) ?? 0),
        legendGroup(paper, draft.id, draft.legend),
        titleBlock(paper, title, { id: draft.id, title: draft.title, number: index + 1, of: drafts.length }),
      ],
    },
  }));
}

function draftsOf(kind: SheetKind, facts: Facts, paper: Paper): readonly Draft[] {
  switch (kind) {
    case 'network':
      return diagramDrafts(kind, 'Network', networkDiagram(facts), paper);
    case 'power':
      return diagramDrafts(kind, 'Power', powerDiagram(facts), paper);
    case 'bus':
    case 'plan':
      return [];
  }
}

function diagramDrafts(
  kind: SheetKind,
  title: string,
  diagram: Parameters<typeof layDiagram>[0],
  paper: Paper,
): readonly Draft[] {
  const pages = layDiagram(diagram, paper);
  const ids = pages.map((_, index) => `${kind}-${index + 1}`);
  return pages.map(({ page }, index) => {
    const groups = page.groups.flatMap(({ group }) => group.title ?? []);
    const zones = [...new Set(groups)];
    const present = page.nodes.map(({ node }) => node.name);
    return {
      kind,
      id: ids[index] ?? '',
      title:
        pages.length === 1
          ? title
          : `${title}${zones.length === 0 ? ` ${index + 1}` : `: ${zones.join(', ')}`}`,
      description: `${title} sheet.${zones.length === 0 ? '' : ` Zones from bow to stern: ${zones.join(', ')}.`} Devices: ${present.join(', ')}.`,
      legend: diagramLegend(page),
      items: (numberOf) =>
        diagramItems(
          pages,
          index,
          paper,
          ids.map((id) => ({ id, number: numberOf(id) })),
        ),
    };
  });
}
