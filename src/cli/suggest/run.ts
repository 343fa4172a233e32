import { readFileSync } from 'node:fs';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { foundOf, search, type Found } from '../../checks/design/search.js';
import { moneyText, totalOf } from '../../checks/design/prices.js';
import type { VesselReport } from '../../language/project/report.js';
import { endText } from '../../checks/wiring/wiring.js';
import type { Vessel } from '../../vessel/model.js';
import { compareText, listOf } from '../../vessel/words.js';
import { replaceFile, systemMessage } from '../files/write.js';
import { layOut } from '../format/layout.js';
import { open, type Opened } from '../project.js';
import { quoted } from '../terminal/arguments.js';
import { paintFor, type ColourChoice } from '../terminal/colours.js';
import type { Invocation } from '../terminal/command.js';
import { displayPath } from '../terminal/paths.js';
import { printable } from '../terminal/printable.js';
import { startProgress } from '../terminal/progress.js';
import { STATUS, UsageError, type Status, type World } from '../terminal/world.js';
import { onlyVessel } from '../vessel.js';
import { suggestJson } from './json.js';
import { searchInThread, type SearchTask } from './thread.js';
import { suggestText } from './text.js';

const BEST = 3;
const MOST = 20;
const SECOND = 1000;

export async function runSuggest(invocation: Invocation, world: World): Promise<Status> {
  const [file = ''] = invocation.arguments;
  const best = wholeNumber('best', invocation, MOST) ?? BEST;
  const apply = wholeNumber('apply', invocation, MOST);
  const { report, unreadable, shared } = await open([file], invocation, world);
  if (unreadable.length > 0) return STATUS.usage;
  const chosen = onlyVessel(report.vessels, file, world);
  const { vessel } = chosen.analysis;
  const keep = keepOf(invocation.value('keep'), vessel);
  const today = shared.analysis.Analyses.today();
  const found = await look({ vessel, today, best: Math.max(best, apply ?? 0), keep }, world);
  const colour = (invocation.value('color') ?? 'auto') as ColourChoice;
  const paint = paintFor(colour, world.out, world.environment);
  world.out.write(
    invocation.value('format') === 'json'
      ? suggestJson(vessel, found)
      : suggestText(vessel, found, best, paint),
  );
  if (found.stopped) {
    if (apply !== undefined) world.error.write('wireloft: stopped, so nothing is written into the spec.\n');
    return STATUS.interrupted;
  }
  if (found.offers.length === 0) return STATUS.findings;
  return apply === undefined
    ? STATUS.clean
    : applied(chosen, found, apply, { report, shared }, world, invocation);
}

/** Searches, in a thread where there can be one, and shows how far it is. */
async function look(task: Omit<SearchTask, 'stop'>, world: World): Promise<Found> {
  const start = Date.now();
  let designs = 0;
  const text = (): string => {
    const seconds = Math.round((Date.now() - start) / SECOND);
    const stop = world.interrupted === undefined ? '' : '; Ctrl-C stops and shows what was found';
    return `Looking for the cheapest design ... ${designs} found${seconds > 0 ? `, ${seconds} s${stop}` : ''}`;
  };
  const progress = startProgress(world.error, text());
  const clock = setInterval(() => {
    progress.show(text());
  }, SECOND);
  try {
    const { worker, interrupted } = world;
    if (worker === undefined || interrupted === undefined)
      return search(task.vessel, await world.solver(), {
        ...task,
        progress: () => {
          designs += 1;
          progress.show(text());
        },
      });
    const searched = await searchInThread(
      task,
      worker,
      (count) => {
        designs = count;
        progress.show(text());
      },
      interrupted,
    );
    return foundOf(task.vessel, task, searched);
  } finally {
    clearInterval(clock);
    progress.clear();
  }
}

function wholeNumber(name: string, invocation: Invocation, most: number): number | undefined {
  const text = invocation.value(name);
  if (text === undefined) return undefined;
  const value = Number(text);
  if (!Number.isInteger(value) || value < 1 || value > most)
    throw new UsageError(`--${name} ${quoted(text)} is no whole number from 1 to ${most}.`);
  return value;
}

function keepOf(text: string | undefined, vessel: Vessel): { devices: Set<string>; links: Set<string> } {
  const devices = new Set<string>();
  const links = new Set<string>();
  const names = (text ?? '').split(',').map((name) => name.trim());
  for (const name of names.filter((one) => one !== '')) {
    const ends = name.split('--').map((end) => end.trim());
    if (ends.length === 2) {
      const wanted = [...ends].sort(compareText).join('\n');
      const match = vessel.links.filter(({ a, b }) =>
        [
          [endText(a), endText(b)],
          [a.device ?? '', b.device ?? ''],
        ].some((pair) => [...pair].sort(compareText).join('\n') === wanted),
      );
      if (match.length === 0)
        throw new UsageError(`--keep: no link joins ${ends[0] ?? ''} and ${ends[1] ?? ''}.`);
      for (const link of match) links.add(link.origin);
    } else if (vessel.devices.some((device) => device.name === name)) devices.add(name);
    else
      throw new UsageError(
        `--keep: there is no device ${quoted(name)}. A link is written as two names, as in hub--plotter.`,
      );
  }
  return { devices, links };
}

/** Writes a design into its files, and takes it back if the boat then is not what was offered. */
async function applied(
  chosen: VesselReport,
  found: Found,
  rank: number,
  { report, shared }: Pick<Opened, 'report' | 'shared'>,
  world: World,
  invocation: Invocation,
): Promise<Status> {
  const offer = found.offers[rank - 1];
  if (offer === undefined)
    throw new UsageError(
      `--apply ${rank}: there ${found.offers.length === 1 ? 'is' : 'are'} only ${found.offers.length}.`,
    );
  if (offer.asItIs) {
    world.error.write('wireloft: this is the boat as it is written; nothing to change.\n');
    return STATUS.clean;
  }
  const [{ designEdits }, { carryOut }] = await Promise.all([
    import('../../language/analysis/designEdits.js'),
    import('../../language/analysis/carryOut.js'),
  ]);
  const analysed = shared.analysis.Analyses.of(chosen.file);
  if (analysed === undefined) throw new Error(`${chosen.file} has no analysis`);
  const edits = designEdits(offer.design, analysed.analysis.vessel, analysed.places);
  const before = new Map<string, string>();
  const after = new Map<string, string>();
  for (const uri of new Set(edits.map(({ place }) => place.file))) {
    const path = fileURLToPath(uri);
    const text = readFileSync(path, 'utf8');
    before.set(path, text);
    if (text.replace(/^\uFEFF/, '') !== report.text(uri))
      throw new UsageError(`${displayPath(uri, world.folder)} has changed since it was read; run it again.`);
    const changed = carryOut(
      text,
      edits.filter(({ place }) => place.file === uri),
    );
    // A file that was laid out stays so.
    const laidOut = layOut(text);
    after.set(path, laidOut.text === text ? layOut(changed).text : changed);
  }
  try {
    for (const [path, text] of after) await replaceFile(path, text);
  } catch (error) {
    await restore(before);
    const reason = systemMessage(error);
    if (reason === undefined) throw error;
    world.error.write(`wireloft: the design cannot be written: ${reason}.\n`);
    return STATUS.usage;
  }
  const again = await open([fileURLToPath(chosen.file)], invocation, world);
  const made = again.report.vessels.find(({ file, option }) => file === chosen.file && option === null);
  const cost = made === undefined ? undefined : totalOf(made.analysis.vessel, made.analysis.parts());
  if (cost === undefined || Math.abs(cost - offer.cost) > 0.01) {
    await restore(before);
    throw new Error(
      `the design of rank ${rank} comes out at ${cost === undefined ? 'no boat' : moneyText(cost, undefined)} when written; the spec is as it was`,
    );
  }
  const names = [...after.keys()].map((path) => displayPath(pathToFileURL(path).href, world.folder));
  world.error.write(`wireloft: design ${rank} is written into ${printable(listOf(names))}.\n`);
  return STATUS.clean;
}

async function restore(before: ReadonlyMap<string, string>): Promise<void> {
  for (const [path, text] of before) await replaceFile(path, text);
}
