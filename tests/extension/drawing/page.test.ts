/** The page of the drawing: what may run in it, which colours it has, and what it says. */
import { describe, expect, it } from 'vitest';
import { drawSheets } from '../../../src/documents/draw.js';
import { toSvg } from '../../../src/documents/formats/svg.js';
import { ON_DARK, THEMED, themeRules } from '../../../src/extension/drawing/colours.js';
import { groupSheets, numbersOf } from '../../../src/extension/drawing/groups.js';
import { newNonce, pageHtml } from '../../../src/extension/drawing/html.js';
import { driftText, reachText } from '../../../src/extension/drawing/words.js';
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
    const buttons = html.match(/<(?:button|select)[^>]*>/g) ?? [];
    expect(buttons.length).toBeGreaterThan(8);
    // This one says what it leads to, and is hidden until it does.
    for (const button of buttons) expect(button).toMatch(/aria-label="[^"]+"|id="go"[^>]* hidden/);
    expect(html).toMatch(/id="anew"[^>]*aria-label="Lay Out Anew"/);
    expect(html).toMatch(/id="stage"[^>]*aria-label="[^"]+" aria-describedby="keys"/);
    for (const icon of html.match(/<svg[^>]*>/g) ?? []) expect(icon).toContain('aria-hidden="true"');
  });
});

it('every colour of the drawings has one of the editor', async () => {
  const found = new Set<string>();
  for (const name of EXAMPLES)
    for (const { scene } of drawSheets(await example(name), { paper: 'A3' }))
      for (const [, colour = ''] of toSvg(scene).matchAll(/(?:fill|stroke)="(#[0-9a-f]{6})"/g))
        found.add(colour);
  expect(found.size).toBeGreaterThan(6);
  expect([...found].filter((colour) => !THEMED.has(colour))).toEqual([]);
  expect(themeRules()).toContain('.sheet [stroke="#000000"] { stroke: var(--vscode-editor-foreground); }');
});

describe('the colours of media and findings', () => {
  /** Relative luminance after WCAG 2. */
  const luminance = (colour: string): number => {
    const [red = 0, green = 0, blue = 0] = [1, 3, 5].map((at) => {
      const part = parseInt(colour.slice(at, at + 2), 16) / 255;
      return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
    });
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
  };
  const contrast = (a: string, b: string): number => {
    const [low = 0, high = 0] = [luminance(a), luminance(b)].sort((x, y) => x - y);
    return (high + 0.05) / (low + 0.05);
  };
  it('can be read as text on paper of any usual theme', () => {
    expect(contrast('#000000', '#ffffff')).toBeCloseTo(21);
    for (const [light, dark] of Object.entries(ON_DARK)) {
      for (const paper of ['#ffffff', '#f8f8f8', '#fdf6e3'])
        expect(contrast(light, paper), light).toBeGreaterThan(4.5);
      for (const paper of ['#000000', '#1f1f1f', '#272822', '#2e3440'])
        expect(contrast(dark, paper), dark).toBeGreaterThan(4.5);
    }
  });
});

describe('the sheets of a set', () => {
  const sheets = [
    ['network-1', 'Gull: Network 1 of 2: bow to helm'],
    ['network-2', 'Gull: Network 2 of 2: cabin'],
    ['bus-1', 'Gull: Backbones: main, aft'],
    ['bus-2', 'Gull: Serial lines'],
    ['power-1', 'Gull: Power 1 of 2'],
    ['power-2', 'Gull: Power 2 of 2'],
  ].map(([id = '', title = '']) => ({ id, title }));
  it('are told apart by their kinds, with the numbers by which references name them', () => {
    const groups = groupSheets('Gull', sheets);
    expect(groups.map(({ name }) => name)).toEqual(['Network', 'Backbones', 'Power']);
    expect(groups.map(numbersOf)).toEqual(['1\u20132', '3\u20134', '5\u20136']);
    expect(groups.flatMap((group) => group.sheets.map(({ name }) => name))).toEqual([
      'Network 1 of 2: bow to helm',
      'Network 2 of 2: cabin',
      'main, aft',
      'Serial lines',
      'Power 1 of 2',
      'Power 2 of 2',
    ]);
    expect(groups[2]?.sheets[0]).toEqual({ id: 'power-1', number: 5, name: 'Power 1 of 2' });
    expect(groupSheets('Gull', [])).toEqual([]);
  });
});

describe('what is said of a drawing that has grown out of its sheets', () => {
  it('is how many laying out anew saves, on the button itself', () => {
    expect(driftText([])).toBe('Lay Out Anew');
    expect(driftText([{ diagram: 'power', sheets: 4, anew: 3 }])).toBe('Lay Out Anew saves 1 sheet');
    const both = ['power', 'network'].map((diagram) => ({ diagram, sheets: 3, anew: 1 }));
    expect(driftText(both)).toBe('Lay Out Anew saves 4 sheets');
  });
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
