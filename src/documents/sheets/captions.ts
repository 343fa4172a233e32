/** What is written along a cable. */
import type { CableRun } from '../../checks/analysis.js';
import { number } from '../../vessel/words.js';

/** Type and length of a link's cable, in few words. */
export function captionOf(run: CableRun | undefined): string {
  if (run === undefined) return '';
  const { cable, pieces, captiveMetres, neededMetres } = run;
  const length =
    pieces.length > 0
      ? `${pieces.map((piece) => number(piece, 1)).join(' + ')} m`
      : cable === undefined && captiveMetres !== undefined
        ? `tail ${number(captiveMetres, 1)} m`
        : neededMetres === undefined
          ? 'length not known'
          : `${number(neededMetres, 1)} m`;
  return cable === undefined ? length : `${cable} ${length}`;
}
