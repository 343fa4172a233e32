/** The figures of drawing as text for a terminal. */
import { core, count, grid, ms, ratio, type Column } from '../table.js';
import { ratioOf } from '../targets.js';
import type { DrawingRow } from './measure.js';
import type { PreviewRow } from './preview.js';

const drawing: readonly Column<DrawingRow>[] = [
  { title: 'devices', of: (row) => count(row.devices) },
  { title: 'sheets', of: (row) => count(row.sheets) },
  { title: 'text to SVG', of: (row) => ms(row.whole) },
  { title: 'drawing', of: (row) => ms(row.drawing) },
  { title: 'boxes', of: (row) => count(row.boxes) },
  { title: 'wires', of: (row) => count(row.wires) },
  { title: 'crossings', of: (row) => row.crossings.toFixed(2) },
  { title: 'bends', of: (row) => row.bends.toFixed(2) },
  { title: 'detour', of: (row) => row.detour.toFixed(2) },
  { title: 'network sheet', of: (row) => ms(row.network) },
  { title: 'dot', of: (row) => ms(row.dot) },
  { title: 'ratio', of: (row) => ratio(ratioOf(row.network, row.dot).clock) },
];

export function drawingLines(rows: readonly DrawingRow[]): readonly string[] {
  return [
    'Drawing: every sheet from text to SVG, warm; then the network sheet alone beside Graphviz dot (WebAssembly) on its graph, with crossings and bends to a wire.',
    grid(drawing, rows),
    '',
  ];
}

const preview: readonly Column<PreviewRow>[] = [
  { title: 'devices', of: (row) => count(row.devices) },
  { title: 'edit to sheet', of: (row) => ms(row.update) },
  { title: 'longest hover', of: (row) => ms(row.held) },
  { title: 'on core', of: (row) => core(row.held) },
  { title: 'answer, kB', of: (row) => count(row.kilobytes) },
];

export function previewLines(rows: readonly PreviewRow[]): readonly string[] {
  return [
    'The drawing beside the text: from the diagnostics of an edit to its sheet, 250 ms of which nobody types; and the longest that',
    'a hover takes while she is drawn; "on core" is what the main thread of the server ran meanwhile.',
    grid(preview, rows),
    '',
  ];
}
