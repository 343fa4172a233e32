/** Edits of a text carried out. */
import { TextDocument } from 'langium';
import type { Fix } from '../project/report.js';

const MARK = '\uFEFF';

/**
 * A text with edits carried out. Its byte order mark and its line ends stay as they are.
 * @param text as it lies on the disk; places are counted without a byte order mark, as the parser does
 * @throws Error where edits overlap: nothing that is made of them could be trusted
 */
export function carryOut(text: string, edits: Fix['edits']): string {
  const isMarked = text.startsWith(MARK);
  const document = TextDocument.create('', '', 0, isMarked ? text.slice(MARK.length) : text);
  const ends = text.includes('\r\n') ? '\r\n' : '\n';
  const changed = TextDocument.applyEdits(
    document,
    edits.map(({ place, text: by }) => ({ range: place.range, newText: by.replaceAll(/\r?\n/g, ends) })),
  );
  return isMarked ? MARK + changed : changed;
}
