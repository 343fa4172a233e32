/** Hover on who hears what: at a device, and at what a model wants and gives. */
import type { Analysis } from '../../../checks/analysis.js';
import type { DataWant } from '../../../checks/data/data.js';
import type { Supply } from '../../../checks/data/hearing.js';
import { horizonMiles } from '../../../vessel/coax.js';
import { meet } from '../../../vessel/signals.js';
import { number } from '../../../vessel/words.js';
import { escape, metres, rows } from './card.js';

/** What a device wants, and what brings it; one signal of it, or all. */
export function hearsLines(device: string, analysis: Analysis, signal?: string): string[] {
  const wants = analysis
    .data()
    .filter((want) => want.device === device && (signal === undefined || want.signal === signal));
  return titled(
    'Hears',
    wants.map((want) => `${want.signal}: ${hearsText(want)}`),
  );
}

/** What a device wants of a signal, and from whom it comes. */
function hearsText(want: DataWant): string {
  const { supplies, used, settled, wantedHertz, verdict, reason } = want;
  const wanted = wantedHertz === undefined ? '' : `, wanted at ${number(wantedHertz)} Hz`;
  if (used === undefined)
    return `${verdict === 'unknown' ? 'not known' : 'from nobody'}${wanted}: ${reason ?? 'no way is known'}`;
  const state =
    verdict === 'slow' ? ': too seldom' : verdict === 'unknown' ? `: not known, ${reason ?? ''}` : '';
  const [first, ...others] = supplies.map((supply) => `${supply.source} (${supplyText(supply)})`);
  const more =
    others.length === 0 ? '' : settled ? `, before ${others.join(', ')}` : ` or ${others.join(' or ')}`;
  return `from ${first ?? ''}${more}${wanted}${state}`;
}

/** `compass → gate → pilot, 10 Hz`. */
function supplyText({ path, hertz, atLeast }: Supply): string {
  const rate = hertz === undefined ? 'rate not said' : `${atLeast ? 'at least ' : ''}${number(hertz, 2)} Hz`;
  return path.length > 1 ? `${path.join(' → ')}, ${rate}` : rate;
}

/** Who hears what a device gives, and who wants it in vain; one signal of it, or all. */
export function heardByLines(source: string, analysis: Analysis, signal?: string): string[] {
  const wants = analysis
    .data()
    .filter(
      (want) =>
        want.device !== source &&
        want.givenBy.includes(source) &&
        (signal === undefined || meet(want.signal, signal)),
    );
  const heard: string[] = [];
  const missed: string[] = [];
  for (const want of wants) {
    const supply = want.supplies.find((one) => one.source === source);
    if (supply !== undefined) heard.push(`${want.device} ${want.signal}: ${supplyText(supply)}`);
    else if (want.used === undefined) missed.push(`${want.device} ${want.signal}: ${want.reason ?? ''}`);
  }
  return [...titled('Heard by', heard), ...titled('Wanted in vain by', missed)];
}

/** A `wants` or `gives` of a model, device by device. */
export function ratedLines(
  model: string,
  key: 'wants' | 'gives',
  signal: string,
  analysis: Analysis,
): string[] {
  const devices = analysis.vessel.devices.filter((one) => !one.leaving && one.models[0] === model);
  const told = devices.flatMap(({ name }) => {
    const lines = (key === 'wants' ? hearsLines : heardByLines)(name, analysis, signal);
    return lines.length === 0 ? [] : devices.length > 1 ? [`At ${escape(name)}:`, ...lines] : lines;
  });
  if (told.length > 0 || devices.length === 0) return told;
  return key === 'gives' ? ['Nothing aboard wants it.'] : [];
}

/** How far an antenna sees over the water from its place, where its height is said. */
export function horizonLines(device: string, analysis: Analysis): string[] {
  const found = analysis.vessel.devices.find((one) => one.name === device);
  const zone = analysis.vessel.zones.find((one) => one.name === found?.zone);
  if (zone?.heightMetres === undefined) return [];
  const height = zone.heightMetres + (found?.offsetMetres?.[2] ?? 0);
  if (height <= 0) return [];
  const miles = (other: number): string => `${number(horizonMiles(height, other), 1)} nautical miles`;
  return [
    `${metres(Number(height.toFixed(2)))} above the water: its radio horizon is ${miles(0)} off, and another antenna as high is in reach at ${miles(height)}.`,
  ];
}

const titled = (title: string, list: readonly string[]): string[] =>
  list.length === 0 ? [] : [`**${title}**`, ...rows(list.map(escape))];
