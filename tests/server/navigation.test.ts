/** Definition, references, highlights, rename, symbols, folding, links, selection, semantic tokens and formatting, through the protocol. */
import { afterEach, describe, expect, it } from 'vitest';
import type {
  DocumentHighlight,
  DocumentLink,
  DocumentSymbol,
  FoldingRange,
  Location,
  LocationLink,
  Range,
  SelectionRange,
  SemanticTokens,
  TextEdit,
  WorkspaceEdit,
  WorkspaceSymbol,
} from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { cursorIn, FakeEditor, uriOf } from '../support/editor.js';

const CATALOGUE = `family Tern
model Disp : display { families Tern  port net : ethernet sealed  shows chart  shares chart }
model Hub : switch { port 1..3 : ethernet  bridges ethernet }
`;
const BOAT = `use "catalogue.loft"
use "fore.loft"

vessel Gull "Test boat" { slack 0.5 m }

zone helm sheltered

/// The one at the helm.
device main : Disp at helm
device hub  : Hub  at helm
link main -- hub.1
view "Plan" on main {
  left: chart
  right: fore.chart
}
`;
const FORE = `aboard Gull
device fore : Disp at helm
link fore -- hub.2
need fore show main.chart
`;

let editor: FakeEditor | undefined;
afterEach(() => {
  editor?.stop();
  editor = undefined;
});

/** A folder whose boat has a cursor in it; all files open. */
async function at(
  marked: string,
  path = 'gull.loft',
): Promise<{ ask: <R>(method: string, more?: object) => Promise<R>; text: string }> {
  const { text, position } = cursorIn(marked);
  const here = await FakeEditor.start({
    'gull.loft': BOAT,
    'catalogue.loft': CATALOGUE,
    'fore.loft': FORE,
    [path]: text,
  });
  editor = here;
  for (const file of ['catalogue.loft', 'fore.loft', 'gull.loft']) await here.open(file);
  return { ask: (method, more) => here.at(method, path, position, more), text };
}

/** What stands at a range of a file. */
function textAt(file: string, range: Range): string {
  const text = editor?.text(file.replace('file:///boats/', '')) ?? '';
  return TextDocument.create('', '', 0, text).getText(range);
}

const marked = (text: string, word: string, after = 0): string => {
  const index = text.indexOf(word) + after;
  return `${text.slice(0, index)}$0${text.slice(index)}`;
};

describe('go to definition', () => {
  it('leads from a device to its declaration in another file', async () => {
    const { ask } = await at(marked(FORE, 'hub.2'), 'fore.loft');
    const [link] = await ask<LocationLink[]>('textDocument/definition');
    expect(link?.targetUri).toBe(uriOf('gull.loft'));
    expect(
      textAt(
        link?.targetUri ?? '',
        link?.targetSelectionRange ?? { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } },
      ),
    ).toBe('hub');
  });

  it('leads from a port of a range to the range', async () => {
    const { ask } = await at(marked(BOAT, 'hub.1', 4));
    const [link] = await ask<LocationLink[]>('textDocument/definition');
    expect(
      textAt(
        link?.targetUri ?? '',
        link?.targetSelectionRange ?? { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } },
      ),
    ).toBe('1..3');
  });

  it('leads into the bundled library', async () => {
    const { ask } = await at(marked(BOAT, 'sheltered'));
    const [link] = await ask<LocationLink[]>('textDocument/definition');
    expect(link?.targetUri).toBe('builtin:/exposures.loft');
  });

  it('leads from a use to its file', async () => {
    const { ask } = await at(marked(BOAT, 'catalogue.loft'));
    expect((await ask<LocationLink[]>('textDocument/definition'))[0]?.targetUri).toBe(
      uriOf('catalogue.loft'),
    );
  });
});

describe('references and highlights', () => {
  it('find a device in every file of the vessel', async () => {
    const { ask } = await at(marked(BOAT, 'hub  : Hub'));
    const found = await ask<Location[]>('textDocument/references', { context: { includeDeclaration: true } });
    expect(found.map((location) => location.uri.replace('file:///boats/', '')).sort()).toEqual([
      'fore.loft',
      'gull.loft',
      'gull.loft',
    ]);
    const without = await ask<Location[]>('textDocument/references', {
      context: { includeDeclaration: false },
    });
    expect(without).toHaveLength(2);
  });

  it('keep the ports of a range apart', async () => {
    const { ask } = await at(marked(BOAT, 'hub.1', 4));
    const found = await ask<Location[]>('textDocument/references', {
      context: { includeDeclaration: false },
    });
    expect(found.map((location) => textAt(location.uri, location.range))).toEqual(['1']);
  });

  it('highlight within the file, the declaration as written to', async () => {
    const { ask } = await at(marked(BOAT, 'main : Disp'));
    const found = await ask<DocumentHighlight[]>('textDocument/documentHighlight');
    expect(found.map((highlight) => highlight.kind)).toEqual([3, 2, 2]);
  });
});

describe('rename', () => {
  it('changes a name wherever it is used', async () => {
    const { ask } = await at(marked(BOAT, 'hub  : Hub'));
    const edit = await ask<WorkspaceEdit>('textDocument/rename', { newName: 'netSwitch' });
    const changed = Object.entries(edit.changes ?? {}).map(([uri, edits]) => [
      uri.replace('file:///boats/', ''),
      edits.length,
    ]);
    expect(changed.sort()).toEqual([
      ['fore.loft', 1],
      ['gull.loft', 2],
    ]);
    for (const [uri, edits] of Object.entries(edit.changes ?? {})) {
      const path = uri.replace('file:///boats/', '');
      const document = TextDocument.create('', '', 0, editor?.text(path) ?? '');
      await editor?.change(path, TextDocument.applyEdits(document, edits));
    }
    await editor?.settled();
    expect(
      [...(editor?.diagnostics('gull.loft') ?? []), ...(editor?.diagnostics('fore.loft') ?? [])].filter(
        (d) => d.severity === 1,
      ),
    ).toEqual([]);
  });

  const REFUSED: readonly (readonly [
    what: string,
    word: string,
    after: number,
    name: string,
    says: string,
  ])[] = [
    ['a name that is taken', 'hub  : Hub', 0, 'main', 'named main already'],
    ['what is no name', 'hub  : Hub', 0, 'net-switch', 'is no name'],
    ['a reserved word', 'hub  : Hub', 0, 'at', 'glues'],
    ["the library's names", 'sheltered', 0, 'dry', 'bundled library'],
    ['a port of a range', 'hub.1', 4, 'one', 'has a number'],
  ];
  it.each(REFUSED)('refuses %s', async (_what, word, after, name, says) => {
    const { ask } = await at(marked(BOAT, word, after));
    await expect(ask('textDocument/rename', { newName: name })).rejects.toThrow(says);
  });
});

describe('symbols', () => {
  it('outline a file', async () => {
    await at(marked(BOAT, 'vessel'));
    const symbols = await editor?.request<DocumentSymbol[]>('textDocument/documentSymbol', {
      textDocument: { uri: uriOf('gull.loft') },
    });
    expect(symbols?.map((symbol) => symbol.name)).toEqual([
      'Gull',
      'helm',
      'main',
      'hub',
      'main -- hub.1',
      'Plan',
    ]);
    const models = await editor?.request<DocumentSymbol[]>('textDocument/documentSymbol', {
      textDocument: { uri: uriOf('catalogue.loft') },
    });
    expect(models?.find((symbol) => symbol.name === 'Disp')?.children?.map((child) => child.name)).toEqual([
      'net',
    ]);
  });

  it('find a declaration anywhere by a part of its name', async () => {
    await at(marked(BOAT, 'vessel'));
    const symbols = await editor?.request<WorkspaceSymbol[]>('workspace/symbol', { query: 'fore' });
    expect(symbols?.map((symbol) => symbol.name)).toContain('fore');
    expect(symbols?.map((symbol) => symbol.name)).not.toContain('Hub');
  });
});

describe('the text itself', () => {
  it('folds blocks', async () => {
    await at(marked(BOAT, 'vessel'));
    const folds = await editor?.request<FoldingRange[]>('textDocument/foldingRange', {
      textDocument: { uri: uriOf('gull.loft') },
    });
    expect(folds?.map((fold) => fold.startLine)).toContain(11);
  });

  it('links the paths of use', async () => {
    await at(marked(BOAT, 'vessel'));
    const links = await editor?.request<DocumentLink[]>('textDocument/documentLink', {
      textDocument: { uri: uriOf('gull.loft') },
    });
    expect(links?.map((link) => link.target)).toEqual([uriOf('catalogue.loft'), uriOf('fore.loft')]);
  });

  it('selects outwards from a word', async () => {
    const { text } = await at(marked(BOAT, 'hub.1'));
    const position = TextDocument.create('', '', 0, text).positionAt(text.indexOf('hub.1') + 1);
    const [range] =
      (await editor?.request<SelectionRange[]>('textDocument/selectionRange', {
        textDocument: { uri: uriOf('gull.loft') },
        positions: [position],
      })) ?? [];
    const texts: string[] = [];
    for (let at: SelectionRange | undefined = range; at; at = at.parent)
      texts.push(textAt(uriOf('gull.loft'), at.range));
    expect(texts.slice(0, 3)).toEqual(['hub', 'hub.1', 'link main -- hub.1']);
  });

  it('colours names by what they stand for', async () => {
    await at(marked(BOAT, 'vessel'));
    const tokens = await editor?.request<SemanticTokens>('textDocument/semanticTokens/full', {
      textDocument: { uri: uriOf('gull.loft') },
    });
    expect((tokens?.data.length ?? 0) / 5).toBeGreaterThan(12);
  });

  it('is laid out above and below a syntax error', async () => {
    const broken = 'zone   helm sheltered\ndevice : : Disp\nzone   bow exposed\n';
    await at(marked(BOAT, 'vessel'));
    await editor?.change('gull.loft', broken);
    const edits = await editor?.request<TextEdit[]>('textDocument/formatting', {
      textDocument: { uri: uriOf('gull.loft') },
      options: { tabSize: 2, insertSpaces: true },
    });
    expect(TextDocument.applyEdits(TextDocument.create('', '', 0, broken), edits ?? [])).toBe(
      'zone helm sheltered\ndevice : : Disp\nzone bow exposed\n',
    );
  });
});
