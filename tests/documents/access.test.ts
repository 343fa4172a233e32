/** Drawings for whoever sees fewer colours, prints in black and white, or hears them read: colours by the formula of WCAG, roles and names. */
import { readFileSync } from 'node:fs';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { SaxesParser } from 'saxes';
import { describe, expect, it } from 'vitest';
import { drawSheets } from '../../src/documents/draw.js';
import type { PaperName } from '../../src/documents/frame/paper.js';
import { toPdf } from '../../src/documents/formats/pdf.js';
import { toSvg } from '../../src/documents/formats/svg.js';
import {
  groupsOf,
  type GroupItem,
  type Item,
  type Scene,
  type Stroke,
} from '../../src/documents/scene/scene.js';
import type { Sheet } from '../../src/documents/sheet.js';
import { strokeOf } from '../../src/documents/style.js';
import { MEDIA } from '../../src/vessel/model.js';
import { FONT_FILES } from '../support/writers.js';
import { analysed, EXAMPLES, example, fleetParts } from './boats.js';
import { contrast } from './contrast.js';
import { measure } from './measure.js';
import { inkOf, onEdge, rectOf, within, type Rect } from './measure/shapes.js';

const WHITE = '#ffffff';
/** Least contrast of lines and signs, and of texts. */
const [LINE, TEXT] = [3, 4.5];

async function examples(papers: readonly PaperName[] = ['A3']): Promise<readonly Sheet[]> {
  const boats = await Promise.all(EXAMPLES.map((name) => example(name)));
  return boats.flatMap((boat) => papers.flatMap((paper) => drawSheets(boat, { paper })));
}

/** Items as they are painted, each with its group. */
function* painted(
  items: readonly Item[],
  group?: GroupItem,
): Generator<{ readonly item: Exclude<Item, GroupItem>; readonly group: GroupItem | undefined }> {
  for (const item of items) {
    if (item.kind === 'group') yield* painted(item.items, item);
    else yield { item, group };
  }
}

/** Texts and lines of a scene that are too faint, each with its contrast. */
function faint(scene: Scene): readonly string[] {
  const grounds: { readonly rect: Rect; readonly fill: string }[] = [];
  const found: string[] = [];
  for (const { item, group } of painted(scene.items)) {
    if (item.kind === 'text') {
      const ink = inkOf(item);
      const ground = grounds.findLast(({ rect }) => within(ink, rect))?.fill ?? WHITE;
      const is = contrast(item.colour ?? '#000000', ground);
      if (is < TEXT) found.push(`"${item.text}" on ${ground}: ${is.toFixed(2)}`);
      continue;
    }
    // The edge of a zone only groups what its title names; where bow and stern are is written beside the outline of the plan.
    const isGround = group?.role === 'zone' || group?.name === 'outline';
    if (item.stroke !== undefined && !isGround && contrast(item.stroke.colour, WHITE) < LINE)
      found.push(`a line of ${group?.name ?? ''}: ${item.stroke.colour}`);
    if (item.kind === 'rect' && item.fill !== undefined)
      grounds.push({ rect: rectOf(item), fill: item.fill });
    if (item.kind === 'disc' && item.fill !== undefined && contrast(item.fill, WHITE) < LINE)
      found.push(`a dot of ${group?.name ?? ''}: ${item.fill}`);
  }
  return found;
}

/** Whether two lines are told apart without their colours: by weight, or by a dash or a gap that is half as long again. */
function differ(one: Stroke, other: Stroke): boolean {
  const ratio = (a: number, b: number): number => Math.max(a, b) / Math.min(a, b);
  const [a, b] = [one.dash ?? [], other.dash ?? []];
  return (
    ratio(one.width, other.width) >= 1.4 ||
    a.length !== b.length ||
    a.some((length, index) => ratio(length, b[index] ?? length) >= 1.5 - 1e-9)
  );
}

describe('in colour and without', () => {
  it('every line reaches 3:1 and every text 4.5:1 on what it stands on', async () => {
    expect([contrast('#000000', WHITE), contrast('#767676', WHITE).toFixed(2)]).toEqual([21, '4.54']);
    for (const medium of [...MEDIA, undefined])
      expect(contrast(strokeOf(medium).colour, WHITE), medium).toBeGreaterThanOrEqual(LINE);
    const sheets = await examples();
    expect(sheets.length).toBeGreaterThan(20);
    expect(sheets.flatMap(({ scene }) => faint(scene))).toEqual([]);
  });

  it('every medium is told from every other by weight or dash alone', () => {
    const all = [...MEDIA, undefined];
    const alike = all.flatMap((one, index) =>
      all
        .slice(index + 1)
        .flatMap((other) =>
          differ(strokeOf(one), strokeOf(other)) ? [] : [`${one ?? 'unknown'} and ${other ?? 'unknown'}`],
        ),
    );
    expect(alike).toEqual([]);
  });

  it('every kind of line on a sheet is in its legend', async () => {
    const looks = ({ colour, width, dash }: Stroke): string => `${colour} ${width} ${dash?.join(' ') ?? ''}`;
    const unsettled = analysed({ ...fleetParts(13), links: ['main1.nothing -- second1.nothing'] });
    const sheets = [...(await examples(['A3', 'A4'])), ...drawSheets(unsettled, { paper: 'A3' })];
    expect(sheets.some(({ scene }) => toSvg(scene).includes('medium not settled'))).toBe(true);
    const missing = sheets.flatMap(({ scene }) => {
      const groups = [...groupsOf(scene.items)];
      const strokes = (of: readonly GroupItem[]): readonly string[] =>
        of.flatMap(({ items }) =>
          items.flatMap((item) => (item.kind === 'line' ? [looks(item.stroke)] : [])),
        );
      const legend = strokes(groups.filter(({ name }) => name === 'legend'));
      const used = strokes(
        groups
          .filter(({ role }) => role === 'link')
          .map((group) => ({ ...group, items: group.items.slice(0, 1) })),
      );
      return [...new Set(used)]
        .filter((stroke) => !legend.includes(stroke))
        .map((stroke) => `${scene.id}: ${stroke}`);
    });
    expect(missing).toEqual([]);
  });
});

interface Element {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: Element[];
}

/** The tree of a document. */
function treeOf(xml: string): Element {
  const parser = new SaxesParser();
  const stack: Element[] = [{ name: '', attributes: {}, children: [] }];
  parser.on('opentag', ({ name, attributes }) => {
    const element: Element = { name, attributes, children: [] };
    stack.at(-1)?.children.push(element);
    stack.push(element);
  });
  parser.on('closetag', () => stack.pop());
  parser.write(xml).close();
  const [root] = stack[0]?.children ?? [];
  if (root === undefined) throw new Error('There is no element.');
  return root;
}

function* all(element: Element): Generator<Element> {
  yield element;
  for (const child of element.children) yield* all(child);
}

const ATTRIBUTES =
  /^(?:id|role|aria-(?:label|labelledby|hidden)|data-(?:name|kind|origin)|xmlns|viewBox|x|y|cx|cy|r|rx|d|width|height|fill|stroke|stroke-width|stroke-dasharray|transform|kerning|text-anchor|textLength|lengthAdjust|font-(?:family|size|stretch|kerning|weight))$/;

describe('read aloud', () => {
  it('a sheet has a title and a description, and everything on it says what it is', async () => {
    const sheets = drawSheets(await example('motoryacht/razorbill'), { paper: 'A4' });
    const ids = new Set<string>();
    for (const { scene } of sheets) {
      const root = treeOf(toSvg(scene));
      const [title, description] = root.children;
      expect(root.attributes['role']).toBe('graphics-document');
      expect([title?.name, description?.name]).toEqual(['title', 'desc']);
      expect(root.attributes['aria-labelledby']).toBe(
        `${title?.attributes['id']} ${description?.attributes['id']}`,
      );
      for (const { name, attributes, children } of all(root)) {
        expect(Object.keys(attributes).filter((key) => !ATTRIBUTES.test(key))).toEqual([]);
        expect(Object.values(attributes).filter((value) => /url\(|javascript:|data:/i.test(value))).toEqual(
          [],
        );
        const { id } = attributes;
        if (id !== undefined) {
          expect(id.startsWith(`${scene.id}-`)).toBe(true);
          expect(ids.has(id), id).toBe(false);
          ids.add(id);
        }
        if (name !== 'g' || attributes['aria-hidden'] === 'true') continue;
        expect(attributes['role']).toBe('graphics-object');
        expect(attributes['aria-label']).toMatch(/\S/);
        expect(children[0]?.name).toBe('title');
      }
      // The frame and its letters say nothing of the boat, and nothing else is hidden.
      const hidden = [...all(root)].filter(({ attributes }) => attributes['aria-hidden'] === 'true');
      expect(hidden.map(({ attributes }) => attributes['id'])).toEqual([`${scene.id}-frame`]);
    }
    expect(ids.size).toBeGreaterThan(200);
  });

  it('conductors come as the current flows: from the batteries, then from left to right and from the top', async () => {
    let conductors = 0;
    for (const name of EXAMPLES) {
      const boat = await example(name);
      const sheets = drawSheets(boat, { paper: 'A3', sheets: ['power'] });
      for (const [index, { scene }] of sheets.entries()) {
        const { boxes } = measure(scene);
        const from = [...groupsOf(scene.items)].flatMap(({ role, leadsTo, items: [line] }) => {
          if (role !== 'link' || leadsTo !== undefined || line?.kind !== 'line') return [];
          const [start] = line.points;
          return start === undefined ? [] : [[...boxes].find(([, box]) => onEdge(start, box))];
        });
        conductors += from.length;
        const places = from.map((box) => (box?.[1].left ?? NaN) * 1000 + (box?.[1].top ?? NaN));
        expect(places).toEqual([...places].sort((a, b) => a - b));
        const first = boat.vessel.devices.find((device) => device.name === from[0]?.[0]);
        if (index === 0) expect(boat.vessel.models[first?.models[0] ?? '']?.class).toBe('battery');
      }
    }
    expect(conductors).toBeGreaterThan(60);
  });
});

/** The number and the generation of a page's object. */
interface PageRef {
  readonly num: number;
  readonly gen: number;
}

describe('in the PDF', () => {
  it('a reference is a link to the page of its partner, and back', async () => {
    const sheets = drawSheets(await example('motoryacht/razorbill'), { paper: 'A4' });
    const scenes = sheets.map(({ scene }) => scene);
    const fonts = { regular: readFileSync(FONT_FILES.regular), bold: readFileSync(FONT_FILES.bold) };
    const data = await toPdf(scenes, fonts, { title: 'Drawings', keywords: 'test', date: undefined });
    const task = getDocument({ data: new Uint8Array(data), verbosity: 0, useSystemFonts: false });
    const document = await task.promise;
    const pageOf = (id: string | undefined): number =>
      scenes.findIndex(({ items }) => [...groupsOf(items)].some((group) => group.id === id));
    let links = 0;
    for (const [index, { items }] of scenes.entries()) {
      const page = await document.getPage(index + 1);
      const annotations = (await page.getAnnotations()) as readonly { subtype: string; dest: string }[];
      const there: number[] = [];
      for (const { dest } of annotations.filter(({ subtype }) => subtype === 'Link')) {
        const [target] = ((await document.getDestination(dest)) ?? []) as readonly PageRef[];
        there.push(target === undefined ? -1 : await document.getPageIndex(target));
      }
      const meant = [...groupsOf(items)].flatMap(({ leadsTo }) =>
        leadsTo === undefined ? [] : [pageOf(leadsTo)],
      );
      expect(there).toEqual(meant);
      links += there.length;
    }
    await task.destroy();
    expect(links).toBeGreaterThan(20);
  });
});
