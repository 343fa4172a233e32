/**
 * What the text of a spec says in other words, or in another order, moves nothing on any sheet: other names, other white space and
 * comments, declarations and properties in another order. Drawn from nothing, and where boxes are kept in their places.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Analysis } from '../../src/checks/analysis.js';
import { drawSet, type DrawnSet } from '../../src/documents/draw.js';
import { numberCables } from '../../src/documents/numbering.js';
import { groupsOf, type Item, type Scene } from '../../src/documents/scene/scene.js';
import type { KeptPlaces } from '../../src/documents/sheet.js';
import { createWorkspace, type Check } from '../docs/support/workspace.js';
import { EXAMPLES } from './boats.js';

type Texts = ReadonlyMap<string, string>;

const root = join(import.meta.dirname, '..', '..', 'examples');

/** The files of an example, by their names. */
function textsOf(example: string): Texts {
  const folder = dirname(example);
  return new Map(
    readdirSync(join(root, folder)).map((name) => [
      `${folder}/${name}`,
      readFileSync(join(root, folder, name), 'utf8'),
    ]),
  );
}

let check: Check;
beforeAll(async () => {
  check = await createWorkspace();
});

async function analysed(texts: Texts, example: string): Promise<Analysis> {
  const { vessels } = await check(texts, 'none');
  const vessel = vessels.find(({ file }) => basename(file) === `${basename(example)}.loft`);
  if (vessel === undefined) throw new Error(`${example} has no vessel`);
  expect(vessel.problems.filter(({ rule }) => rule.startsWith('syntax'))).toEqual([]);
  return vessel.analysis;
}

const changed = (texts: Texts, change: (text: string) => string): Texts =>
  new Map([...texts].map(([name, text]) => [name, change(text)]));

/** Whole declarations, each with the remarks above it, in the order of the text. */
function declarations(text: string): readonly string[] {
  const parts: string[] = [];
  for (const line of text.split('\n')) {
    const last = parts.length - 1;
    const isInside = line === '' || /^[\s}]/.test(line) || /(?:^|\n)\s*\/\/[^\n]*$/.test(parts[last] ?? '');
    if (isInside && last >= 0) parts[last] = `${parts[last] ?? ''}\n${line}`;
    else parts.push(line);
  }
  return parts;
}

/** Other remarks, white space at will, and the line ends of another system. */
const reformatted = (text: string): string =>
  text
    .split('\n')
    .flatMap((line) => (/^\s*\/\//.test(line) ? [] : [`\t${line.trimStart()}   `, '', '  // another remark']))
    .join('\r\n');

/** The other way round, zones aside: their order is that from bow to stern where they do not say how far aft they are. */
function reordered(text: string): string {
  const all = declarations(text);
  const fixed = all.filter((part) => /^(?:use|zone) /m.test(part));
  return [...fixed, ...all.filter((part) => !fixed.includes(part)).reverse()].join('\n');
}

/** Properties the other way round: in the block of the vessel, and of fuse and wire in feeds. */
const turned = (text: string): string =>
  text
    .replace(
      /^(vessel .*\{\n)([\s\S]*?)(^\})/m,
      (_, head: string, inner: string, end: string) =>
        `${head}${inner.trimEnd().split('\n').reverse().join('\n')}\n${end}`,
    )
    .replace(/(fuse [\d.]+ A) +(wire [\d.]+ (?:AWG|mm2))/g, '$2 $1');

const draw = (analysis: Analysis, places?: KeptPlaces): DrawnSet =>
  drawSet(analysis, { paper: 'A3', hash: '0', places });

/** All that is on a sheet, in no order. Ids may differ; the rows of the core table are in the order of the feeds. */
function content({ id, title, items }: Scene): readonly string[] {
  const shown = items.filter((item) => item.kind !== 'group' || item.name !== 'Core table');
  return [`${id} ${title}`, ...shown.map((item) => JSON.stringify(withoutIds(item)))].sort();
}

const withoutIds = (item: Item): unknown =>
  item.kind === 'group'
    ? { ...item, id: undefined, leadsTo: undefined, items: item.items.map(withoutIds) }
    : item;

/** Where boxes and zones are, whatever they are called. */
const boxesOn = (scene: Scene): readonly string[] =>
  [...groupsOf(scene.items)]
    .filter(({ role }) => role === 'device' || role === 'zone')
    .map(({ items: [first] }) => JSON.stringify(first))
    .sort();

/** Which ways wires take, whatever they are called. */
const waysOn = (scene: Scene): readonly string[] =>
  [...groupsOf(scene.items)]
    .filter(({ role }) => role === 'link' || role === 'trunk')
    .map(({ items }) => items.find(({ kind }) => kind === 'line'))
    .map((line) => (line?.kind === 'line' ? JSON.stringify(line.points) : ''))
    .sort();

const each = <T>({ sheets }: DrawnSet, of: (scene: Scene) => T): ReadonlyMap<string, T> =>
  new Map(sheets.map(({ scene }) => [scene.id, of(scene)]));

/** Of many names, one in so many. */
const MOST_TRIED = 20;

describe('a drawing holds still', () => {
  it.each(
    EXAMPLES.flatMap((example) =>
      (
        [
          ['white space and remarks', reformatted],
          ['the order of declarations', reordered],
          ['the order of properties', turned],
        ] as const
      ).map(([what, change]) => [example, what, change] as const),
    ),
  )('whatever its text has: %s, %s', async (example, _, change) => {
    const texts = textsOf(example);
    const other = changed(texts, change);
    expect([...other]).not.toEqual([...texts]);
    const [was, is] = [await analysed(texts, example), await analysed(other, example)];
    expect(is.vessel.devices.length).toBe(was.vessel.devices.length);
    const { places } = draw(was);
    for (const kept of [undefined, places])
      expect(each(draw(is, kept), content)).toEqual(each(draw(was, kept), content));
  });

  it.each(EXAMPLES)('whatever things are called: %s', async (example) => {
    const texts = textsOf(example);
    const was = await analysed(texts, example);
    const { vessel } = was;
    const before = draw(was);
    const again = draw(was, before.places);
    const names = [...vessel.devices, ...vessel.zones, ...vessel.backbones, ...vessel.runs].flatMap(
      ({ name }) => name ?? [],
    );
    let drawnAnew = 0;
    // One device is called as a property is.
    const free = names.filter((name) => name !== 'parallel');
    const tried = free.filter((_, index) => index % Math.ceil(names.length / MOST_TRIED) === 0);
    for (const name of tried) {
      // The same letters take the same room.
      const to = name.replace(/^\D+/, (letters) => Array.from(letters).reverse().join(''));
      const word = new RegExp(`"[^"]*"|(?<!\\.)\\b${name}\\b`, 'g');
      const put = (found: string): string => (found.startsWith('"') ? found : to);
      const is = await analysed(
        changed(texts, (text) => text.replace(word, put)),
        example,
      );
      const kept = draw(is, before.places);
      expect(each(kept, boxesOn), `${name}, kept`).toEqual(each(again, boxesOn));
      // A cable has its number from its ends, and one that falls on the number of another has a letter more.
      if (widthsOf(is) !== widthsOf(was)) continue;
      drawnAnew += 1;
      const anew = draw(is);
      expect(each(anew, boxesOn), name).toEqual(each(before, boxesOn));
      expect(each(anew, waysOn), name).toEqual(each(before, waysOn));
      expect(each(kept, waysOn), `${name}, kept`).toEqual(each(again, waysOn));
    }
    expect(drawnAnew / tried.length).toBeGreaterThan(0.5);
  });
});

/** How long the numbers of the cables are. */
const widthsOf = (analysis: Analysis): string =>
  [...numberCables(analysis).all.values()]
    .map(({ length }) => length)
    .sort()
    .join();
