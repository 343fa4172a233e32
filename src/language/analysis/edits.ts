/** Turns the repairs of a finding into text edits. */
import { AstUtils, type AstNode } from 'langium';
import type { Repair } from '../../checks/finding.js';
import type { Place } from '../../vessel/origin.js';
import { headEnd, type PlaceTable } from '../lowering/places.js';
import type { Fix } from '../project/report.js';

/** The repair as edits; undefined where its place is not in the text. */
export function fixOf(repair: Repair, places: PlaceTable): Fix | undefined {
  const edit = editOf(repair, places);
  return edit && { title: repair.title, preferred: repair.preferred, edits: [edit] };
}

function editOf({ change }: Repair, places: PlaceTable): { place: Place; text: string } | undefined {
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
      const range = node?.$cstNode?.range;
      if (!node || !range) return undefined;
      return {
        place: { file: fileOf(node), range: { start: range.end, end: range.end } },
        text: `\n${change.text}`,
      };
    }
  }
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
