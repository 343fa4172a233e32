/** What a run of the benchmark comes to. Times are milliseconds, and medians unless their name says otherwise. */
import type { DesignFigures } from './design/measure.js';
import type { DrawingRow } from './drawing/measure.js';
import type { PreviewRow } from './drawing/preview.js';
import type { FleetFigures } from './fleet/measure.js';
import type { Layout } from './boats/boat.js';
import type { EditFigures } from './measure/editor.js';
import type { Span } from './measure/figures.js';
import type { StageFigures } from './measure/stages.js';
import type { PowerRow } from './power/measure.js';

export interface Row {
  readonly devices: number;
  readonly layout: Layout;
  readonly files: number;
  readonly kilobytes: number;
  /** `check` as a process. */
  readonly cold: number;
  readonly stages: StageFigures;
  readonly edits: EditFigures;
  readonly bareEdits: EditFigures;
}

export interface Machine {
  readonly node: string;
  readonly processor: string;
  readonly cores: number;
  /** Average number of processes that want a core, over the last minute: at the start and at the end. */
  readonly load: readonly [number, number];
}

/** Direct current: networks beside ngspice, and the analysis of a boat of 200 devices from its model. */
export interface PowerFigures {
  readonly rows: readonly PowerRow[];
  readonly analysis: Span;
}

export interface Figures {
  readonly machine: Machine;
  /** `check` of the example as a process; undefined where it was left out, as with `--only`. */
  readonly kittiwake: number | undefined;
  readonly power: PowerFigures | undefined;
  /** A backbone of 50 nodes, worked out whole. */
  readonly bus: Span | undefined;
  /** The slowest of some rounds. */
  readonly design: DesignFigures | undefined;
  /** One check of many boats, in one thread and in two. */
  readonly fleet: FleetFigures | undefined;
  /** Sheets of boats of several sizes. */
  readonly drawing: readonly DrawingRow[] | undefined;
  /** The drawing beside the text. */
  readonly preview: readonly PreviewRow[] | undefined;
  readonly rows: readonly Row[];
}
