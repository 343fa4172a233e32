/** What an artist does, wherever it sits: pure functions of an analysis. */
import type { Analysis } from '../../../../checks/analysis.js';
import { drawSet, driftOf } from '../../../../documents/draw.js';
import { filesOf, type DrawingFile, type HeavyWriters } from '../../../../documents/formats/files.js';
import { toSvg } from '../../../../documents/formats/svg.js';
import { hashOf } from '../../../../documents/numbering.js';
import { groupsOf, type Scene } from '../../../../documents/scene/scene.js';
import { SHEET_KINDS } from '../../../../documents/sheet.js';
import { placesName, placesText } from '../../../../documents/places.js';
import type { Origin } from '../../../../vessel/origin.js';
import { portsOf, referencesOf } from '../elements.js';
import type { DrawnDrift, SheetPicture } from '../protocol.js';
import type { Drawn, DrawnSheet, Standing, Title, Wanted } from './artist.js';
import { pack, unpack } from './packed.js';

/** As `wireloft draw` does by itself. */
const PAPER = 'A3';

/** The sheets for a screen: boxes stay where they stood. */
export function drawn(analysis: Analysis, title: Title, standing: Standing): Drawn {
  const before = standing && unpack(standing);
  const { sheets, places } = drawSet(analysis, { ...title, paper: PAPER, places: before });
  const pictures = sheets.map(({ scene }) => sheetOf(scene));
  return {
    sheets: pictures,
    key: keyOf(pictures.map(({ key }) => key)),
    places: pack({ ...before, ...places }),
  };
}

function sheetOf(scene: Scene): DrawnSheet {
  const { id, title, width, height } = scene;
  const picture: SheetPicture = {
    width,
    height,
    svg: toSvg(scene),
    ports: portsOf(scene),
    references: referencesOf(scene),
  };
  const origins = new Set<Origin>();
  for (const { origin } of groupsOf(scene.items)) if (origin !== undefined) origins.add(origin);
  return { id, title, key: keyOf([id, title, picture]), origins: [...origins], picture: pack(picture) };
}

const keyOf = (value: unknown): string => hashOf(JSON.stringify(value)).toString(16);

/** What laying out anew would save. It takes as long as drawing: `between` is waited for before each kind of sheet, so that other work goes first. */
export async function drift(
  analysis: Analysis,
  standing: Standing,
  between: () => Promise<void> = () => Promise.resolve(),
): Promise<readonly DrawnDrift[]> {
  const places = standing && unpack(standing);
  const found: DrawnDrift[] = [];
  for (const kind of SHEET_KINDS) {
    await between();
    found.push(...driftOf(analysis, { paper: PAPER, places, sheets: [kind] }));
  }
  return found;
}

/** The files that are handed over, with the boxes where they stand; by themselves they stand as `wireloft draw` has them. */
export function written(
  analysis: Analysis,
  title: Title,
  { format, sheet }: Wanted,
  standing: Standing,
  load: () => Promise<HeavyWriters>,
): Promise<readonly DrawingFile[]> {
  const { sheets, places } = drawSet(analysis, {
    ...title,
    paper: PAPER,
    places: standing && unpack(standing),
  });
  if (sheets.length === 0) return Promise.resolve([]);
  if (format === 'places')
    return Promise.resolve([{ name: placesName(title.file), content: placesText(places) }]);
  const scenes = sheets.map(({ scene }) => scene).filter(({ id }) => sheet === undefined || id === sheet);
  if (scenes.length === 0) return Promise.resolve([]);
  const facts = { vessel: analysis.vessel.name, version: title.version };
  return filesOf(scenes, format, facts, load, sheet !== undefined);
}
