/** The page of the drawing: what may run in it, which colours it has, and what it says. */
import { describe, expect, it } from 'vitest';
import { drawSheets } from '../../../src/documents/draw.js';
import { toSvg } from '../../../src/documents/formats/svg.js';
import { THEMED, themeRules } from '../../../src/extension/drawing/colours.js';
import { elementAt } from '../../../src/extension/drawing/cursor.js';
import { newNonce, pageHtml } from '../../../src/extension/drawing/html.js';
import { reachText } from '../../../src/extension/drawing/words.js';
import { example, EXAMPLES } from '../../documents/boats.js';

describe('the page', () => {
  const nonce = newNonce();
  const html = pageHtml({
    script: 'https://host/preview.js',
    nonce,
    uri: 'file:///a"><script>b</script>.loft',
  });

  it('lets nothing run or load but what has the nonce', () => {
    const policy = /Content-Security-Policy" content="([^"]+)"/.exec(html)?.[1];
    expect(policy).toBe(`default-src 'none'; script-src 'nonce-${nonce}'; style-src 'nonce-${nonce}'`);
    const scripts = [...html.matchAll(/<script[^>]*>/g)].map(([tag]) => tag);
    expect(scripts).toEqual([`<script nonce="${nonce}" src="https://host/preview.js">`]);
    expect(html).not.toMatch(/\son[a-z]+=|\sstyle=|command:|@import|url\(/);
  });

  it('has another nonce each time', () => {
    expect(new Set(Array.from({ length: 50 }, newNonce)).size).toBe(50);
    expect(nonce).toMatch(/^[0-9a-f]{36}$/);
  });

  it('names its parts for who does not see them', () => {
    for (const button of html.match(/<button[^>]*>[^<]*/g) ?? [])
      expect(button).toMatch(/aria-label="[^"]+"|>[A-Z][a-z]+$/);
    expect(html).toMatch(/id="stage"[^>]*aria-label="[^"]+"/);
  });
});

it('every colour of the drawings has one of the editor', async () => {
  const found = new Set<string>();
  for (const name of EXAMPLES)
    for (const { scene } of drawSheets(await example(name), { paper: 'A3' }))
      for (const [, colour = ''] of toSvg(scene).matchAll(/(?:fill|stroke)="(#[0-9a-f]{6})"/g))
        found.add(colour);
  expect(found.size).toBeGreaterThan(6);
  expect([...found].filter((colour) => THEMED[colour] === undefined)).toEqual([]);
  expect(themeRules()).toContain('.sheet [stroke="#000000"] { stroke: var(--vscode-editor-foreground); }');
});

describe('what is said of a source', () => {
  const reach = { origin: 'device live', name: 'live', lit: [], seen: [], blind: [], unknown: [] };
  it('names every screen that cannot see it', () => {
    expect(
      reachText({ ...reach, seen: ['plotter'], blind: ['mate', 'cabin', 'tower'], unknown: ['bow'] }),
    ).toBe('live: shown on plotter; not on mate, cabin and tower; not known on bow.');
    const many = Array.from({ length: 12 }, (_, index) => `screen${index}`);
    const text = reachText({ ...reach, blind: many });
    expect(many.filter((name) => !text.includes(name))).toEqual([]);
  });
  it('says so where there is no screen', () => {
    expect(reachText(reach)).toBe('live: no other screen aboard.');
  });
});

describe('the element at a place in the text', () => {
  const range = (line: number, from: number, to: number, last = line) => ({
    start: { line, character: from },
    end: { line: last, character: to },
  });
  const element = (origin: string, whole: ReturnType<typeof range>, file = 'a') => ({
    origin,
    place: { file, range: whole },
    whole,
  });
  const elements = [
    element('backbone nav', range(3, 0, 1, 8)),
    element('tee', range(5, 2, 20)),
    element('device plotter', range(1, 0, 30)),
    element('other', range(1, 0, 30), 'b'),
  ];
  it('is the innermost of that file', () => {
    expect(elementAt(elements, 'a', { line: 5, character: 4 })?.origin).toBe('tee');
    expect(elementAt(elements, 'a', { line: 6, character: 0 })?.origin).toBe('backbone nav');
    expect(elementAt(elements, 'a', { line: 1, character: 30 })?.origin).toBe('device plotter');
    expect(elementAt(elements, 'b', { line: 1, character: 3 })?.origin).toBe('other');
    expect(elementAt(elements, 'a', { line: 0, character: 0 })).toBeUndefined();
  });
});
