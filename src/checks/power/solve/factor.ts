/**
 * Solves a sparse symmetric positive definite system: LDL' by elimination in order of least degree, so that the leaves of a
 * tree go first and cause no fill. Factored once, used for any number of right-hand sides.
 */

export interface Factored {
  /** The solution for a right-hand side, one number a row. */
  readonly solve: (rhs: Float64Array) => Float64Array;
}

/** A symmetric matrix as a row of neighbours each; the diagonal apart. */
export class Rows {
  readonly diagonal: Float64Array;
  readonly off: Map<number, number>[];

  constructor(readonly size: number) {
    this.diagonal = new Float64Array(size);
    this.off = Array.from({ length: size }, () => new Map<number, number>());
  }

  /** Adds a conductance between two rows. */
  join(i: number, j: number, siemens: number): void {
    this.ground(i, siemens);
    this.ground(j, siemens);
    const a = this.off[i];
    const b = this.off[j];
    a?.set(j, (a.get(j) ?? 0) - siemens);
    b?.set(i, (b.get(i) ?? 0) - siemens);
  }

  /** Adds a conductance from a row to the reference. */
  ground(i: number, siemens: number): void {
    this.diagonal[i] = (this.diagonal[i] ?? 0) + siemens;
  }
}

/** The rows in the order in which they went, each with its pivot and what it takes from the rows that were left. */
interface Steps {
  readonly rows: Int32Array;
  readonly pivots: Float64Array;
  /** Where the columns of each step begin; one more for the end of the last. */
  readonly starts: Int32Array;
  readonly columns: Int32Array;
  readonly values: Float64Array;
}

/** Factors the matrix, which is used up. Undefined where it is singular: a part of it hangs on no reference. */
export function factor(rows: Rows): Factored | undefined {
  const order = new Int32Array(rows.size);
  const pivots = new Float64Array(rows.size);
  const starts = new Int32Array(rows.size + 1);
  const columns: number[] = [];
  const values: number[] = [];
  const { diagonal, off } = rows;
  const queue = new DegreeQueue(off);
  let step = 0;
  for (let row = queue.next(); row !== undefined; row = queue.next()) {
    const own = off[row];
    const pivot = diagonal[row] ?? 0;
    if (!own || !(pivot > 0)) return undefined;
    const begin = columns.length;
    order[step] = row;
    pivots[step] = pivot;
    for (const [column, siemens] of own) {
      columns.push(column);
      values.push(siemens / pivot);
    }
    step += 1;
    starts[step] = columns.length;
    for (let n = begin; n < columns.length; n++) {
      const i = columns[n] ?? 0;
      const a = off[i];
      const share = values[n] ?? 0;
      if (!a) continue;
      a.delete(row);
      diagonal[i] = (diagonal[i] ?? 0) - share * share * pivot;
      for (let m = n + 1; m < columns.length; m++) {
        const j = columns[m] ?? 0;
        const fill = share * (values[m] ?? 0) * pivot;
        const b = off[j];
        a.set(j, (a.get(j) ?? 0) - fill);
        b?.set(i, (b.get(i) ?? 0) - fill);
      }
    }
    for (let n = begin; n < columns.length; n++) queue.moved(columns[n] ?? 0);
  }
  const steps: Steps = {
    rows: order,
    pivots,
    starts,
    columns: Int32Array.from(columns),
    values: Float64Array.from(values),
  };
  return { solve: (rhs) => substitute(steps, rhs) };
}

function substitute({ rows, pivots, starts, columns, values }: Steps, rhs: Float64Array): Float64Array {
  const x = Float64Array.from(rhs);
  for (let step = 0; step < rows.length; step++) {
    const value = x[rows[step] ?? 0] ?? 0;
    const end = starts[step + 1] ?? 0;
    for (let n = starts[step] ?? 0; n < end; n++) {
      const i = columns[n] ?? 0;
      x[i] = (x[i] ?? 0) - (values[n] ?? 0) * value;
    }
  }
  for (let step = rows.length - 1; step >= 0; step--) {
    const row = rows[step] ?? 0;
    let value = (x[row] ?? 0) / (pivots[step] ?? 1);
    const end = starts[step + 1] ?? 0;
    for (let n = starts[step] ?? 0; n < end; n++) value -= (values[n] ?? 0) * (x[columns[n] ?? 0] ?? 0);
    x[row] = value;
  }
  return x;
}

/** Rows by their degree, the least first; a row is entered anew when its degree changes. */
class DegreeQueue {
  private readonly buckets: number[][] = [];
  private readonly done: Uint8Array;
  private lowest = 0;

  constructor(private readonly off: readonly ReadonlyMap<number, number>[]) {
    this.done = new Uint8Array(off.length);
    for (let row = 0; row < off.length; row++) this.moved(row);
  }

  moved(row: number): void {
    const degree = this.off[row]?.size ?? 0;
    (this.buckets[degree] ??= []).push(row);
    this.lowest = Math.min(this.lowest, degree);
  }

  next(): number | undefined {
    for (; this.lowest < this.buckets.length; this.lowest++) {
      const bucket = this.buckets[this.lowest];
      for (let row = bucket?.pop(); row !== undefined; row = bucket?.pop())
        if (this.done[row] === 0 && this.off[row]?.size === this.lowest) {
          this.done[row] = 1;
          return row;
        }
    }
    return undefined;
  }
}
