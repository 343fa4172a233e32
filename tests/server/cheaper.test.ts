/** What is worked out in the background: a cheaper design, its repair, and what a device's loss costs; with a real thread. */
import { join } from 'node:path';
import { afterEach, beforeAll, describe, expect, it } from 'vitest';
import { DiagnosticSeverity, ShutdownRequest } from 'vscode-languageserver';
import type { CodeAction, CodeLens, Diagnostic } from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { ensureBuilt } from '../../scripts/lib/bundles.mjs';
import { ThreadThinker } from '../../src/extension/server/thinker.js';
import type { Thinker } from '../../src/language/editor/thoughts.js';
import { FakeEditor, uriOf } from '../support/editor.js';

const dist = join(import.meta.dirname, '..', '..', 'dist', 'extension');
const GOODS = `family Tern
model One : display { families Tern  screen 8 in  price 900 USD  shows chart, sonar  shares chart, sonar  port net : ethernet }
model Two : display { families Tern  screen 9 in  price 950 USD  shows chart, sonar  shares chart, sonar  bridges ethernet  port 1..2 : ethernet }
model Box : sonar { families Tern  price 700 USD  gives sonar.live  port net : ethernet }
model Hub : switch { price 200 USD  bridges ethernet  port 1..5 : ethernet }
model Old : gnss { gives position  port n2k : nmea2000 }
cable Net : ethernet { sealed  stock 3 m at 20 USD, 6 m at 30 USD }
`;
const BOAT = `use "goods.loft"
vessel Boat { currency USD  slack 0.5 m }
zone helm interior
zone bow  interior
run helm -- bow 4 m
device plotter   : One at helm  // the skipper's
device bowScreen : One at bow
device live      : Box at helm
device hub       : Hub at helm
link plotter   -- hub.1 using Net  // behind the panel
link bowScreen -- hub.2 using Net
link live      -- hub.3 using Net
need plotter, bowScreen show live
need bowScreen show chart
`;
const FILES = {
  'goods.loft': GOODS,
  'boat.loft': BOAT,
  'other.loft': BOAT.replace('vessel Boat', 'vessel Other'),
};

let editor: FakeEditor | undefined;
let thread: ThreadThinker | undefined;
beforeAll(() => ensureBuilt(), 60_000);
afterEach(() => {
  editor?.stop();
  thread?.close();
});

async function started(thinker?: Thinker): Promise<FakeEditor> {
  thread = new ThreadThinker(join(dist, 'thinker.cjs'), join(dist, 'highs.wasm'));
  editor = await FakeEditor.start(FILES, undefined, thinker ?? thread);
  return editor;
}

async function until<T>(ask: () => T | Promise<T>, holds: (value: T) => boolean): Promise<T> {
  for (let wait = 0; wait < 300; wait++) {
    const value = await ask();
    if (holds(value)) return value;
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
  throw new Error(`it did not come: ${JSON.stringify(await ask())}`);
}

const hints = (from: FakeEditor): readonly Diagnostic[] =>
  from.diagnostics('boat.loft').filter(({ code }) => code === 'choice/cheaper');
async function lensesOf(from: FakeEditor): Promise<readonly string[]> {
  const lines = from.text('boat.loft').split('\n');
  const lenses = await from.request<CodeLens[] | null>('textDocument/codeLens', {
    textDocument: { uri: uriOf('boat.loft') },
  });
  return (lenses ?? []).map(
    ({ range, command }) =>
      `${lines[range.start.line]?.slice(range.start.character, range.end.character) ?? ''}: ${command?.title ?? ''}`,
  );
}
const actionsAt = async (
  from: FakeEditor,
  diagnostic: Diagnostic | undefined,
): Promise<readonly CodeAction[]> =>
  (await from.request<CodeAction[] | null>('textDocument/codeAction', {
    textDocument: { uri: uriOf('boat.loft') },
    range: diagnostic?.range,
    context: { diagnostics: [diagnostic] },
  })) ?? [];

describe('a cheaper design', () => {
  it('is a hint at the vessel, with a repair that carries it out, after which there is nothing cheaper', async () => {
    const at = await started();
    await at.open('boat.loft');
    expect(hints(at)).toEqual([]);
    const [hint] = await until(
      () => hints(at),
      (all) => all.length > 0,
    );
    expect(hint).toMatchObject({
      severity: DiagnosticSeverity.Hint,
      range: { start: { line: 1, character: 7 } },
    });
    expect(hint?.message).toMatch(
      /2600 USD instead of 2770 USD, which saves 170 USD: plotter: Two in place of One/,
    );
    // Files that nobody has open are not thought of.
    expect(at.diagnostics('other.loft').filter(({ code }) => code === 'choice/cheaper')).toEqual([]);

    const actions = await actionsAt(at, hint);
    const fix = actions.find(({ title }) => title.startsWith('Write the cheaper design'));
    expect(fix?.isPreferred).toBeUndefined();
    expect(actions.some(({ title }) => title.startsWith('Allow choice/cheaper'))).toBe(true);
    const edits = fix?.edit?.changes?.[uriOf('boat.loft')] ?? [];
    const after = TextDocument.applyEdits(TextDocument.create('', '', 0, at.text('boat.loft')), edits);
    for (const kept of ["// the skipper's", '// behind the panel', 'device plotter   : Two at helm'])
      expect(after).toContain(kept);
    const rest = await at.change('boat.loft', after);
    expect(rest.filter(({ severity }) => severity === DiagnosticSeverity.Error)).toEqual([]);
    await until(
      () => hints(at),
      (all) => all.length === 0,
    );
    expect(await lensesOf(at)).toContain('Boat: 2600 USD, 2 of 2 needs met, 0 ethernet ports free');
  }, 60_000);

  it('stays while somebody types, without the repair where the boat has changed, and is waived at once', async () => {
    const at = await started();
    await at.open('boat.loft');
    const [hint] = await until(
      () => hints(at),
      (all) => all.length > 0,
    );
    // A comment changes nothing of the boat: the hint moves along, and its repair with it.
    await at.change('boat.loft', `// a comment\n${BOAT}`);
    const [moved] = hints(at);
    expect(moved?.range.start.line).toBe((hint?.range.start.line ?? 0) + 1);
    expect((await actionsAt(at, moved)).some(({ title }) => title.startsWith('Write'))).toBe(true);
    await at.change('boat.loft', BOAT.replace('slack 0.5 m', 'slack 0.4 m'));
    expect(hints(at)).toHaveLength(1);
    expect((await actionsAt(at, hints(at)[0])).some(({ title }) => title.startsWith('Write'))).toBe(false);
    await at.change(
      'boat.loft',
      BOAT.replace('vessel Boat', 'vessel Boat allow choice/cheaper because "meant"'),
    );
    expect(hints(at)[0]?.message).toMatch(/^Waived \(meant\): /);
    expect((await lensesOf(at))[0]).not.toContain('could cost');
  }, 60_000);
});

describe('lenses', () => {
  it('say the price with what has none, what less she could cost, and what a loss costs', async () => {
    const at = await started();
    await at.open('boat.loft', `${BOAT}device old : Old at helm\n`);
    const titles = await until(
      () => lensesOf(at),
      (all) => all.some((one) => one.includes('could cost')),
    );
    expect(titles[0]).toMatch(
      /^Boat: 2770 USD and 1 part without a price, could cost 170 USD less, 2 of 2 needs met, 2 ethernet ports free/,
    );
    expect(titles.filter((one) => one.includes('its loss'))).toEqual([
      'plotter: its loss costs 1 of 2 needs',
      'bowScreen: its loss costs 2 of 2 needs',
      'live: its loss costs 1 of 2 needs',
      'hub: its loss costs 1 of 2 needs',
    ]);
  }, 60_000);
});

describe('the thread', () => {
  it('is started by the first question, and ended when the editor shuts the server down', async () => {
    const at = await started();
    expect(thread?.running).toBe(false);
    await at.open('boat.loft');
    await until(
      () => hints(at),
      (all) => all.length > 0,
    );
    expect(thread?.running).toBe(true);
    await at.connection.sendRequest(ShutdownRequest.type);
    expect(thread?.running).toBe(false);
    expect(
      await thread?.think(
        at.shared.analysis.Analyses.of(uriOf('boat.loft'))?.analysis.vessel as never,
        '2026-01-01',
      ).answer,
    ).toBeUndefined();
  }, 60_000);

  it('is not asked while somebody types, and what is under way is dropped by an edit', async () => {
    let asked = 0;
    let dropped = 0;
    const at = await started({
      think: () => {
        asked++;
        let end: (value: undefined) => void = () => undefined;
        const answer = new Promise<undefined>((resolve) => (end = resolve));
        return {
          answer,
          drop: () => {
            dropped++;
            end(undefined);
          },
        };
      },
      close: () => undefined,
    });
    await at.open('boat.loft');
    // Together longer than the wait for the last key.
    for (let number = 0; number < 9; number++) {
      await new Promise((resolve) => setTimeout(resolve, 150));
      await at.change('boat.loft', BOAT.replace('0.5 m', `0.${number + 1} m`));
    }
    expect(asked).toBe(0);
    await until(
      () => asked,
      (times) => times === 1,
    );
    expect(dropped).toBe(0);
    await at.change('boat.loft', BOAT);
    expect(dropped).toBe(1);
    expect(hints(at)).toEqual([]);
  }, 60_000);

  it('ends by itself where it cannot work, and the checks go on', async () => {
    const broken = new ThreadThinker(join(dist, 'thinker.cjs'), '/nowhere/highs.wasm');
    const at = await started(broken);
    const [first] = await at.open('boat.loft');
    expect(first).toBeUndefined();
    await new Promise((resolve) => setTimeout(resolve, 2500));
    expect(hints(at)).toEqual([]);
    expect((await lensesOf(at))[0]).toMatch(/^Boat: 2770 USD, 2 of 2 needs met/);
    broken.close();
  }, 60_000);
});
