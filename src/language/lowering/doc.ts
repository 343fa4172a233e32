/** Documentation comments: the `///` lines right above a declaration. */
import { AstUtils, type AstNode } from 'langium';
import * as ast from '../generated/ast.js';

/** The text of the `///` lines that stand above a node, or undefined. */
export function docOf(node: AstNode): string | undefined {
  // Inside an option it stands above the `add`.
  const cst = (ast.isAddEdit(node.$container) ? node.$container : node).$cstNode;
  if (!cst) return undefined;
  const text = AstUtils.getDocument(node).textDocument.getText();
  let lineStart = text.lastIndexOf('\n', cst.offset - 1) + 1;
  if (text.slice(lineStart, cst.offset).trim() !== '') return undefined;
  const lines: string[] = [];
  while (lineStart > 0) {
    const previous = text.lastIndexOf('\n', lineStart - 2) + 1;
    const line = text.slice(previous, lineStart).trim();
    if (!line.startsWith('///')) break;
    lines.unshift(line.slice(3).trim());
    lineStart = previous;
  }
  return lines.length > 0 ? lines.join('\n') : undefined;
}
