/** What an artist does, wherever it sits: pure functions of an analysis. */
import type { Analysis } from '../../../../checks/analysis.js';
import { drawSet, drawSheets } from '../../../../documents/draw.js';
import { filesOf, type DrawingFile, type HeavyWriters } from '../../../../documents/formats/files.js';
import { toSvg } from '../../../../documents/formats/svg.js';
import { hashOf } from '../../../../documents/numbering.js';
import { groupsOf } from '../../../../documents/scene/scene.js';
import type { KeptPlaces } from '../../../../documents/sheet.js';
import type { Origin } from '../../../../vessel/origin.js';
import { portsOf } from '../elements.js';
import type { DrawnSheet } from '../protocol.js';
import type { Drawn, Title, Wanted } from './artist.js';

/** As `wireloft draw` does by itself. */
const PAPER = 'A3';

/** The sheets for a screen: boxes stay where they stood. */
export function drawn(analysis: Analysis, title: Title, before: KeptPlaces | undefined): Drawn {
  const { sheets, places } = drawSet(analysis, { ...title, paper: PAPER, places: before });
  const origins = new Set<Origin>();
  for (const { scene } of sheets)
    for (const { origin } of groupsOf(scene.items)) if (origin !== undefined) origins.add(origin);
  const pictures = sheets.map(({ scene }): DrawnSheet => ({
    id: scene.id,
    title: scene.title,
    width: scene.width,
    height: scene.height,
    svg: toSvg(scene),
    ports: portsOf(scene),
  }));
  return {
    sheets: pictures,
    key: hashOf(JSON.stringify(pictures)).toString(16),
    places: { ...before, ...places },
    origins: [...origins],
  };
}

/** The files that are handed over. Boxes stand where they stand by themselves, so that the bytes are those of `wireloft draw`. */
export function written(
  analysis: Analysis,
  title: Title,
  { format, sheet }: Wanted,
  load: () => Promise<HeavyWriters>,
): Promise<readonly DrawingFile[]> {
  const scenes = drawSheets(analysis, { ...title, paper: PAPER })
    .map(({ scene }) => scene)
    .filter(({ id }) => sheet === undefined || id === sheet);
  if (scenes.length === 0) return Promise.resolve([]);
  const facts = { vessel: analysis.vessel.name, version: title.version };
  return filesOf(scenes, format, facts, load, sheet !== undefined);
}
