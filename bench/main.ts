/** The benchmark. `--json` prints the figures as JSON; `--sizes 50,200` measures those boats only, `--only power` one part. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { availableParallelism, cpus, loadavg, tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { generateBoat, type Boat, type Layout } from './boats/boat.js';
import type { Figures, Row } from './figures.js';
import { measureBus } from './bus/measure.js';
import { measureDesign } from './design/measure.js';
import { measureDrawing } from './drawing/measure.js';
import { measurePreview } from './drawing/preview.js';
import { measureFleet } from './fleet/measure.js';
import { measureEdits, type Rounds } from './measure/editor.js';
import { measureCheck } from './measure/process.js';
import { measureStages } from './measure/stages.js';
import { measureAnalysis } from './power/analysis.js';
import { measurePower } from './power/measure.js';
import { tableText } from './table.js';
import { targetsOf } from './targets.js';

const LAYOUTS: readonly Layout[] = ['one file', 'files of 25'];
const SIZES = [50, 200, 500, 1000, 5000];

const program = resolve('dist/cli/main.mjs');
const ownServer = resolve('dist/extension/server.cjs');
const bareServer = resolve('out/bench/bare.mjs');

/** Fewer repeats where each takes long. */
const repeats = (devices: number): { cold: number; stages: number; edits: Rounds } =>
  devices <= 200
    ? { cold: 7, stages: 15, edits: { first: 8, warm: 20 } }
    : devices <= 1000
      ? { cold: 7, stages: 11, edits: { first: 4, warm: 8 } }
      : { cold: 3, stages: 3, edits: { first: 1, warm: 3 } };

const { values } = parseArgs({
  options: { json: { type: 'boolean' }, sizes: { type: 'string' }, only: { type: 'string' } },
});
const PARTS = ['boats', 'power', 'bus', 'design', 'fleet', 'drawing', 'preview'] as const;
if (values.only !== undefined && !PARTS.some((part) => part === values.only))
  throw new Error(`--only takes one of ${PARTS.join(', ')}.`);
const wants = (part: (typeof PARTS)[number]): boolean => values.only === undefined || values.only === part;
const sizes = values.sizes === undefined ? SIZES : values.sizes.split(',').map(Number);
const boats = wants('boats')
  ? sizes.flatMap((devices) => LAYOUTS.map((layout) => generateBoat(devices, layout)))
  : [];
const load = (): number => loadavg()[0] ?? NaN;

const before = load();
const kittiwake = wants('boats') ? measureCheck(program, 'examples/kittiwake', 15) : undefined;
const rows: Row[] = [];
for (const boat of boats) {
  process.stderr.write(`Measuring ${boat.devices} devices in ${boat.layout} ...\n`);
  rows.push(await measure(boat));
}
if (wants('power')) process.stderr.write('Measuring direct current ...\n');
const power = wants('power') ? { rows: await measurePower(), analysis: await measureAnalysis() } : undefined;
const bus = wants('bus') ? await measureBus() : undefined;
if (wants('design')) process.stderr.write('Measuring designs ...\n');
const design = wants('design')
  ? await measureDesign(resolve('node_modules/highs/build/highs.wasm'))
  : undefined;
if (wants('fleet')) process.stderr.write('Measuring a fleet ...\n');
const fleet = wants('fleet') ? measureFleet(program) : undefined;
if (wants('drawing')) process.stderr.write('Measuring drawings ...\n');
const drawing = wants('drawing') ? await measureDrawing() : undefined;
if (wants('preview')) process.stderr.write('Measuring the drawing beside the text ...\n');
const preview = wants('preview') ? await measurePreview(ownServer) : undefined;
const figures: Figures = {
  machine: {
    node: process.versions.node,
    processor: cpus()[0]?.model ?? 'unknown processor',
    cores: availableParallelism(),
    load: [before, load()],
  },
  kittiwake,
  power,
  bus,
  design,
  fleet,
  drawing,
  preview,
  rows,
};
process.stdout.write(
  values.json === true
    ? `${JSON.stringify({ ...figures, targets: targetsOf(figures) }, undefined, 2)}\n`
    : tableText(figures),
);
// ngspice waits for another deck for ever.
process.exitCode = 0;
setImmediate(() => process.exit());

async function measure(boat: Boat): Promise<Row> {
  const times = repeats(boat.devices);
  const folder = mkdtempSync(join(tmpdir(), 'wireloft-bench-'));
  try {
    for (const { path, text } of boat.files) writeFileSync(join(folder, path), text);
    const stages = await measureStages(boat, times.stages);
    if (stages.errors > 0) throw new Error(`The generated boat has ${stages.errors} errors.`);
    return {
      devices: boat.devices,
      layout: boat.layout,
      files: boat.files.length,
      kilobytes: Math.round(boat.files.reduce((sum, file) => sum + file.text.length, 0) / 1000),
      cold: measureCheck(program, join(folder, boat.main.path), times.cold),
      stages,
      edits: await measureEdits(ownServer, boat, folder, times.edits),
      bareEdits: await measureEdits(bareServer, boat, folder, times.edits),
    };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
