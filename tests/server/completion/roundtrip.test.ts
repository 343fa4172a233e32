/** Every name and word of the examples is among what is offered at its own place. */
import { readdirSync, readFileSync } from 'node:fs';
import { CstUtils, GrammarAST, URI, type CstNode, type LangiumDocument } from 'langium';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { CompletionList } from 'vscode-languageserver';
import { FakeEditor, uriOf } from '../../support/editor.js';

const folder = new URL('../../../examples/', import.meta.url);
const paths = readdirSync(folder, { recursive: true, encoding: 'utf8' })
  .filter((path) => path.endsWith('.loft'))
  .map((path) => path.replaceAll('\\', '/'))
  .sort();
const files = Object.fromEntries(paths.map((path) => [path, readFileSync(new URL(path, folder), 'utf8')]));

/** The names that lead somewhere, and the keywords. */
function spotsIn(document: LangiumDocument): CstNode[] {
  const root = document.parseResult.value.$cstNode;
  if (!root) return [];
  const names = document.references.flatMap((reference) => reference.$refNode ?? []);
  const keywords = CstUtils.flattenCst(root)
    .filter((node) => GrammarAST.isKeyword(node.grammarSource) && /^[a-z]/.test(node.text))
    .toArray();
  return [...names, ...keywords];
}

let editor: FakeEditor;
beforeAll(async () => {
  editor = await FakeEditor.start(files);
});
afterAll(() => editor.stop());

describe('what is written in an example is offered where it stands', () => {
  it.each(paths)('%s', async (path) => {
    const document = editor.shared.workspace.LangiumDocuments.getDocument(URI.parse(uriOf(path)));
    const spots = document ? spotsIn(document) : [];
    expect(spots.length).toBeGreaterThan(50);
    const missing: string[] = [];
    for (const { text, range } of spots) {
      const list = await editor.at<CompletionList>('textDocument/completion', path, range.end);
      if (!list.items.some((item) => item.label === text))
        missing.push(`${range.start.line + 1}:${range.start.character + 1} ${text}`);
    }
    expect(missing).toEqual([]);
  });
});
