/** The side file with the places of boxes, which is kept beside the spec so that the next drawing leaves them where they are. */
import { readFile } from 'node:fs/promises';
import { resolve } from 'node:path';
import type { KeptDiagram, KeptNode } from '../documents/diagram/kept.js';
import type { PaperName } from '../documents/frame/paper.js';
import type { KeptPlaces } from '../documents/sheet.js';
import { systemMessage } from './files/write.js';
import { quoted } from './terminal/arguments.js';
import type { Invocation, Option } from './terminal/command.js';
import { printable } from './terminal/printable.js';
import { UsageError, type World } from './terminal/world.js';

const FORMAT = '1.0';

/** For what draws the boat beside something else: only `draw` writes places. */
export const PLACES_OPTION: Option = {
  name: 'places',
  value: 'FILE',
  text: 'Draws boxes where this file says that they stand, as "wireloft draw --places" wrote it, so that they are where they are on the drawings that are aboard. The file is not changed.',
};

/**
 * The places that were given; undefined where none were.
 * @throws UsageError where the file is not there or holds something else
 */
export async function givenPlaces(
  invocation: Invocation,
  paper: PaperName,
  world: World,
): Promise<KeptPlaces | undefined> {
  const written = invocation.value('places');
  if (written === undefined) return undefined;
  const places = await readPlaces(resolve(world.folder, written), written);
  if (places === undefined)
    throw new UsageError(
      `--places ${quoted(written)} is not there. "wireloft draw --places ${printable(written)}" writes it.`,
    );
  const papers = [...new Set(Object.values(places).map((kept) => kept.paper))];
  if (papers.length > 0 && !papers.includes(paper))
    world.error.write(
      `wireloft: the places in ${quoted(written)} are for ${papers.map(printable).join(' and ')}, so what is drawn on ${paper} is laid out anew.\n`,
    );
  return places;
}

/**
 * Reads places; none where the file is not there yet.
 * @throws UsageError where it holds something else
 */
export async function readPlaces(path: string, written: string): Promise<KeptPlaces | undefined> {
  let text: string;
  try {
    text = await readFile(path, 'utf8');
  } catch (error) {
    if (error instanceof Error && 'code' in error && error.code === 'ENOENT') return undefined;
    const reason = systemMessage(error);
    if (reason === undefined) throw error;
    throw new UsageError(`--places ${quoted(written)} cannot be read: ${reason}.`);
  }
  const places = parsed(text);
  if (places === undefined)
    throw new UsageError(
      `--places ${quoted(written)} holds no places that "wireloft draw" wrote. Give another file, or remove it to begin anew.`,
    );
  return places;
}

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

function parsed(text: string): KeptPlaces | undefined {
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
