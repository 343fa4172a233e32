/** Hover, inlay hints, code lenses and code actions, through the protocol. */
import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { CodeAction, CodeLens, Hover, InlayHint, Position } from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { FakeEditor, uriOf } from '../support/editor.js';

const example = (path: string): string =>
  readFileSync(new URL(`../../examples/${path}`, import.meta.url), 'utf8');
const BOAT = 'kittiwake/kittiwake.loft';
const FILES = Object.fromEntries(
  [BOAT, 'catalogue/tern.loft', 'catalogue/general.loft', 'catalogue/power.loft', 'catalogue/skua.loft'].map(
    (path) => [path, example(path)],
  ),
);

let editor: FakeEditor;
beforeAll(async () => {
  editor = await FakeEditor.start(FILES);
  await editor.open(BOAT);
});
afterAll(() => {
  editor.stop();
});

/** The place `after` characters into the first match of a pattern. */
function position(pattern: RegExp, after = 0, path = BOAT): Position {
  const text = editor.text(path);
  const match = pattern.exec(text);
  if (!match) throw new Error(`${path} has no ${String(pattern)}.`);
  return TextDocument.create('', '', 0, text).positionAt(match.index + after);
}

async function hover(pattern: RegExp, after = 0): Promise<string> {
  const found = await editor.at<Hover | null>('textDocument/hover', BOAT, position(pattern, after));
  const contents = found?.contents;
  return contents && typeof contents === 'object' && 'value' in contents ? contents.value : '';
}

describe('hover', () => {
  const CASES: readonly (readonly [what: string, pattern: RegExp, after: number, says: readonly string[]])[] =
    [
      [
        'a screen: what it shows and by which path',
        /device bowScreen/,
        8,
        ['**bowScreen**', 'Shows', 'sternSonar', 'plotter → hub', 'exposed|At bow'],
      ],
      ["a screen: what it can't, and why", /device bowScreen/, 8, ["Can't show", 'no bus']],
      ['a source: who sees it', /device sternSonar/, 8, ['Seen on', 'bowScreen', 'plotter']],
      ['what is on a port', /hub\.1/, 4, ['hub\\.1', 'ethernet', 'On it: plotter\\.net1']],
      ['a model: ports and price', /: Tern13/, 3, ['Tern13', 'USD', 'Ports', 'accepts hd']],
      ['a cable: lengths and prices', /using SealedNet/, 7, ['SealedNet', 'Sealed', '12 m']],
      [
        'a zone: what it asks and holds',
        /zone transom/,
        6,
        ['zone', 'transom', 'IPX6', 'sternSonar', 'Runs'],
      ],
      ['a link: length and what is bought', /link plotter\.net1\s+-- hub\.1/, 1, ['Needs', 'Bought: 6 m']],
      ['a need: met, and by which hops', /need plotter, bowScreen show/, 1, ['Met.', 'sternSonar']],
      ['a pane: by which path', /left: chart/, 1, ['pane', 'chart: yes']],
      ['a class of the library', /device hub/, 8, ['switch']],
      ['an exposure of the library', /exposed\s+aft/, 1, ['exposure exposed|exposure **exposed**', 'IPX6']],
      ['a quantity in other units', /slack\s+0\.5 m/, 9, ['metre', '1.64 ft']],
      ['a conductor size in the other standard', /wire 14 AWG/, 5, ['14 AWG', '2.081 mm2']],
      ['a keyword', /\bpractice abyc/, 2, ['tables size wires']],
      ['a used file', /"\.\.\/catalogue\/tern\.loft"/, 5, ['catalogue', 'models, cables and families']],
      ['the vessel', /vessel Kittiwake/, 8, ['zones', 'needs met']],
    ];
  it.each(CASES)('on %s', async (_what, pattern, after, says) => {
    const text = await hover(pattern, after);
    // Alternatives are parted by a stroke; Markdown's escapes are looked through.
    const plain = text.replace(/\\/g, '');
    for (const part of says)
      expect(
        part
          .replace(/\\/g, '')
          .split('|')
          .some((word) => plain.includes(word)),
        `${part} in\n${text}`,
      ).toBe(true);
  });

  it('is silent in a comment', async () => {
    expect(await hover(/\/\/ \w+/, 4)).toBe('');
  });

  it('shows the documentation comment', async () => {
    const text = editor.text(BOAT);
    const line = /\/\/\/ ?(.+)\n(?:device|zone|run) (\w+)/.exec(text);
    expect(line).not.toBeNull();
    expect(
      await hover(new RegExp(`(?:device|zone|run) ${line?.[2] ?? ''}`), line?.[0].includes('zone') ? 6 : 8),
    ).toContain(line?.[1]?.slice(0, 20));
  });
});

describe('inlay hints', () => {
  it('say the length of a link, what is bought, and a port that was left out', async () => {
    const lines = editor.text(BOAT).split('\n').length;
    const hints = await editor.request<InlayHint[]>('textDocument/inlayHint', {
      textDocument: { uri: uriOf(BOAT) },
      range: { start: { line: 0, character: 0 }, end: { line: lines, character: 0 } },
    });
    const labels = hints.map((hint) => (typeof hint.label === 'string' ? hint.label : ''));
    expect(labels).toEqual(expect.arrayContaining(['8.5 m of a 9 m tail', '3 m: 6 m stock', '.plug']));
    const near = await editor.request<InlayHint[]>('textDocument/inlayHint', {
      textDocument: { uri: uriOf(BOAT) },
      range: { start: { line: 0, character: 0 }, end: { line: 1, character: 0 } },
    });
    expect(near).toEqual([]);
  });
});

describe('code lenses', () => {
  it('count screens and sources, and the needs that are met', async () => {
    const lenses = await editor.request<CodeLens[]>('textDocument/codeLens', {
      textDocument: { uri: uriOf(BOAT) },
    });
    const titles = lenses.map((lens) => lens.command?.title ?? '');
    expect(titles.some((title) => /^\d+ of \d+ needs met/.test(title))).toBe(true);
    expect(titles.some((title) => /^shows \d+ of \d+ sources$/.test(title))).toBe(true);
    expect(titles).toContain('both screens see this');
  });
});

describe('code actions', () => {
  /** Replaces the text, and returns the actions on the first finding of a rule. */
  async function actionsOn(rule: string, text: string, only?: string[]): Promise<CodeAction[]> {
    const found = await editor.change(BOAT, text);
    const diagnostic = found.find((d) => d.code === rule);
    if (!diagnostic) throw new Error(`no ${rule} among ${found.map((d) => String(d.code)).join(', ')}`);
    return editor.request<CodeAction[]>('textDocument/codeAction', {
      textDocument: { uri: uriOf(BOAT) },
      range: diagnostic.range,
      context: { diagnostics: [diagnostic], ...(only ? { only } : {}) },
    });
  }

  /** The text once an action is applied to it. */
  function applied(text: string, action: CodeAction | undefined): string {
    const edits = action?.edit?.changes?.[uriOf(BOAT)] ?? [];
    expect(edits.length).toBeGreaterThan(0);
    return TextDocument.applyEdits(TextDocument.create('', '', 0, text), edits);
  }

  it('repair what a finding says, the best one preferred', async () => {
    const text =
      FILES[BOAT]?.replace(/link sternSonar( +)-- plotter\.sonar/, 'link sternSonar -- bowScreen.sonar') ??
      '';
    const actions = await actionsOn('sonar/host-grade', text);
    const preferred = actions.find((action) => action.isPreferred);
    expect(preferred?.title).toContain('plotter.sonar');
    const again = await editor.change(BOAT, applied(text, preferred));
    expect(again.map((d) => d.code)).not.toContain('sonar/host-grade');
  });

  it('offer a waiver with a reason where the rule has one', async () => {
    const text =
      FILES[BOAT]?.replace('live         -- hub.3 using SealedNet', 'live -- hub.3 using PatchCord').replace(
        /(link bowScreen[^\n]*using )SealedNet/,
        '$1PatchCord',
      ) ?? '';
    const actions = await actionsOn('cable/not-sealed', text);
    const waiver = actions.find((action) => action.title.startsWith('Allow cable/not-sealed'));
    const mended = applied(text, waiver);
    expect(mended).toContain('using PatchCord allow cable/not-sealed because "');
    const again = await editor.change(BOAT, mended);
    expect(again.filter((d) => d.code === 'cable/not-sealed').map((d) => d.severity)).toEqual([4]);
  });

  it('add a use for a name that another catalogue declares', async () => {
    const text = `${FILES[BOAT] ?? ''}\ndevice far : SkuaArray4 at helm\n`;
    const actions = await actionsOn('type/unknown-name', text);
    expect(actions.map((action) => action.title)).toContain(
      'Add use "../catalogue/skua.loft", which declares SkuaArray4',
    );
  });

  it('apply every safe repair at once when asked to', async () => {
    const text = FILES[BOAT]?.replace(/slack\s+0\.5 m/, 'slack 0.5') ?? '';
    const actions = await actionsOn('type/unit', text, ['source.fixAll']);
    expect(actions.map((action) => action.kind)).toEqual(['source.fixAll']);
    expect(applied(text, actions[0])).toContain('slack 0.5 m');
  });
});
