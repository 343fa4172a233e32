/** Inlay hints through the protocol: marked texts, in which `‹...›` stands where a hint is shown. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { InlayHint, Range } from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { uriOf, type FakeEditor } from '../support/editor.js';
import { BOAT, boatWith, openBoat } from './told/told.js';

let editor: FakeEditor;
beforeAll(async () => {
  editor = await openBoat();
});
afterAll(() => {
  editor.stop();
});

const EVERYTHING: Range = { start: { line: 0, character: 0 }, end: { line: 999, character: 0 } };

const hintsIn = (range = EVERYTHING): Promise<InlayHint[] | null> =>
  editor.request<InlayHint[] | null>('textDocument/inlayHint', { textDocument: { uri: uriOf(BOAT) }, range });

const labelOf = ({ label }: InlayHint): string =>
  typeof label === 'string' ? label : label.map((part) => part.value).join('');

/** Lines of the text that carry hints, each hint in angle brackets where it is shown, runs of blanks as one. */
function marked(text: string, hints: readonly InlayHint[]): string[] {
  const document = TextDocument.create('', '', 0, text);
  const edits = hints.map((hint) => ({
    range: { start: hint.position, end: hint.position },
    newText: `${hint.paddingLeft === true ? ' ' : ''}‹${labelOf(hint)}›`,
  }));
  return TextDocument.applyEdits(document, edits)
    .split('\n')
    .filter((line) => line.includes('‹'))
    .map((line) => line.trim().replace(/ +/g, ' '));
}

/** The hints of the boat with some of its text exchanged. */
async function hintsWith(...changes: readonly (readonly [piece: string, by: string])[]): Promise<string[]> {
  const text = boatWith(...changes);
  await editor.change(BOAT, text);
  return marked(text, (await hintsIn()) ?? []);
}

describe('inlay hints', () => {
  it('show wires and fuses that are left out, once the insulation is known', async () => {
    const hints = await hintsWith(['slack 0.5 m }', 'slack 0.5 m  wiring 105 C }']);
    // 14 AWG is written, and so is the fuse: the length alone is worked out.
    expect(hints.filter((line) => line.startsWith('feed panel'))).toEqual([
      'feed panel.1 -> plotter fuse 5 A ‹3 m, 16 AWG›',
      'feed panel.2 -> bowScreen fuse 5 A wire 14 AWG ‹8.5 m›',
      'feed panel.4 "Live" -> live ‹1 m, 18 AWG, fuse 7.5 A blade›',
      'feed panel.5 -> hub fuse 2 A ‹1 m, 18 AWG›',
    ]);
    await hintsWith();
  });

  it('show lengths, what is bought, and ports that are left out of several', async () => {
    expect(await hintsWith()).toEqual([
      'link keel -- plotter.sonar ‹8.5 m of a 9 m tail›',
      'link liveHead -- live.head ‹8.5 m of a 10 m tail›',
      'link plotter.net1 -- hub‹.1› using SealedNet ‹3 m: 6 m stock›',
      'link bowScreen‹.net› -- hub.2 using SealedNet ‹8.5 m: 12 m stock›',
      'link live.net -- hub.3 using SealedNet length 4 m ‹6 m stock›',
      'tee gnss drop 2 m ‹0 m, 11 V›',
      'tap from panel.3 fuse 3 A ‹0 m›',
      'tee plotter drop 0.6 m ‹1 m, 11 V›',
      'terminator ‹1 m›',
      'feed house -> cutoff‹.a› fuse 80 A mrbf at house after 150 mm ‹1 m›',
      'feed cutoff‹.b› -> panel‹.in› protected ‹1 m›',
      'feed panel.1 -> plotter fuse 5 A ‹3 m›',
      'feed panel.2 -> bowScreen fuse 5 A wire 14 AWG ‹8.5 m›',
      'feed panel.4 "Live" -> live ‹1 m›',
      'feed panel.5 -> hub fuse 2 A ‹1 m›',
    ]);
  });

  const CASES: readonly (readonly [what: string, piece: string, by: string, shown: string])[] = [
    [
      'a cable cut to length',
      'hub.2   using SealedNet',
      'hub.2 using BulkNet',
      'link bowScreen‹.net› -- hub.2 using BulkNet ‹8.5 m›',
    ],
    [
      'several lengths joined',
      'helm    5.5 m',
      'helm 14 m',
      'link bowScreen‹.net› -- hub.2 using SealedNet ‹17 m: 12 m + 6 m stock›',
    ],
    [
      'before a waiver',
      'hub.2   using SealedNet',
      'hub.2 using PatchCord allow cable/not-sealed because "dry"',
      'link bowScreen‹.net› -- hub.2 using PatchCord ‹8.5 m: 15 m stock› allow cable/not-sealed because "dry"',
    ],
    ['the port of a tap', 'from panel.3 fuse', 'from cutoff fuse', 'tap from cutoff‹.b› fuse 3 A'],
    [
      'the ports of a range in the order of the links',
      'link bowScreen    -- hub.2',
      'link bowScreen -- hub',
      'link bowScreen‹.net› -- hub‹.1› using SealedNet ‹8.5 m: 12 m stock›',
    ],
  ];
  it.each(CASES)('show %s', async (_what, piece, by, shown) => {
    const found = await hintsWith([piece, by]);
    expect(found.join('\n')).toContain(shown);
  });

  const SILENT: readonly (readonly [what: string, piece: string, by: string, begins: string])[] = [
    ['a port that is written', 'link bowScreen ', 'link bowScreen.net', 'link bowScreen.net‹'],
    [
      'a length that is written, of cable cut to length',
      'hub.2   using SealedNet',
      'hub.2 using BulkNet length 9 m',
      'length 9 m ‹',
    ],
    ['a length that is not known', 'helm    5.5 m', 'helm', 'liveHead -- live.head ‹'],
    ['a link that does not fit', 'keel         -- plotter.sonar', 'keel -- hub', 'link keel‹'],
  ];
  it.each(SILENT)('leave out %s', async (_what, piece, by, begins) => {
    const found = await hintsWith([piece, by]);
    expect(found.filter((line) => line.includes(begins))).toEqual([]);
    expect(found.length).toBeGreaterThan(3);
  });

  it('say how each came about, and put a port into the text when it is accepted', async () => {
    await hintsWith();
    const hints = (await hintsIn()) ?? [];
    const tip = (label: string): unknown => hints.find((hint) => labelOf(hint) === label)?.tooltip;
    expect(tip('8.5 m: 12 m stock')).toBe(
      'Runs bow → helm → cabin: 5.5 m + 2 m.\nNeeds 8.5 m, slack at both ends included.\nBought: 12 m of SealedNet.',
    );
    expect(tip('.1')).toContain('5 ports of hub (Switch5) are alike here');
    expect(tip('.net')).toContain('only port of bowScreen (Tern8) that fits');
    expect(tip('.a')).toContain('cutoff (Cutoff300) is fed here');
    expect(tip('.b')).toContain('cutoff (Cutoff300) feeds on from here');

    const edits = hints.flatMap((hint) => hint.textEdits ?? []);
    expect(edits).toHaveLength(5);
    const written = TextDocument.applyEdits(TextDocument.create('', '', 0, editor.text(BOAT)), edits);
    const found = await editor.change(BOAT, written);
    expect(found.filter((d) => String(d.code).startsWith('type/'))).toEqual([]);
    expect(marked(written, (await hintsIn()) ?? []).filter((line) => line.includes('‹.'))).toEqual([]);
  });

  it('stay inside the range that is asked for', async () => {
    await hintsWith();
    const all = (await hintsIn()) ?? [];
    for (const hint of all) {
      const { position } = hint;
      const at = await hintsIn({ start: position, end: position });
      expect(at?.map(labelOf)).toEqual([labelOf(hint)]);
      const lineBefore = { line: position.line - 1, character: 0 };
      const before = await hintsIn({ start: lineBefore, end: { line: position.line, character: 0 } });
      expect(before?.some((other) => other.position.line === position.line)).toBe(false);
    }
  });

  it('are none where there is no vessel', async () => {
    await editor.open('gear.loft');
    const none = await editor.request<InlayHint[] | null>('textDocument/inlayHint', {
      textDocument: { uri: uriOf('gear.loft') },
      range: EVERYTHING,
    });
    expect(none ?? []).toEqual([]);
  });
});
