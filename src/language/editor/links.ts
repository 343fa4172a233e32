/** Document links on the paths of `use`, and selection ranges that grow with the syntax. */
import type { CstNode, LangiumDocument, MaybePromise } from 'langium';
import type { DocumentLinkProvider } from 'langium/lsp';
import type { DocumentLink, Position, SelectionRange } from 'vscode-languageserver';
import { CstUtils } from 'langium';
import { placeOf } from '../diagnosis/problem.js';
import type { Closures } from '../naming/closures.js';

export class WireloftDocumentLinkProvider implements DocumentLinkProvider {
  constructor(private readonly closures: Closures) {}

  getDocumentLinks(document: LangiumDocument): MaybePromise<DocumentLink[]> {
    return this.closures.facts(document).uses.flatMap(({ node, target }) => {
      const uri = target.uri?.toString();
      return uri !== undefined && this.closures.document(uri)
        ? [{ range: placeOf(node, 'path').range, target: uri, tooltip: 'Open the file' }]
        : [];
    });
  }
}

/** From the word at a position outwards to the whole file. */
export function selectionRange(document: LangiumDocument, position: Position): SelectionRange {
  const root = document.parseResult.value.$cstNode;
  const offset = document.textDocument.offsetAt(position);
  const leaf = root && CstUtils.findLeafNodeAtOffset(root, offset);
  const ranges: CstNode[] = [];
  for (let cst: CstNode | undefined = leaf; cst; cst = cst.container) {
    const inner = ranges[ranges.length - 1];
    if (!inner || cst.offset < inner.offset || cst.end > inner.end) ranges.push(cst);
  }
  let result: SelectionRange | undefined;
  for (const cst of ranges.reverse())
    result = result ? { range: cst.range, parent: result } : { range: cst.range };
  return result ?? { range: { start: position, end: position } };
}
