/** Options in an editor: what they bring is told once nobody types, at the option; and inside one the boat is the boat with it. */
import { afterEach, describe, expect, it } from 'vitest';
import type { CodeAction, CodeLens, Diagnostic, InlayHint } from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { uriOf, type FakeEditor } from '../support/editor.js';
import { BOAT, boatWith, hoverAt, openBoat } from './told/told.js';

const LEAN = `option lean "No display at the bow" { remove bowScreen }
`;
const MORE = `option more "Another display" {
  add device fourth : Tern8 at cabin
  add link fourth -- hub.4 using SealedNet
}
`;

let editor: FakeEditor | undefined;
afterEach(() => {
  editor?.stop();
});

const boat = (options: string): string => `${boatWith()}\n${options}`;

async function opened(text: string): Promise<FakeEditor> {
  editor = await openBoat(text);
  return editor;
}

/** Waits for what comes when the editor is idle. */
async function until<T>(ask: () => T | Promise<T>, holds: (value: T) => boolean): Promise<T> {
  for (let wait = 0; wait < 300; wait++) {
    const value = await ask();
    if (holds(value)) return value;
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
  throw new Error(`it did not come: ${JSON.stringify(await ask())}`);
}

const messageOf = ({ message }: Diagnostic): string =>
  typeof message === 'string' ? message : message.value;
const ofOptions = (from: FakeEditor): readonly Diagnostic[] =>
  from.diagnostics(BOAT).filter((one) => /^With option (lean|more)/.test(messageOf(one)));

describe('findings of options', () => {
  it('come when nobody types, at the option, and go when the option is put right', async () => {
    const text = boat(LEAN);
    const at = await opened(text);
    expect(ofOptions(at)).toEqual([]);
    const found = await until(
      () => ofOptions(at),
      (all) => all.length > 0,
    );
    const line = text.split('\n').findIndex((one) => one.startsWith('option lean'));
    expect(found.map(({ code, range }) => [code, range.start.line])).toContainEqual(['need/not-met', line]);
    expect(found[0]?.relatedInformation?.[0]?.message).toBe('this is where it is found');

    // While somebody types above it, it moves along and is not analysed again.
    const { Variants: variants } = at.shared.analysis;
    const runs = variants.runs;
    await at.change(BOAT, `// a comment\n${text}`);
    expect(ofOptions(at).map(({ range }) => range.start.line)).toContain(line + 1);
    await new Promise((resolve) => setTimeout(resolve, 500));
    expect(variants.runs).toBe(runs);

    await at.change(BOAT, boat(MORE));
    await until(
      () => ofOptions(at),
      (all) => all.every(({ code }) => code !== 'need/not-met'),
    );
  });

  it('can be waived at the head of the option', async () => {
    const at = await opened(boat(LEAN));
    const [found] = await until(
      () => ofOptions(at),
      (all) => all.length > 0,
    );
    const actions = await at.request<CodeAction[] | null>('textDocument/codeAction', {
      textDocument: { uri: uriOf(BOAT) },
      range: found?.range,
      context: { diagnostics: [found] },
    });
    const waive = actions?.find(({ title }) => title.startsWith('Allow'));
    const edits = waive?.edit?.changes?.[uriOf(BOAT)] ?? [];
    const after = TextDocument.applyEdits(TextDocument.create('', '', 0, at.text(BOAT)), edits);
    expect(after).toMatch(/option lean "No display at the bow" allow need\/not-met because ".*" \{/);
  });
});

describe('inside an option', () => {
  it('hovers tell of the boat with it', async () => {
    const at = await opened(boat(MORE));
    expect(await hoverAt(at, 'add device four$0th')).toMatch(/It comes with option more[^]*hub\.4/);
    expect(await hoverAt(at, 'add li$0nk fourth')).toMatch(/\d m/);
  });

  it('hints and lenses stand there, and on the option its price and its needs', async () => {
    const text = boat(MORE);
    const at = await opened(text);
    const lines = text.split('\n');
    const titles = async (): Promise<string[]> => {
      const lenses = await at.request<CodeLens[] | null>('textDocument/codeLens', {
        textDocument: { uri: uriOf(BOAT) },
      });
      return (lenses ?? []).map(
        ({ range, command }) =>
          `${lines[range.start.line]?.slice(range.start.character, range.end.character) ?? ''}: ${command?.title ?? ''}`,
      );
    };
    const lenses = await until(titles, (all) => all.some((one) => one.startsWith('fourth')));
    expect(lenses.find((one) => one.startsWith('fourth'))).toMatch(/^fourth: shows \d of \d sources$/);
    expect(lenses.find((one) => one.startsWith('more'))).toMatch(/^more: .*needs met/);
    const hints = await at.request<InlayHint[] | null>('textDocument/inlayHint', {
      textDocument: { uri: uriOf(BOAT) },
      range: { start: { line: 0, character: 0 }, end: { line: 999, character: 0 } },
    });
    const link = lines.findIndex((one) => one.includes('add link fourth'));
    expect(hints?.filter(({ position }) => position.line === link)).not.toEqual([]);
  });
});
