/** The code action that applies every safe repair, through the protocol. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { TextDocument } from 'vscode-languageserver-textdocument';
import type { FakeEditor } from '../support/editor.js';
import { actionsOn, editsOf, take, type Change } from './told/actions.js';
import { BOAT, boatWith, openBoat } from './told/told.js';

let editor: FakeEditor;
beforeAll(async () => {
  editor = await openBoat();
});
afterAll(() => {
  editor.stop();
});

const BOW_LINK = 'link bowScreen    -- hub.2   using SealedNet';

describe('all safe repairs at once', () => {
  const FAULTS: readonly Change[] = [
    ['slack 0.5 m', 'slack 0.5'],
    ['aft 4.2 m', 'aft 4,2 m'],
    ['span 1 m', 'span 1'],
    [BOW_LINK, 'link bowScren -- hub.2 using SealedNet allow cable/not-sealed because "dry"'],
    ['using SealedNet length 4 m', 'using SealedNet length 4 m allow cable/too-short because "so"'],
  ];

  it('mend units, slips and waivers of nothing, and leave what needs a decision', async () => {
    await editor.change(BOAT, boatWith(...FAULTS));
    const [all, ...others] = await actionsOn(editor, [], { only: ['source.fixAll'] });
    expect(others).toEqual([]);
    expect(all?.kind).toBe('source.fixAll.wireloft');
    const { after } = await take(editor, all);
    const text = editor.text(BOAT);
    expect(text).toContain('slack 0.5 m }');
    expect(text).toContain('aft 4.2 m');
    expect(text).toContain('span 1 m');
    // Which name was meant is for the author to say; and while it is open, nobody knows what a waiver is for.
    expect(text).toContain('bowScren -- hub.2 using SealedNet allow cable/not-sealed');
    expect(after.map((d) => d.code)).toContain('type/unknown-name');
    expect(await actionsOn(editor, [], { only: ['source.fixAll'] })).toEqual([]);

    await editor.change(BOAT, text.replace('bowScren ', 'bowScreen '));
    const [unused] = await actionsOn(editor, [], { only: ['source.fixAll'] });
    expect((await take(editor, unused)).lines).toEqual([
      'link bowScreen -- hub.2 using SealedNet',
      'link live.net     -- hub.3   using SealedNet length 4 m',
    ]);
  });

  it('have edits that do not overlap', async () => {
    await editor.change(BOAT, boatWith(...FAULTS));
    const [all] = await actionsOn(editor, [], { only: ['source.fixAll'] });
    const document = TextDocument.create('', '', 0, editor.text(BOAT));
    const stretches = (all ? editsOf(all) : [])
      .map(({ range }) => [document.offsetAt(range.start), document.offsetAt(range.end)] as const)
      .sort(([a], [b]) => a - b);
    expect(stretches.length).toBeGreaterThanOrEqual(2);
    for (const [index, [start]] of stretches.entries())
      expect(start).toBeGreaterThanOrEqual(stretches[index - 1]?.[1] ?? 0);
  });

  const ASKED: readonly (readonly [only: string[] | undefined, offered: boolean])[] = [
    [undefined, false],
    [['quickfix'], false],
    [['refactor'], false],
    [['source.organizeImports'], false],
    [['source'], true],
    [['source.fixAll'], true],
    [['source.fixAll.wireloft'], true],
    [['source.fixAll.other'], false],
  ];
  it.each(ASKED)('are offered when %j is asked for: %s', async (only, offered) => {
    await editor.change(BOAT, boatWith(...FAULTS));
    const actions = await actionsOn(editor, [], only ? { only } : {});
    expect(actions.some((action) => action.kind === 'source.fixAll.wireloft')).toBe(offered);
  });

  it('are none for a boat without such faults', async () => {
    await editor.change(BOAT, boatWith());
    expect(await actionsOn(editor, [], { only: ['source.fixAll'] })).toEqual([]);
  });
});
