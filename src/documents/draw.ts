/** The drawing set of a boat: a pure function of its analysis, so that a server, a worker and a terminal draw the same. */
import type { Analysis } from '../checks/analysis.js';
import { diagramArea, diagramItems, layDiagram } from './diagram/lay.js';
import { frameGroup } from './frame/frame.js';
import { diagramLegend } from './diagram/legend.js';
import { legendGroup, type LegendEntry } from './frame/legend.js';
import { paperOf, type Paper } from './frame/paper.js';
import { titleBlock, type TitleFacts } from './frame/titleBlock.js';
import { hashOf } from './numbering.js';
import type { Item } from './scene/scene.js';
import { SHEET_KINDS, type DrawOptions, type Sheet, type SheetKind } from './sheet.js';
import { collectFacts, type Facts } from './sheets/facts.js';
import { BUS_LEGEND, busPages } from './sheets/bus.js';
import { bowAndStern, planDiagram, PLAN_LEGEND } from './sheets/plan.js';
import { coreTable, pullTable } from './sheets/pull.js';
import { tableGroup, tablePages } from './frame/table.js';
import { powerDiagram } from './sheets/power.js';
import { networkDiagram, serialDiagram } from './sheets/network.js';

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
        ...(draft.legend.length === 0 ? [] : [legendGroup(paper, draft.id, draft.legend)]),
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
      return busDrafts(facts, paper);
    case 'plan':
      return planDrafts(facts, paper);
  }
}

/** Backbones, then serial lines. */
function busDrafts(facts: Facts, paper: Paper): readonly Draft[] {
  const pages = busPages(facts, diagramArea(paper));
  const backbones = pages.map(({ buses, items }, index): Draft => {
    const id = `bus-${index + 1}`;
    return {
      kind: 'bus',
      id,
      title: `Backbones: ${buses.join(', ')}`,
      description: `Bus sheet. NMEA 2000 backbones along their cables: ${buses.join(', ')}.`,
      legend: BUS_LEGEND,
      items: () => items(id),
    };
  });
  return [...backbones, ...diagramDrafts('bus', 'Serial lines', serialDiagram(facts), paper, pages.length)];
}

/** Zones and runs, then the tables of who pulls and who crimps. */
function planDrafts(facts: Facts, paper: Paper): readonly Draft[] {
  const plan = diagramDrafts('plan', 'Plan', planDiagram(facts), paper).map((draft): Draft => ({
    ...draft,
    legend: PLAN_LEGEND,
    items: (numberOf) => [...draft.items(numberOf), bowAndStern(paper, draft.id)],
  }));
  const area = diagramArea(paper);
  const drafts: Draft[] = [...plan];
  for (const table of [pullTable(facts), coreTable(facts)]) {
    if (table.rows.length === 0) continue;
    const pages = tablePages(table, area);
    for (let page = 0; page < pages; page += 1) {
      const id = `plan-${drafts.length + 1}`;
      drafts.push({
        kind: 'plan',
        id,
        title: table.title,
        description: `${table.title}, page ${page + 1} of ${pages}.`,
        legend: [],
        items: () => [tableGroup(table, page, area, id)],
      });
    }
  }
  return drafts;
}

function diagramDrafts(
  kind: SheetKind,
  title: string,
  diagram: Parameters<typeof layDiagram>[0],
  paper: Paper,
  before = 0,
): readonly Draft[] {
  const pages = layDiagram(diagram, paper);
  const ids = pages.map((_, index) => `${kind}-${before + index + 1}`);
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
