/** What is written along a cable. */
import type { CableRun } from '../../checks/analysis.js';
import type { SupplyEdge } from '../../checks/power/supply/graph.js';
import { sizeText } from '../../vessel/conductors/sizes.js';
import { number } from '../../vessel/words.js';
import type { Facts } from './facts.js';

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

/** What was left to the tool stands in brackets. */
export const shown = (text: string, computed: boolean): string => (computed ? `(${text})` : text);

/** Size of a conductor: `(14 AWG)`, `4 mm²`. */
export function sizeShown({ analysis }: Facts, edge: SupplyEdge): string {
  const { size, computed } = analysis.sizing.of(edge).wire;
  if (size === undefined) return analysis.vessel.practice === 'iso' ? '? mm²' : '? AWG';
  return shown(sizeText(size).replace('mm2', 'mm²'), computed);
}
