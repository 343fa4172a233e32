/** The drawing set of a boat: a pure function of its analysis, so that a server, a worker and a terminal draw the same. */
import type { Analysis } from '../checks/analysis.js';
import type { Vessel } from '../vessel/model.js';
import type { Diagram } from './diagram/diagram.js';
import { keptOf, type KeptDiagram } from './diagram/kept.js';
import { regrouped } from './diagram/regroup.js';
import type { RoutedPage } from './diagram/route.js';
import { diagramArea, diagramItems, layDiagram, layOnOne } from './diagram/lay.js';
import { frameGroup } from './frame/frame.js';
import { diagramLegend } from './diagram/legend.js';
import { legendGroup, type LegendEntry } from './frame/legend.js';
import { paperOf, type Paper } from './frame/paper.js';
import { titleBlock, type TitleFacts } from './frame/titleBlock.js';
import { hashOf } from './numbering.js';
import type { Item } from './scene/scene.js';
import { SHEET_KINDS, type DrawOptions, type KeptPlaces, type Sheet, type SheetKind } from './sheet.js';
import { collectFacts, type Facts } from './sheets/facts.js';
import { busPages } from './sheets/bus.js';
import { bowAndStern, isInPlace, outlineGroup, planDiagram, planLegend } from './sheets/plan.js';
import { coreTable } from './sheets/cores.js';
import { pullTable } from './sheets/pull.js';
import { tablePages } from './frame/table.js';
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

/** A set, and the places in it for the next one. */
export interface DrawnSet {
  readonly sheets: readonly Sheet[];
  readonly places: KeptPlaces;
}

/** Draw a boat: every sheet that it has something for, numbered from 1. */
export function drawSheets(analysis: Analysis, options: DrawOptions): readonly Sheet[] {
  return drawSet(analysis, options).sheets;
}

/** Draw a boat, where its boxes stood before if places are given: only what is new finds a place of its own. */
export function drawSet(analysis: Analysis, options: DrawOptions): DrawnSet {
  const facts = collectFacts(analysis);
  const paper = paperOf(options.paper);
  const kinds = SHEET_KINDS.filter((kind) => options.sheets === undefined || options.sheets.includes(kind));
  const places: Record<string, KeptDiagram> = {};
  const lay: Lay = (name, diagram) => {
    const pages = layDiagram(diagram, paper, keptFor(name, diagram, options));
    if (pages.length > 0) places[name] = keptOf(pages, paper.name);
    return pages;
  };
  const drafts = kinds.flatMap((kind) => draftsOf(kind, facts, paper, lay));
  return { sheets: numbered(drafts, analysis, paper, options), places };
}

/** A diagram that takes more sheets with its boxes where they stand than it would if they were laid out anew. */
export interface Drift {
  /** As in the places that are kept. */
  readonly diagram: string;
  readonly sheets: number;
  readonly anew: number;
}

/** What laying out anew would save, with the places that are given. It takes as long as drawing, and so is asked for by itself. */
export function driftOf(analysis: Analysis, options: DrawOptions): readonly Drift[] {
  if (options.places === undefined) return [];
  const paper = paperOf(options.paper);
  const facts = collectFacts(analysis);
  const found: Drift[] = [];
  const lay: Lay = (name, diagram) => {
    const pages = layDiagram(diagram, paper, keptFor(name, diagram, options));
    const anew = pages.length > 1 ? layDiagram(diagram, paper).length : pages.length;
    if (anew < pages.length) found.push({ diagram: name, sheets: pages.length, anew });
    return pages;
  };
  for (const kind of options.sheets ?? SHEET_KINDS) draftsOf(kind, facts, paper, lay);
  return found;
}

function keptFor(name: string, diagram: Diagram, { places }: DrawOptions): KeptDiagram | undefined {
  const kept = places?.[name];
  return kept && regrouped(kept, diagram);
}

/** A diagram that is a sheet, or several, of its own. */
interface NamedDiagram {
  readonly kind: SheetKind;
  /** Begins the ids of its sheets. */
  readonly name: string;
  readonly title: string;
  readonly diagram: Diagram;
}

/** Draw other diagrams of a boat than its usual sheets. */
export function drawDiagrams(
  diagrams: readonly NamedDiagram[],
  analysis: Analysis,
  options: DrawOptions,
): readonly Sheet[] {
  const paper = paperOf(options.paper);
  const drafts = diagrams.flatMap(({ kind, name, title, diagram }) =>
    diagramDrafts(kind, title, layDiagram(diagram, paper, keptFor(name, diagram, options)), paper, 0, name),
  );
  return numbered(drafts, analysis, paper, options);
}

const hashes = new WeakMap<Vessel, string>();

/** Of what a vessel is, once for each, since it is as long as the whole model. */
function contentHash(vessel: Vessel): string {
  const known = hashes.get(vessel);
  if (known !== undefined) return known;
  const hash = hashOf(JSON.stringify(vessel)).toString(16).padStart(8, '0');
  hashes.set(vessel, hash);
  return hash;
}

/** The sheets of a set with frame, legend and title block, numbered from 1. */
function numbered(
  drafts: readonly Draft[],
  analysis: Analysis,
  paper: Paper,
  options: DrawOptions,
): readonly Sheet[] {
  const numbers = new Map(drafts.map(({ id }, index) => [id, index + 1]));
  const title: TitleFacts = {
    vessel: analysis.vessel,
    date: options.date,
    revision: options.revision,
    file: options.file,
    hash: options.hash ?? contentHash(analysis.vessel),
    version: options.version,
  };
  return drafts.map((draft, index): Sheet => ({
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

/** Lays diagrams out, by their names, and remembers where everything came to stand. */
type Lay = (name: string, diagram: Diagram) => readonly RoutedPage[];

function draftsOf(kind: SheetKind, facts: Facts, paper: Paper, lay: Lay): readonly Draft[] {
  switch (kind) {
    case 'network':
      return diagramDrafts(kind, 'Network', lay('network', networkDiagram(facts)), paper);
    case 'power':
      return diagramDrafts(kind, 'Power', lay('power', powerDiagram(facts)), paper);
    case 'bus':
      return busDrafts(facts, paper, lay);
    case 'plan':
      return planDrafts(facts, paper, lay);
  }
}

/** Backbones, then serial lines. */
function busDrafts(facts: Facts, paper: Paper, lay: Lay): readonly Draft[] {
  const pages = busPages(facts, diagramArea(paper));
  const backbones = pages.map(({ buses, legend, items }, index): Draft => {
    const id = `bus-${index + 1}`;
    return {
      kind: 'bus',
      id,
      title: `Backbones: ${buses.join(', ')}`,
      description: `Bus sheet. NMEA 2000 backbones along their cables: ${buses.join(', ')}.`,
      legend,
      items: () => items(id),
    };
  });
  return [
    ...backbones,
    ...diagramDrafts('bus', 'Serial lines', lay('serial', serialDiagram(facts)), paper, pages.length),
  ];
}

/** Zones and runs, then the tables of who pulls and who crimps. */
function planDrafts(facts: Facts, paper: Paper, lay: Lay): readonly Draft[] {
  // Where all of it goes on one sheet, there is room to say what each device is.
  const described = planDiagram(facts, 'described');
  const whole = layOnOne(described, paper);
  const roomy = whole !== undefined && isInPlace(whole.page, described);
  const diagram = roomy ? described : planDiagram(facts);
  // Boxes of one width cannot stand where those of the other do.
  const pages = lay(roomy ? 'described plan' : 'plan', diagram);
  const [only, ...others] = pages;
  const outlined = only !== undefined && others.length === 0 && isInPlace(only.page, diagram);
  const plan = diagramDrafts('plan', 'Plan', pages, paper).map((draft, index): Draft => ({
    ...draft,
    legend: pages.slice(index, index + 1).flatMap(({ page }) => planLegend(page)),
    items: (numberOf) => [
      ...(outlined ? [outlineGroup(only, paper, draft.id)] : []),
      ...draft.items(numberOf),
      bowAndStern(paper, draft.id, outlined),
    ],
  }));
  const tables = tablePages([pullTable(facts), coreTable(facts)], diagramArea(paper)).map(
    ({ title, items }, index): Draft => {
      const id = `plan-${plan.length + index + 1}`;
      return { kind: 'plan', id, title, description: `${title}.`, legend: [], items: () => items(id) };
    },
  );
  return [...plan, ...tables];
}

/** Zones from bow to stern: the first and the last of many, since a title has no room for all. */
const spanOf = (zones: readonly string[]): string =>
  zones.length < 3 ? zones.join(', ') : `${zones[0] ?? ''} to ${zones.at(-1) ?? ''}`;

function diagramDrafts(
  kind: SheetKind,
  title: string,
  pages: readonly RoutedPage[],
  paper: Paper,
  before = 0,
  name: string = kind,
): readonly Draft[] {
  const ids = pages.map((_, index) => `${name}-${before + index + 1}`);
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
          : `${title} ${index + 1} of ${pages.length}${zones.length === 0 ? '' : `: ${spanOf(zones)}`}`,
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
