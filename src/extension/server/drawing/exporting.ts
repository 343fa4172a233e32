/** The files of a drawing, for whoever takes them away: with every box where the drawing beside the text has it. */
import { DRAWING_FORMATS } from '../../../documents/formats/files.js';
import { titleOf, type Ready, type StandingOf } from './answers.js';
import type { Artist } from './artist/artist.js';
import { base64 } from './base64.js';
import type { DrawingAnswer, DrawingParams, ExportAnswer, ExportParams } from './protocol.js';

const none = (reason: string): ExportAnswer => ({ kind: 'none', reason });

/** @param prepare - Says between edits what is to be drawn. */
export async function exported(
  artist: Artist,
  standing: StandingOf,
  { uri, version, sheet, format: asked }: Partial<ExportParams>,
  options: readonly string[],
  prepare: (params: DrawingParams) => Promise<Ready | DrawingAnswer>,
): Promise<ExportAnswer> {
  const format = ([...DRAWING_FORMATS, 'places'] as const).find((one) => one === asked);
  if (typeof uri !== 'string' || format === undefined)
    return none('No file was named to be drawn, or no format.');
  const ready = await prepare({ uri, version, options });
  if ('kind' in ready && ready.kind === 'none') return ready;
  const broken = 'kind' in ready ? ready.old : ready.broken && `${ready.broken} has a syntax error.`;
  if ('kind' in ready || broken !== undefined)
    return none(
      `Nothing was exported. ${broken ?? ''} Mend it first, so that the files show what is written.`,
    );
  const { subject, names } = ready.chosen;
  const wanted = { format, sheet: typeof sheet === 'string' ? sheet : undefined };
  const places = await standing(ready.root, names);
  const files = await artist.write(subject, await titleOf(ready), wanted, places);
  if (files === undefined)
    return none(
      `Here only SVG can be written. "wireloft draw --format ${format}" writes it, and so does the editor on a desktop.`,
    );
  if (files.length === 0)
    return none('There is nothing to export: no sheet of this boat has anything on it.');
  return {
    kind: 'files',
    root: ready.root,
    files: files.map(({ name, content }) => ({
      name,
      bytes: base64(typeof content === 'string' ? new TextEncoder().encode(content) : content),
    })),
  };
}
