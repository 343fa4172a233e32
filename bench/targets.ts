/** What the figures have to reach. A miss is shown and fails nothing: another machine is slower, or busy. */
import type { DrawingRow } from './drawing/measure.js';
import type { PreviewRow } from './drawing/preview.js';
import type { Figures, PowerFigures, Row } from './figures.js';
import type { FleetFigures } from './fleet/measure.js';
import type { Span } from './measure/figures.js';
import type { PowerRow } from './power/measure.js';

export interface Target {
  readonly text: string;
  readonly limit: number;
  readonly unit: 'ms' | 'times';
  /** The more the better. */
  readonly atLeast: boolean;
  /** By the clock; undefined where the sizes that it needs were not measured. */
  readonly value: number | undefined;
  /** Time on a core, which a busy machine does not lengthen. */
  readonly onCore: number | undefined;
  readonly met: boolean | undefined;
}

export function targetsOf({
  kittiwake,
  power,
  bus,
  design,
  fleet,
  drawing,
  preview,
  rows,
}: Figures): readonly Target[] {
  return [
    target('200 devices, edit to diagnostics, p95 once warm', 60, 'ms', [
      worst(rows, 200, (row) => row.edits.p95),
    ]),
    target('cold check of examples/kittiwake', 400, 'ms', [
      kittiwake === undefined ? undefined : { clock: kittiwake, core: undefined },
    ]),
    target('whole check at 1,000 devices against bare Langium', 1.5, 'times', [
      worst(rows, 1000, ({ stages }) => ratioOf(stages.own.whole, stages.bare.whole)),
    ]),
    target('time per device at 5,000 against that at 500', 1.5, 'times', growthOf(rows)),
    target('network of 5,000 nodes solved', 50, 'ms', [power?.rows.find(({ nodes }) => nodes === 5000)?.own]),
    slowest('ngspice on the same networks, from deck to result, against ours', power, spiceRatio),
    slowest(
      "ngspice's analysis alone, by its own clock, against ours alone, from 500 nodes on",
      // Of 50 nodes both take less than what that clock tells apart.
      power === undefined ? undefined : { ...power, rows: power.rows.filter(({ nodes }) => nodes >= 500) },
      (row) => row.spiceAnalysis / row.again,
    ),
    target('200 devices, analysis of the model', 15, 'ms', [power?.analysis]),
    target('backbone of 50 nodes worked out', 2, 'ms', [bus]),
    target('12 devices with 3 open choices, the best design', 2000, 'ms', [design?.best]),
    target('12 devices with 3 open choices, the best five designs', 10_000, 'ms', [design?.five]),
    faster('one check of 200 boats in two threads against one', fleet),
    target('100 devices, from text to the SVG of every sheet', 400, 'ms', [drawn(drawing, 100)?.whole]),
    target('500 devices, from text to the SVG of every sheet', 3000, 'ms', [drawn(drawing, 500)?.whole]),
    target('network sheet of 100 devices against dot', 2, 'times', [dotRatio(drawn(drawing, 100))]),
    target('100 devices, from an edit to her sheet beside the text', 600, 'ms', [
      previewed(preview, 100)?.update,
    ]),
    target('500 devices, longest hover while she is drawn beside her text', 100, 'ms', [
      previewed(preview, 500)?.held,
    ]),
  ];
}

const drawn = (rows: readonly DrawingRow[] | undefined, devices: number): DrawingRow | undefined =>
  rows?.find((row) => row.devices === devices);

const previewed = (rows: readonly PreviewRow[] | undefined, devices: number): PreviewRow | undefined =>
  rows?.find((row) => row.devices === devices);

const dotRatio = (row: DrawingRow | undefined): Span | undefined =>
  row === undefined ? undefined : ratioOf(row.network, row.dot);

function target(
  text: string,
  limit: number,
  unit: Target['unit'],
  spans: readonly (Span | undefined)[],
): Target {
  const span = greatest(spans);
  const value = span?.clock;
  const met = value === undefined ? undefined : unit === 'ms' ? value < limit : value <= limit;
  return { text, limit, unit, atLeast: false, value, onCore: span?.core, met };
}

/** How many times as long ngspice takes, at the size where that is least. */
function slowest(text: string, power: PowerFigures | undefined, pick: (row: PowerRow) => number): Target {
  const limit = 10;
  const value = power === undefined ? undefined : Math.min(...power.rows.map(pick));
  const met = value === undefined ? undefined : value >= limit;
  return { text, limit, unit: 'times', atLeast: true, value, onCore: undefined, met };
}

/** How many times as fast two threads are. */
function faster(text: string, fleet: FleetFigures | undefined): Target {
  const limit = 1.6;
  const value = fleet === undefined ? undefined : fleet.one / fleet.two;
  const met = value === undefined ? undefined : value >= limit;
  return { text, limit, unit: 'times', atLeast: true, value, onCore: undefined, met };
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

/** How many times as long ngspice takes from deck to result: on a core where the system tells, which a busy machine does not lengthen. */
export function spiceRatio({ spice, own }: PowerRow): number {
  const { clock, core } = ratioOf(spice, own);
  return core ?? clock;
}
