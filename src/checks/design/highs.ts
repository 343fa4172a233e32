/**
 * HiGHS (highs.dev, compiled to WebAssembly) as the solver of a program. It runs in one thread and blocks it: a face that has
 * something else to do runs it in a worker.
 */
import type { Highs } from 'highs';
import type { Program, Row } from './program.js';
import type { Answer, Solver } from './solver.js';

/** A solver from the loaded library. */
export function solverOf(highs: Highs): Solver {
  const { constants, infinity } = highs;
  const bound = (value: number): number =>
    value === Infinity ? infinity : value === -Infinity ? -infinity : value;
  return (program, stopped) => {
    const model = highs.createModel({
      numCols: program.columns.length,
      numRows: program.rows.length,
      colCost: Float64Array.from(program.columns, (column) => column.cost),
      colLower: Float64Array.from(program.columns, (column) => column.lower),
      colUpper: Float64Array.from(program.columns, (column) => column.upper),
      rowLower: Float64Array.from(program.rows, (row) => bound(row.lower)),
      rowUpper: Float64Array.from(program.rows, (row) => bound(row.upper)),
      integrality: Int32Array.from(program.columns, (column) =>
        column.integer ? constants.variableType.integer : constants.variableType.continuous,
      ),
      matrix: { ...packed(program.rows), numCols: program.columns.length, numRows: program.rows.length },
    });
    // The gap is closed: the second best is worth telling from the best. A seed makes runs alike.
    model.options.set({ output_flag: false, mip_rel_gap: 0, mip_abs_gap: 1e-6, random_seed: 1 });
    const added: Row[] = [];
    return {
      run: (): Answer => {
        model.run({
          [constants.callbackType.mipInterrupt]: (event: { readonly interrupt: () => void }) => {
            if (stopped()) event.interrupt();
          },
        });
        const status = model.getModelStatus();
        if (status === constants.modelStatus.optimal)
          return {
            kind: 'optimal',
            values: Float64Array.from(model.getSolution().colValue),
            cost: model.getObjectiveValue(),
          };
        if (status === constants.modelStatus.infeasible) return { kind: 'infeasible' };
        const values = Float64Array.from(model.getSolution().colValue);
        return { kind: 'interrupted', values: isAnswer(program, added, values) ? values : undefined };
      },
      add: (row) => {
        const { lower, upper, terms } = row;
        added.push(row);
        model.addRow(bound(lower), bound(upper), {
          indices: Int32Array.from(terms, ([column]) => column),
          values: Float64Array.from(terms, ([, factor]) => factor),
        });
      },
      close: () => {
        model.dispose();
      },
    };
  };
}

/** How far a row or a whole number may be off: the solver's own tolerance. */
const TOLERANCE = 1e-6;

/** What an interrupted solver leaves is an answer only if every column and row says so. */
function isAnswer(
  { columns, rows }: Pick<Program, 'columns' | 'rows'>,
  added: readonly Row[],
  values: Float64Array,
): boolean {
  const within = (value: number, lower: number, upper: number): boolean =>
    value >= lower - TOLERANCE && value <= upper + TOLERANCE;
  return (
    values.length === columns.length &&
    columns.every(({ lower, upper, integer }, number) => {
      const value = values[number] ?? NaN;
      return within(value, lower, upper) && (!integer || Math.abs(value - Math.round(value)) <= TOLERANCE);
    }) &&
    [...rows, ...added].every(({ lower, upper, terms }) =>
      within(
        terms.reduce((sum, [column, factor]) => sum + factor * (values[column] ?? NaN), 0),
        lower,
        upper,
      ),
    )
  );
}

function packed(rows: readonly Row[]): {
  readonly format: 'csr';
  readonly starts: Int32Array;
  readonly indices: Int32Array;
  readonly values: Float64Array;
} {
  const starts = new Int32Array(rows.length + 1);
  rows.forEach((row, number) => {
    starts[number + 1] = (starts[number] ?? 0) + row.terms.length;
  });
  return {
    format: 'csr',
    starts,
    indices: Int32Array.from(rows.flatMap((row) => row.terms.map(([column]) => column))),
    values: Float64Array.from(rows.flatMap((row) => row.terms.map(([, factor]) => factor))),
  };
}
