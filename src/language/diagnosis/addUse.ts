/** Where a `use` is added to a file. */
import type { LangiumDocument } from 'langium';
import * as ast from '../generated/ast.js';
import { specOf } from '../naming/facts.js';
import { quote } from '../parsing/values.js';
import type { Fix } from '../project/report.js';

/** The edit that adds a use of `path`: after the uses there are, else after `aboard`, else before the first declaration. */
export function addUse(document: LangiumDocument, path: string): Fix['edits'][number] {
  const { statements } = specOf(document);
  const last = statements.findLast(ast.isUseDecl) ?? statements.find(ast.isAboardDecl);
  const text = document.textDocument.getText();
  const line = `use ${quote(path)}`;
  const insert = (offset: number, what: string): Fix['edits'][number] => {
    const at = document.textDocument.positionAt(offset);
    return { place: { file: document.uri.toString(), range: { start: at, end: at } }, text: what };
  };
  if (last?.$cstNode) {
    // What is said of the last one at the end of its line stays there.
    const remark = /^[ \t]*(\/\/[^\n\r]*)?(?=\r?\n|$)/.exec(text.slice(last.$cstNode.end));
    return insert(last.$cstNode.end + (remark?.[0].length ?? 0), `\n${line}`);
  }
  const first = statements[0]?.$cstNode?.offset;
  return first === undefined
    ? insert(text.length, `${text === '' || text.endsWith('\n') ? '' : '\n'}${line}\n`)
    : insert(aboveComment(text, first), `${line}\n\n`);
}

/** The start of a declaration's line, or of the first line of the comment right above it. */
function aboveComment(text: string, offset: number): number {
  let start = text.lastIndexOf('\n', offset - 1) + 1;
  if (text.slice(start, offset).trim() !== '') return offset;
  while (start > 0) {
    const previous = text.lastIndexOf('\n', start - 2) + 1;
    if (!text.slice(previous, start).trimStart().startsWith('//')) break;
    start = previous;
  }
  return start;
}
