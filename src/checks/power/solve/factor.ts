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

interface Step {
  readonly row: number;
  readonly pivot: number;
  readonly columns: readonly number[];
  readonly values: readonly number[];
}

/** Factors the matrix, which is used up. Undefined where it is singular: a part of it hangs on no reference. */
export function factor(rows: Rows): Factored | undefined {
  const steps: Step[] = [];
  const queue = new DegreeQueue(rows.off);
  for (let row = queue.next(); row !== undefined; row = queue.next()) {
    const own = rows.off[row];
    const pivot = rows.diagonal[row] ?? 0;
    if (!own || !(pivot > 0)) return undefined;
    const columns = [...own.keys()];
    const values = columns.map((column) => (own.get(column) ?? 0) / pivot);
    steps.push({ row, pivot, columns, values });
    columns.forEach((i, n) => {
      const a = rows.off[i];
      const factorI = values[n] ?? 0;
      if (!a) return;
      a.delete(row);
      rows.diagonal[i] = (rows.diagonal[i] ?? 0) - factorI * factorI * pivot;
      for (let m = n + 1; m < columns.length; m++) {
        const j = columns[m] ?? 0;
        const fill = factorI * (values[m] ?? 0) * pivot;
        const b = rows.off[j];
        a.set(j, (a.get(j) ?? 0) - fill);
        b?.set(i, (b.get(i) ?? 0) - fill);
      }
    });
    for (const i of columns) queue.moved(i);
  }
  return { solve: (rhs) => substitute(steps, rhs) };
}

function substitute(steps: readonly Step[], rhs: Float64Array): Float64Array {
  const x = Float64Array.from(rhs);
  for (const { row, columns, values } of steps) {
    const value = x[row] ?? 0;
    for (let n = 0; n < columns.length; n++) {
      const i = columns[n] ?? 0;
      x[i] = (x[i] ?? 0) - (values[n] ?? 0) * value;
    }
  }
  for (let s = steps.length - 1; s >= 0; s--) {
    const step = steps[s];
    if (!step) continue;
    let value = (x[step.row] ?? 0) / step.pivot;
    for (let n = 0; n < step.columns.length; n++)
      value -= (step.values[n] ?? 0) * (x[step.columns[n] ?? 0] ?? 0);
    x[step.row] = value;
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
