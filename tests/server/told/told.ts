/** A small boat, open in an editor, that tests ask about by pieces of its text with the cursor `$0` in them. */
import { readdirSync, readFileSync } from 'node:fs';
import type { Hover, Position } from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { FakeEditor } from '../../support/editor.js';

export const BOAT = 'boat.loft';

/** The files beside this one, by name. */
export const FILES: Readonly<Record<string, string>> = Object.fromEntries(
  readdirSync(new URL('.', import.meta.url))
    .filter((name) => name.endsWith('.loft'))
    .map((name) => [name, readFileSync(new URL(name, import.meta.url), 'utf8')]),
);

/** The boat with pieces of its text exchanged; each must be there. */
export function boatWith(...changes: readonly (readonly [piece: string, by: string])[]): string {
  return changes.reduce((text, [piece, by]) => {
    if (!text.includes(piece)) throw new Error(`The boat does not say "${piece}".`);
    return text.replace(piece, () => by);
  }, FILES[BOAT] ?? '');
}

/** An editor on the folder with the boat open. */
export async function openBoat(text = FILES[BOAT] ?? ''): Promise<FakeEditor> {
  const editor = await FakeEditor.start(FILES);
  await editor.open(BOAT, text);
  return editor;
}

/** Where the cursor `$0` of a piece of a text is; the piece must be there, once. */
function positionIn(text: string, piece: string): Position {
  const cursor = piece.indexOf('$0');
  const plain = piece.replace('$0', '');
  const start = text.indexOf(plain);
  if (cursor < 0 || start < 0) throw new Error(`"${piece}" is not in the text, or has no cursor $0.`);
  if (text.includes(plain, start + 1)) throw new Error(`"${piece}" is in the text more than once.`);
  return TextDocument.create('', '', 0, text).positionAt(start + cursor);
}

/** The lines of the hover at a piece of the boat that say something. */
export async function linesAt(editor: FakeEditor, piece: string): Promise<string[]> {
  return (await hoverAt(editor, piece))
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => line !== '');
}

/** The Markdown of the hover at a piece of a file; empty where there is none. */
export async function hoverAt(editor: FakeEditor, piece: string, file = BOAT): Promise<string> {
  const hover = await editor.at<Hover | null>(
    'textDocument/hover',
    file,
    positionIn(editor.text(file), piece),
  );
  const contents = hover?.contents;
  return contents && typeof contents === 'object' && 'value' in contents ? contents.value : '';
}
