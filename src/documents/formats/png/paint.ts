/**
 * Paints rings on a band of a picture. How much of a pixel a shape covers is worked out exactly from its edges: each edge leaves in
 * every row what it adds to the pixels on its right, and a sum along the row gives the share.
 */
import type { Ring } from './outline.js';

export interface Shape {
  readonly rings: readonly Ring[];
  /** Red, green and blue, 0 to 255. */
  readonly colour: readonly [number, number, number];
  /** Its upper and lower edge in pixels. */
  readonly top: number;
  readonly bottom: number;
}

/** At an edge no eye tells more shades than these, and so few leave a drawing with colours that can be numbered. */
const SHADES = 16;

export class Band {
  private readonly pixels: Uint8Array;
  private readonly edges: Float64Array;
  private readonly from: Int32Array;
  private readonly to: Int32Array;
  private readonly stride: number;
  private top = 0;

  constructor(
    readonly width: number,
    readonly height: number,
  ) {
    this.stride = width + 2;
    this.pixels = new Uint8Array(width * height * 3);
    this.edges = new Float64Array(this.stride * height);
    this.from = new Int32Array(height);
    this.to = new Int32Array(height);
  }

  /** Red, green and blue of every pixel of a row. */
  row(index: number): Uint8Array {
    return this.pixels.subarray(index * this.width * 3, (index + 1) * this.width * 3);
  }

  /** Makes it white, with its upper edge on a row of the picture. */
  begin(top: number): void {
    this.top = top;
    this.pixels.fill(255);
  }

  paint({ rings, colour, top, bottom }: Shape): void {
    if (bottom <= this.top || top >= this.top + this.height) return;
    this.from.fill(this.stride);
    this.to.fill(-1);
    for (const ring of rings)
      for (let index = 0; index < ring.length; index += 2) {
        const next = (index + 2) % ring.length;
        this.edge(
          ring[index] ?? 0,
          (ring[index + 1] ?? 0) - this.top,
          ring[next] ?? 0,
          (ring[next + 1] ?? 0) - this.top,
        );
      }
    this.fill(colour);
  }

  private edge(ax: number, ay: number, bx: number, by: number): void {
    if (ay === by) return;
    const down = ay < by ? 1 : -1;
    const [x0, y0, x1, y1] = ay < by ? [ax, ay, bx, by] : [bx, by, ax, ay];
    if (y1 <= 0 || y0 >= this.height) return;
    const slope = (x1 - x0) / (y1 - y0);
    const last = Math.min(this.height, Math.ceil(y1));
    for (let row = Math.max(0, Math.floor(y0)); row < last; row += 1) {
      const [high, low] = [Math.max(row, y0), Math.min(row + 1, y1)];
      if (low <= high) continue;
      const [one, other] = [x0 + (high - y0) * slope, x0 + (low - y0) * slope];
      this.span(row, Math.min(one, other), Math.max(one, other), (low - high) * down);
    }
  }

  /** What a piece of an edge that stays in one row adds to it, between two places across. */
  private span(row: number, left: number, right: number, amount: number): void {
    const [a, b] = [Math.max(0, Math.min(this.width, left)), Math.max(0, Math.min(this.width, right))];
    const { edges } = this;
    const start = row * this.stride;
    const first = Math.floor(a);
    const end = Math.max(first + 1, Math.ceil(b));
    if (first < (this.from[row] ?? 0)) this.from[row] = first;
    if (end > (this.to[row] ?? 0)) this.to[row] = end;
    const add = (column: number, value: number): void => {
      edges[start + column] = (edges[start + column] ?? 0) + value;
    };
    if (end === first + 1) {
      const middle = (a + b) / 2 - first;
      add(first, amount * (1 - middle));
      add(first + 1, amount * middle);
      return;
    }
    // Covered to the right of the piece, up to a column: the integral of a ramp.
    const covered = (column: number): number => {
      if (column >= b) return column - (a + b) / 2;
      return column <= a ? 0 : (column - a) ** 2 / (2 * (b - a));
    };
    let before = 0;
    for (let column = first; column < end; column += 1) {
      const share = covered(column + 1) - covered(column);
      add(column, amount * (share - before));
      before = share;
    }
    add(end, amount * (1 - before));
  }

  private fill([red, green, blue]: readonly [number, number, number]): void {
    const { edges, pixels } = this;
    for (let row = 0; row < this.height; row += 1) {
      const [from, to] = [this.from[row] ?? 0, this.to[row] ?? -1];
      let sum = 0;
      const start = row * this.stride;
      for (let column = from; column <= to; column += 1) {
        sum += edges[start + column] ?? 0;
        edges[start + column] = 0;
        const share = Math.round(Math.min(1, Math.abs(sum)) * SHADES) / SHADES;
        if (share === 0 || column >= this.width) continue;
        const at = (row * this.width + column) * 3;
        pixels[at] = mixed(pixels[at] ?? 0, red, share);
        pixels[at + 1] = mixed(pixels[at + 1] ?? 0, green, share);
        pixels[at + 2] = mixed(pixels[at + 2] ?? 0, blue, share);
      }
    }
  }
}

const mixed = (below: number, above: number, share: number): number =>
  Math.round(below + (above - below) * share);
