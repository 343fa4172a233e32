/** The figures as text for a terminal. */
import { KINDS } from './edits.js';
import { drawingLines, previewLines } from './drawing/table.js';
import type { Figures, Row } from './figures.js';
import { powerLines } from './power/table.js';
import type { Span } from './measure/figures.js';
import { ratioOf, targetsOf, type Target } from './targets.js';

export interface Column<T> {
  readonly title: string;
  readonly of: (row: T) => string;
}

export const number = (value: number | undefined): string =>
  value === undefined ? '-' : value.toFixed(value < 100 ? 1 : 0);
export const ms = (span: Span | undefined): string => number(span?.clock);
const ms1 = (value: number): string => `${number(value)} ms`;
export const core = (span: Span): string => number(span.core);
export const ratio = (value: number): string => `${value.toFixed(2)}x`;
export const count = (value: number): string => value.toLocaleString('en');

const boat: readonly Column<Row>[] = [
  { title: 'devices', of: (row) => count(row.devices) },
  { title: 'in', of: (row) => (row.layout === 'one file' ? 'one file' : `${row.files} files`) },
];

const checking: readonly Column<Row>[] = [
  ...boat,
  { title: 'KB', of: (row) => count(row.kilobytes) },
  { title: 'cold', of: (row) => number(row.cold) },
  { title: 'parse', of: ({ stages }) => ms(stages.own.parse) },
  { title: 'link', of: ({ stages }) => ms(stages.own.link) },
  { title: 'analyse', of: ({ stages }) => ms(stages.own.analyse) },
  { title: 'whole', of: ({ stages }) => ms(stages.own.whole) },
  { title: 'on core', of: ({ stages }) => core(stages.own.whole) },
  { title: 'bare parse', of: ({ stages }) => ms(stages.bare.parse) },
  { title: 'bare link', of: ({ stages }) => ms(stages.bare.link) },
  { title: 'bare whole', of: ({ stages }) => ms(stages.bare.whole) },
  { title: 'on core', of: ({ stages }) => core(stages.bare.whole) },
  { title: 'ratio', of: ({ stages }) => ratio(ratioOf(stages.own.whole, stages.bare.whole).clock) },
];

const typing: readonly Column<Row>[] = [
  ...boat,
  { title: 'edits', of: (row) => count(row.edits.count) },
  { title: 'p50', of: (row) => ms(row.edits.p50) },
  { title: 'p95', of: (row) => ms(row.edits.p95) },
  { title: 'p50 on core', of: (row) => core(row.edits.p50) },
  { title: 'p95 on core', of: (row) => core(row.edits.p95) },
  { title: 'first', of: (row) => count(row.edits.first.count) },
  { title: 'their p95', of: (row) => ms(row.edits.first.p95) },
  ...KINDS.map((kind): Column<Row> => ({ title: kind, of: (row) => ms(row.edits.p50ByKind[kind]) })),
  { title: 'bare p50', of: (row) => ms(row.bareEdits.p50) },
  { title: 'bare p95', of: (row) => ms(row.bareEdits.p95) },
  { title: 'bare p50 on core', of: (row) => core(row.bareEdits.p50) },
  { title: 'p50 ratio', of: (row) => ratio(ratioOf(row.edits.p50, row.bareEdits.p50).clock) },
];

export function tableText(figures: Figures): string {
  const { machine, rows, power, fleet, drawing, preview } = figures;
  const [before, after] = machine.load;
  const busy = Math.max(before, after) > machine.cores;
  return [
    `Node.js ${machine.node}, ${machine.processor}, ${machine.cores} cores; load ${before.toFixed(1)} at the start, ${after.toFixed(1)} at the end.`,
    ...(busy
      ? ['The machine is busy with something else: the clock shows more than the program needs.']
      : []),
    'Milliseconds by the clock, medians; "on core" is what the main thread ran.',
    '',
    ...(rows.length > 0 ? boatLines(rows) : []),
    ...(power === undefined ? [] : powerLines(power)),
    ...(fleet === undefined
      ? []
      : [
          `One check of ${count(fleet.boats)} boats: ${ms1(fleet.one)} in one thread, ${ms1(fleet.two)} in two.`,
          '',
        ]),
    ...(drawing === undefined ? [] : drawingLines(drawing)),
    ...(preview === undefined ? [] : previewLines(preview)),
    'Targets',
    ...targetsOf(figures).map(targetLine),
    '',
  ].join('\n');
}

function boatLines(rows: readonly Row[]): readonly string[] {
  const resolved = Math.min(...rows.map((row) => row.stages.resolved * 100));
  return [
    '"Bare" is Langium on the same grammar and tokens, with its default scopes and no validation: it resolves',
    `${resolved.toFixed(0)} % of the references and checks nothing.`,
    '',
    'Checking a boat: cold as a new process, the rest in a warm one',
    grid(checking, rows),
    '',
    'Typing: from a change of the text to its diagnostics, through a language server as a process (bare: until it has linked).',
    'The first edits after the start, while the engine still compiles, are shown by themselves and counted in no other column.',
    grid(typing, rows),
    '',
  ];
}

export function grid<T>(columns: readonly Column<T>[], rows: readonly T[]): string {
  const lines = [
    columns.map((column) => column.title),
    ...rows.map((row) => columns.map((column) => column.of(row))),
  ];
  const widths = columns.map((_, index) => Math.max(...lines.map((line) => line[index]?.length ?? 0)));
  return lines
    .map((line) => `  ${line.map((cell, index) => cell.padStart(widths[index] ?? 0)).join('  ')}`)
    .join('\n');
}

function targetLine({ text, limit, unit, atLeast, value, onCore, met }: Target): string {
  const figure = (one: number): string => (unit === 'ms' ? `${number(one)} ms` : ratio(one));
  const mark = met === undefined ? 'not measured' : met ? 'met' : 'MISSED';
  const bound = unit === 'ms' ? `under ${limit} ms` : `${atLeast ? 'at least' : 'at most'} ${ratio(limit)}`;
  const got = value === undefined ? '' : `: ${figure(value)}`;
  const alone = onCore === undefined ? '' : `, ${figure(onCore)} on core`;
  return `  ${mark.padEnd(12)}  ${text}${got}${alone} (${bound})`;
}
