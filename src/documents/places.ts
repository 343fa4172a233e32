/** Places of boxes as the text of a file, which is kept beside the spec so that the next drawing leaves them where they are. */
import type { KeptDiagram, KeptNode } from './diagram/kept.js';
import type { KeptPlaces } from './sheet.js';

const FORMAT = '1.0';

/** What the file is called beside a boat's own, where nobody names it. */
export const placesName = (file: string): string =>
  `${file.replace(/\.loft$/, '').replace(/[\\/]/g, '-')}.places.json`;

/** A line for each box, sorted, so that a change of the drawing is a small change of the file. */
export function placesText(places: KeptPlaces): string {
  const diagrams = Object.keys(places)
    .sort()
    .map((name) => {
      const kept = places[name];
      const nodes = (kept?.nodes ?? []).map((node) => `      ${JSON.stringify(node)}`).join(',\n');
      return `    ${JSON.stringify(name)}: {"paper": ${JSON.stringify(kept?.paper)}, "scale": ${String(kept?.scale)}, "nodes": [\n${nodes}\n    ]}`;
    });
  return `{\n  "format": "${FORMAT}",\n  "diagrams": {\n${diagrams.join(',\n')}\n  }\n}\n`;
}

/** The places in such a text; undefined where it is another. */
export function placesIn(text: string): KeptPlaces | undefined {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    return undefined;
  }
  if (!isRecord(value) || value['format'] !== FORMAT || !isRecord(value['diagrams'])) return undefined;
  const places: Record<string, KeptDiagram> = {};
  for (const [name, diagram] of Object.entries(value['diagrams'])) {
    if (!isRecord(diagram)) return undefined;
    const { paper, scale, nodes } = diagram;
    if (typeof paper !== 'string' || !isPlace(scale) || scale < 1 || scale > 2 || !Array.isArray(nodes))
      return undefined;
    const list: readonly unknown[] = nodes;
    if (!list.every(isNode)) return undefined;
    places[name] = { paper, scale, nodes: list };
  }
  return places;
}

const isRecord = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

const isPlace = (value: unknown): value is number =>
  typeof value === 'number' && Number.isFinite(value) && Math.abs(value) < 10_000;

function isNode(value: unknown): value is KeptNode {
  if (!isRecord(value)) return false;
  const { id, group, like, page, x, y } = value;
  const texts = [id, group, like].every((one) => typeof one === 'string');
  // Whatever is off the grid could not be joined by wires.
  const onGrid = [x, y].every((one) => isPlace(one) && one >= 0 && Number.isInteger(one / 2.5));
  return texts && onGrid && typeof page === 'number' && Number.isInteger(page) && page >= 0 && page < 1000;
}
