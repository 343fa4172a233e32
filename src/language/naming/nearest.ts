/** Nearest-name suggestions. */

/** Edit distance with transpositions (optimal string alignment), given up above `limit`. */
function distance(a: string, b: string, limit: number): number {
  if (Math.abs(a.length - b.length) > limit) return limit + 1;
  // What both begin and end with costs nothing, and most names of a boat begin alike.
  let start = 0;
  while (start < a.length && start < b.length && a[start] === b[start]) start++;
  let endA = a.length;
  let endB = b.length;
  while (endA > start && endB > start && a[endA - 1] === b[endB - 1]) {
    endA--;
    endB--;
  }
  return align(a.slice(start, endA), b.slice(start, endB), limit);
}

function align(a: string, b: string, limit: number): number {
  let before: number[] = [];
  let previous = Array.from({ length: b.length + 1 }, (_, i) => i);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    let least = i;
    for (let j = 1; j <= b.length; j++) {
      const cost = a[i - 1] === b[j - 1] ? 0 : 1;
      let value = Math.min((previous[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1, (previous[j - 1] ?? 0) + cost);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        value = Math.min(value, (before[j - 2] ?? 0) + 1);
      row.push(value);
      least = Math.min(least, value);
    }
    if (least > limit) return limit + 1;
    before = previous;
    previous = row;
  }
  return previous[b.length] ?? limit + 1;
}

/** The nearest of `names` to `word`, if one is near enough to be meant. Case counts little. */
export function nearest(word: string, names: Iterable<string>): string | undefined {
  const limit = word.length <= 3 ? 1 : word.length <= 7 ? 2 : 3;
  const lower = word.toLowerCase();
  let best: string | undefined;
  let bestDistance = limit + 1;
  for (const name of names) {
    const d = distance(lower, name.toLowerCase(), limit);
    if (d < bestDistance || (d === bestDistance && best !== undefined && name < best)) {
      best = name;
      bestDistance = d;
    }
  }
  return bestDistance <= limit ? best : undefined;
}
