/** Every name and word of the examples is among what is offered at its own place. */
import { readdirSync, readFileSync } from 'node:fs';
import { CstUtils, GrammarAST, URI, type CstNode, type LangiumDocument } from 'langium';
import { describe, expect, it } from 'vitest';
import type { CompletionList } from 'vscode-languageserver';
import { FakeEditor, uriOf } from '../../support/editor.js';

const folder = new URL('../../../examples/', import.meta.url);
const paths = readdirSync(folder, { recursive: true, encoding: 'utf8' })
  .filter((path) => path.endsWith('.loft'))
  .sort();
const files = Object.fromEntries(paths.map((path) => [path, readFileSync(new URL(path, folder), 'utf8')]));

interface Spot {
  readonly text: string;
  readonly node: CstNode;
}

/** The names that lead somewhere, and the keywords. */
function spotsIn(document: LangiumDocument): Spot[] {
  const root = document.parseResult.value.$cstNode;
  if (!root) return [];
  const names = document.references.flatMap((reference) =>
    reference.$refNode ? [{ text: reference.$refText, node: reference.$refNode }] : [],
  );
  const keywords = CstUtils.streamCst(root)
    .filter((node) => !('content' in node))
    .filter((node) => GrammarAST.isKeyword(node.grammarSource) && /^[a-z]/.test(node.text))
    .map((node) => ({ text: node.text, node }))
    .toArray();
  return [...names, ...keywords];
}

describe('completion offers what is written', () => {
  it.each(paths)('%s', async (path) => {
    const editor = await FakeEditor.start(files);
    await editor.open(path);
    const document = editor.shared.workspace.LangiumDocuments.getDocument(URI.parse(uriOf(path)));
    const spots = document ? spotsIn(document) : [];
    expect(spots.length).toBeGreaterThan(10);
    const missing: string[] = [];
    for (const { text, node } of spots) {
      const list = await editor.at<CompletionList>('textDocument/completion', path, node.range.end, {
        context: { triggerKind: 1 },
      });
      if (!list.items.some((item) => item.label === text))
        missing.push(`${node.range.start.line + 1}:${node.range.start.character + 1} ${text}`);
    }
    editor.stop();
    expect(missing).toEqual([]);
  });
});
