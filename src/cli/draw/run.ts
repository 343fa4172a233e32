import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { drawSet, driftOf } from '../../documents/draw.js';
import { DRAWING_FORMATS, filesOf, USUAL_DPI, type HeavyWriters } from '../../documents/formats/files.js';
import { PAPERS, type PaperName } from '../../documents/frame/paper.js';
import { placesText } from '../../documents/places.js';
import { SHEET_KINDS, type KeptPlaces, type SheetKind } from '../../documents/sheet.js';
import { count } from '../../vessel/words.js';
import { writeAll } from '../files/outputs.js';
import { putFile, systemMessage } from '../files/write.js';
import { open } from '../project.js';
import { countOption, dateOption, quoted } from '../terminal/arguments.js';
import type { Invocation } from '../terminal/command.js';
import { displayPath } from '../terminal/paths.js';
import { printable } from '../terminal/printable.js';
import { STATUS, UsageError, type Status, type World } from '../terminal/world.js';
import { readPlaces } from '../places.js';
import { revisionOf } from '../revision.js';
import { onlyVessel, warnOfErrors } from '../vessel.js';
import { fontsOf } from './fonts.js';

/** Everything is drawn before the first file is written, so that a fault leaves the folder as it was. */
export async function runDraw(invocation: Invocation, world: World): Promise<Status> {
  const [file = ''] = invocation.arguments;
  const out = invocation.value('out');
  if (out === undefined || out === '')
    throw new UsageError('draw needs --out DIR: the folder for the drawings.');
  const format = DRAWING_FORMATS.find((one) => one === invocation.value('format')) ?? 'svg';
  const dpi = dpiOf(invocation.value('dpi'));
  const date = invocation.value('date');
  const kind = SHEET_KINDS.find((one) => one === invocation.value('sheet'));
  const drawn = {
    paper: PAPERS.find((one) => one === invocation.value('paper')) ?? ('A3' satisfies PaperName),
    sheets: kind === undefined ? undefined : ([kind] satisfies SheetKind[]),
    date: date === undefined ? undefined : dateOption('date', date),
    version: `wireloft ${world.version}`,
  };
  const anew = invocation.flag('anew');
  const placesFile = invocation.value('places');
  if (anew && placesFile === undefined)
    throw new UsageError(
      '--anew needs --places FILE: without it, boxes are laid out from nothing every time.',
    );
  const { report, unreadable, shared } = await open([file], invocation, world, 'none');
  if (unreadable.length > 0) return STATUS.usage;
  const vessel = onlyVessel(report.vessels, file, world);
  const source = displayPath(vessel.file, world.folder);
  const path = placesFile === undefined ? undefined : resolve(world.folder, placesFile);
  const kept =
    placesFile === undefined || path === undefined ? undefined : await readPlaces(path, placesFile);
  const standing = anew ? undefined : kept;
  const { sheets, places } = drawSet(vessel.analysis, {
    places: standing,
    ...drawn,
    revision: await revisionOf(invocation, vessel, shared, world),
    file: source.slice(source.lastIndexOf('/') + 1),
  });
  if (sheets.length === 0) {
    world.error.write(
      `wireloft: ${printable(vessel.name)} has nothing to draw on ${kind === undefined ? 'any sheet' : `a ${kind} sheet`}.\n`,
    );
    return STATUS.clean;
  }
  const facts = { vessel: vessel.name, version: drawn.version, date: drawn.date, dpi };
  const load = async (): Promise<HeavyWriters> => ({
    ...(await world.writers.load()),
    fonts: await fontsOf(world),
  });
  const scenes = sheets.map(({ scene }) => scene);
  await writeAll(await filesOf(scenes, format, facts, load), out, world);
  if (path !== undefined) await writePlaces(path, { ...kept, ...places }, world);
  world.error.write(`${count(sheets.length, 'sheet')} of ${printable(vessel.name)} drawn.\n`);
  for (const { diagram, sheets: now, anew: fewer } of driftOf(vessel.analysis, {
    ...drawn,
    places: standing,
  }))
    world.error.write(
      `wireloft: the ${diagram} diagram takes ${count(now, 'sheet')} with its boxes where they stand, and ${fewer} laid out anew: --anew does that.\n`,
    );
  warnOfErrors(vessel, file, world);
  return STATUS.clean;
}

async function writePlaces(path: string, places: KeptPlaces, world: World): Promise<void> {
  try {
    await putFile(path, placesText(places));
  } catch (error) {
    const reason = systemMessage(error);
    if (reason === undefined) throw error;
    throw new UsageError(
      `--places ${quoted(displayPath(pathToFileURL(path).href, world.folder))} cannot be written: ${reason}.`,
    );
  }
}

function dpiOf(text: string | undefined): number {
  if (text === undefined) return USUAL_DPI;
  const dpi = countOption('dpi', text);
  if (dpi < 36 || dpi > 1200) throw new UsageError(`--dpi is from 36 to 1200, not ${quoted(text)}.`);
  return dpi;
}
