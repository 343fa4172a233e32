/** Lengths that cables are sold in. */

/** More joints than two in one cable is no practice to offer (common practice, no source). */
const MOST_PIECES = 3;

/** Lengths are equal within a tenth of a millimetre. */
const TOLERANCE = 1e-4;

/**
 * The pieces to buy for a length: the shortest single one that reaches, else two joined, else three, each time the least
 * total; longest first. Empty where nothing reaches.
 */
export function choosePieces(stockMetres: readonly number[], neededMetres: number): readonly number[] {
  const lengths = [...new Set(stockMetres)].sort((x, y) => y - x);
  for (let pieces = 1; pieces <= MOST_PIECES; pieces += 1) {
    const found = leastTotal(lengths, pieces, neededMetres);
    if (found !== undefined) return found;
  }
  return [];
}

function leastTotal(
  lengths: readonly number[],
  pieces: number,
  neededMetres: number,
): readonly number[] | undefined {
  let best: readonly number[] | undefined;
  const extend = (chosen: readonly number[], from: number, total: number): void => {
    if (chosen.length === pieces) {
      if (reaches(total, neededMetres) && (best === undefined || total < sum(best))) best = chosen;
      return;
    }
    lengths.slice(from).forEach((length, index) => extend([...chosen, length], from + index, total + length));
  };
  extend([], 0, 0);
  return best;
}

/** Whether a cable is long enough. */
export function reaches(lengthMetres: number, neededMetres: number): boolean {
  return lengthMetres >= neededMetres - TOLERANCE;
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
