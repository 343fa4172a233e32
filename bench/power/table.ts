/** The figures of direct current as text for a terminal. */
import type { PowerFigures } from '../figures.js';
import { count, grid, ms, number, ratio, type Column } from '../table.js';
import { spiceRatio } from '../targets.js';
import type { PowerRow } from './measure.js';

const solving: readonly Column<PowerRow>[] = [
  { title: 'nodes', of: (row) => count(row.nodes) },
  { title: 'loads', of: (row) => count(row.loads) },
  { title: 'ours', of: (row) => ms(row.own) },
  { title: 'ngspice', of: (row) => ms(row.spice) },
  { title: 'ratio', of: (row) => ratio(spiceRatio(row)) },
  { title: 'again', of: (row) => row.again.toFixed(2) },
  { title: 'its analysis', of: (row) => number(row.spiceAnalysis) },
  { title: 'ratio', of: (row) => ratio(row.spiceAnalysis / row.again) },
  { title: 'process', of: (row) => number(row.ownProcess) },
  { title: 'its process', of: (row) => number(row.spiceProcess) },
  { title: 'ratio', of: (row) => ratio(row.spiceProcess / row.ownProcess) },
  { title: 'uV apart', of: (row) => (row.apart * 1e6).toPrecision(2) },
];

export function powerLines({ rows, analysis }: PowerFigures): readonly string[] {
  return [
    'Direct current: a network solved, from data to every voltage and current, beside ngspice 45 (WebAssembly) from deck to result;',
    '"again" with the matrix at hand, beside its analysis alone by its own clock; then each as a process that starts, solves and ends.',
    grid(solving, rows),
    `  Analysis of a boat of 200 devices, all rules: ${ms(analysis)} ms.`,
    '',
  ];
}
