/** What the figures have to reach. A miss is shown and fails nothing: another machine is slower, or busy. */
import type { Figures, Row } from './figures.js';
import type { Span } from './measure/figures.js';

export interface Target {
  readonly text: string;
  readonly limit: number;
  readonly unit: 'ms' | 'times';
  /** By the clock; undefined where the sizes that it needs were not measured. */
  readonly value: number | undefined;
  /** Time on a core, which a busy machine does not lengthen. */
  readonly onCore: number | undefined;
  readonly met: boolean | undefined;
}

export function targetsOf({ kittiwake, rows }: Figures): readonly Target[] {
  return [
    target('200 devices, edit to diagnostics, p95 once warm', 60, 'ms', [
      worst(rows, 200, (row) => row.edits.p95),
    ]),
    target('cold check of examples/kittiwake', 400, 'ms', [{ clock: kittiwake, core: undefined }]),
    target('whole check at 1,000 devices against bare Langium', 1.5, 'times', [
      worst(rows, 1000, ({ stages }) => ratioOf(stages.own.whole, stages.bare.whole)),
    ]),
    target('time per device at 5,000 against that at 500', 1.5, 'times', growthOf(rows)),
  ];
}

function target(
  text: string,
  limit: number,
  unit: Target['unit'],
  spans: readonly (Span | undefined)[],
): Target {
  const span = greatest(spans);
  const value = span?.clock;
  const met = value === undefined ? undefined : unit === 'ms' ? value < limit : value <= limit;
  return { text, limit, unit, value, onCore: span?.core, met };
}

/** The worse of the layouts. */
function worst(rows: readonly Row[], devices: number, pick: (row: Row) => Span): Span | undefined {
  return greatest(rows.filter((row) => row.devices === devices).map(pick));
}

function greatest(spans: readonly (Span | undefined)[]): Span | undefined {
  const known = spans.filter((span) => span !== undefined);
  if (known.length === 0) return undefined;
  const cores = known.flatMap((span) => span.core ?? []);
  return {
    clock: Math.max(...known.map((span) => span.clock)),
    core: cores.length === known.length ? Math.max(...cores) : undefined,
  };
}

/** How much longer one takes than the other. */
export function ratioOf(one: Span, other: Span): Span {
  return {
    clock: one.clock / other.clock,
    core: one.core === undefined || other.core === undefined ? undefined : one.core / other.core,
  };
}

function growthOf(rows: readonly Row[]): (Span | undefined)[] {
  const wholeOf = (devices: number, layout: Row['layout']): Span | undefined =>
    rows.find((row) => row.devices === devices && row.layout === layout)?.stages.own.whole;
  return [...new Set(rows.map((row) => row.layout))].map((layout) => {
    const small = wholeOf(500, layout);
    const large = wholeOf(5000, layout);
    if (small === undefined || large === undefined) return undefined;
    const { clock, core } = ratioOf(large, small);
    return { clock: clock / 10, core: core === undefined ? undefined : core / 10 };
  });
}
