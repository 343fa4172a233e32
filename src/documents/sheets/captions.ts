/** What is written along a cable. */
import type { CableRun } from '../../checks/analysis.js';
import type { SupplyEdge } from '../../checks/power/supply/graph.js';
import { sizeText } from '../../vessel/conductors/sizes.js';
import { number } from '../../vessel/words.js';
import type { Facts } from './facts.js';

/** Type and length of a link's cable, in few words. */
export function captionOf(run: CableRun | undefined): string {
  if (run === undefined) return '';
  const { cable, pieces, captiveMetres } = run;
  const length = lengthOf(run) ?? 'length not known';
  if (cable !== undefined) return `${cable} ${length}`;
  return pieces.length === 0 && captiveMetres !== undefined ? `tail ${length}` : length;
}

/** The length of a link's cable, piece by piece; undefined where nobody knows it. */
export function lengthOf(run: CableRun | undefined): string | undefined {
  if (run === undefined) return undefined;
  const { cable, pieces, captiveMetres, neededMetres } = run;
  const metres = cable === undefined ? (captiveMetres ?? neededMetres) : neededMetres;
  const lengths = pieces.length > 0 ? pieces : metres === undefined ? [] : [metres];
  return lengths.length === 0 ? undefined : `${lengths.map((length) => number(length, 1)).join(' + ')} m`;
}

/** What was left to the tool stands in brackets. */
export const shown = (text: string, computed: boolean): string => (computed ? `(${text})` : text);

/** Size of a conductor: `(14 AWG)`, `4 mm²`. */
export function sizeShown({ analysis }: Facts, edge: SupplyEdge): string {
  const { size, computed } = analysis.sizing.of(edge).wire;
  if (size === undefined) return analysis.vessel.practice === 'iso' ? '? mm²' : '? AWG';
  return shown(sizeText(size).replace('mm2', 'mm²'), computed);
}
