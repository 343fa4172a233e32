/** Turns the repairs of a finding into text edits. */
import { AstUtils, GrammarUtils, type AstNode } from 'langium';
import type { Repair } from '../../checks/finding.js';
import type { Place } from '../../vessel/origin.js';
import { headEnd, type PlaceTable } from '../lowering/places.js';
import type { Fix } from '../project/report.js';

/** The repair as edits; undefined where its place is not in the text. */
export function fixOf(repair: Repair, places: PlaceTable): Fix | undefined {
  const edits = editsOf(repair, places);
  return edits && { title: repair.title, preferred: repair.preferred, edits };
}

/** A node as it is written, but for one part. */
function textOf(node: AstNode, other: { readonly part: string; readonly text: string } | undefined): string {
  const cst = node.$cstNode;
  const text = cst?.text ?? '';
  const part = other && GrammarUtils.findNodeForProperty(cst, other.part);
  if (!cst || !other || !part) return text;
  return `${text.slice(0, part.offset - cst.offset)}${other.text}${text.slice(part.end - cst.offset)}`;
}

interface Edit {
  readonly place: Place;
  readonly text: string;
}

function editsOf(repair: Repair, places: PlaceTable): readonly Edit[] | undefined {
  const { change } = repair;
  if (change.kind === 'move') {
    const node = places.nodeOf(change.at.origin);
    const after = places.nodeOf(change.after.origin);
    const put = node && after && onLineAfter(after, textOf(node, change.with));
    return node && put && [{ place: wholeLines(node), text: '' }, put];
  }
  const edit = editOf(change, places);
  return edit && [edit];
}

function editOf(
  change: Exclude<Repair['change'], { readonly kind: 'move' }>,
  places: PlaceTable,
): Edit | undefined {
  switch (change.kind) {
    case 'replace': {
      const place = places.find(change.at);
      return place && { place, text: change.text };
    }
    case 'append': {
      const node = places.nodeOf(change.at.origin);
      const place = change.at.part === undefined && node ? endOf(node) : places.find(change.at);
      if (!place) return undefined;
      const end = place.range.end;
      return {
        place: { file: place.file, range: { start: end, end } },
        text: change.at.part === undefined ? ` ${change.text}` : change.text,
      };
    }
    case 'remove': {
      const node = places.nodeOf(change.at.origin);
      if (change.at.part === undefined) return node && { place: wholeLines(node), text: '' };
      const place = places.find(change.at);
      return place && { place, text: '' };
    }
    case 'declare': {
      const node = places.nodeOf(change.after.origin);
      return node && onLineAfter(node, change.text);
    }
    case 'precede': {
      const node = places.nodeOf(change.before.origin);
      const range = node?.$cstNode?.range;
      if (!node || !range) return undefined;
      const place = { file: fileOf(node), range: { start: range.start, end: range.start } };
      return { place, text: `${change.text}\n${indentOf(node)}` };
    }
  }
}

/** Text on a line of its own after a node, indented as the node's line is. */
function onLineAfter(node: AstNode, text: string): Edit | undefined {
  const end = node.$cstNode?.range.end;
  return (
    end && { place: { file: fileOf(node), range: { start: end, end } }, text: `\n${indentOf(node)}${text}` }
  );
}

/** The white space that the line begins with on which a node does; none where the node is in the middle of its line. */
function indentOf(node: AstNode): string {
  const text = AstUtils.getDocument(node).textDocument.getText();
  const start = node.$cstNode?.offset ?? 0;
  const before = text.slice(text.lastIndexOf('\n', start - 1) + 1, start);
  return /^[ \t]*$/.test(before) ? before : '';
}

const fileOf = (node: AstNode): string => AstUtils.getDocument(node).uri.toString();

function endOf(node: AstNode): Place | undefined {
  const end = headEnd(node);
  return end && { file: fileOf(node), range: end.range };
}

/**
 * The place of a node with the white space before it, and its whole lines where nothing else stands on them. A comment behind it goes
 * with it unless it is to be kept.
 */
export function wholeLines(node: AstNode, keepComment = false): Place {
  const document = AstUtils.getDocument(node).textDocument;
  const text = document.getText();
  let start = node.$cstNode?.offset ?? 0;
  let end = node.$cstNode?.end ?? 0;
  while (start > 0 && /[ \t]/.test(text[start - 1] ?? '')) start--;
  const alone = start === 0 || text[start - 1] === '\n';
  const rest = /^[ \t]*(\/\/[^\n]*)?(\r?\n|$)/.exec(text.slice(end));
  if (alone && rest && keepComment && rest[1] !== undefined) end += rest[0].indexOf(rest[1]);
  else if (alone && rest) end += rest[0].length;
  return { file: fileOf(node), range: { start: document.positionAt(start), end: document.positionAt(end) } };
}
