/** The colours of a picture, where they are few enough to be numbered: a drawing's pixels then take a third, and pack better still. */

/** As many numbers as a byte has. */
const MOST = 256;

export interface Numbered {
  /** Red, green and blue of each colour, by its number. */
  readonly colours: Uint8Array;
  /** Rows as in the file: a byte that says how a row is packed, then its pixels. */
  readonly rows: Uint8Array;
}

/** Number the colours of rows of red, green and blue, each after the byte that says how it is packed; undefined where they are too many. */
export function numberedColours(rows: Uint8Array, width: number): Numbered | undefined {
  const [long, short] = [width * 3 + 1, width + 1];
  const height = rows.length / long;
  const found = new Uint8Array(height * short);
  const numbers = new Map<number, number>();
  let [last, number] = [-1, 0];
  for (let row = 0; row < height; row += 1) {
    let from = row * long;
    let to = row * short;
    const filter = rows[from] ?? 0;
    found[to] = filter;
    // One like the row above it is nothing but noughts, here as there.
    if (filter !== 0) continue;
    from += 1;
    to += 1;
    for (let column = 0; column < width; column += 1, from += 3, to += 1) {
      const colour = ((rows[from] ?? 0) << 16) | ((rows[from + 1] ?? 0) << 8) | (rows[from + 2] ?? 0);
      if (colour !== last) {
        number = numbers.get(colour) ?? numbers.size;
        if (number === MOST) return undefined;
        numbers.set(colour, number);
        last = colour;
      }
      found[to] = number;
    }
  }
  const colours = new Uint8Array(numbers.size * 3);
  for (const [colour, at] of numbers)
    colours.set([(colour >> 16) & 255, (colour >> 8) & 255, colour & 255], at * 3);
  return { colours, rows: found };
}
