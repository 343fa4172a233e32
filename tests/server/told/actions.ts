/** Asks for code actions on the boat and takes them. */
import { expect } from 'vitest';
import type { CodeAction, CodeActionContext, Diagnostic, TextEdit } from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { uriOf, type FakeEditor } from '../../support/editor.js';
import { BOAT, boatWith } from './told.js';

export type Change = readonly [piece: string, by: string];

export const textOf = ({ message }: Diagnostic): string =>
  typeof message === 'string' ? message : message.value;

/** Writes the boat with some of its text exchanged, and gives the first finding of a rule, on a line with some text. */
export async function findingOf(
  editor: FakeEditor,
  rule: string,
  changes: readonly Change[],
  on = '',
): Promise<Diagnostic> {
  const text = boatWith(...changes);
  const found = await editor.change(BOAT, text);
  const lines = text.split('\n');
  const first = found.find((d) => d.code === rule && lines[d.range.start.line]?.includes(on) === true);
  if (!first)
    throw new Error(`No ${rule} among ${found.map((d) => String(d.code)).join(', ') || 'nothing'}.`);
  return first;
}

export async function actionsOn(
  editor: FakeEditor,
  diagnostics: Diagnostic[],
  context: Partial<CodeActionContext> = {},
): Promise<CodeAction[]> {
  const start = { line: 0, character: 0 };
  const found = await editor.request<CodeAction[] | null>('textDocument/codeAction', {
    textDocument: { uri: uriOf(BOAT) },
    range: diagnostics[0]?.range ?? { start, end: start },
    context: { diagnostics, ...context },
  });
  return found ?? [];
}

export const editsOf = (action: CodeAction): TextEdit[] => action.edit?.changes?.[uriOf(BOAT)] ?? [];

/** Takes an action, after which the boat must still be read: the lines that are new, and the findings. */
export async function take(
  editor: FakeEditor,
  action: CodeAction | undefined,
): Promise<{ lines: string[]; after: Diagnostic[] }> {
  if (!action) throw new Error('There is no such action.');
  expect(Object.keys(action.edit?.changes ?? {})).toEqual([uriOf(BOAT)]);
  const before = editor.text(BOAT);
  const text = TextDocument.applyEdits(TextDocument.create('', '', 0, before), editsOf(action));
  expect(text).not.toBe(before);
  const old = new Set(before.split('\n'));
  const after = await editor.change(BOAT, text);
  expect(after.filter((d) => d.code === 'syntax')).toEqual([]);
  return { lines: text.split('\n').filter((line) => !old.has(line)), after };
}
