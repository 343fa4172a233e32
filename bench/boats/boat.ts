/** Boats of any size for the benchmark and for tests: realistic groups of devices, the same text for the same seed. */
import { catalogueText } from './catalogue.js';
import { createChance } from './random.js';
import { placesText, STATION, stationText } from './station.js';

/** All devices in the vessel's file, or 25 to a fragment. */
export type Layout = 'one file' | 'files of 25';

export interface BoatFile {
  /** Relative to the boat's folder, with forward slashes. */
  readonly path: string;
  readonly text: string;
}

export interface Boat {
  readonly devices: number;
  readonly layout: Layout;
  /** The file that declares the vessel; also the first of `files`. */
  readonly main: BoatFile;
  readonly files: readonly BoatFile[];
}

/**
 * Lays out a boat. Its checks find no errors.
 * @throws RangeError if `devices` is no positive multiple of 25
 */
export function generateBoat(devices: number, layout: Layout, seed = 1): Boat {
  if (!Number.isInteger(devices) || devices < STATION || devices % STATION !== 0)
    throw new RangeError(`A boat has a multiple of ${STATION} devices, and ${devices} is none.`);
  const chance = createChance(seed);
  const numbers = Array.from({ length: devices / STATION }, (_, index) => index + 1);
  const places = numbers.map((number) => placesText(number, chance));
  const stations = numbers.map((number) => stationText(number, numbers.length, chance));
  const catalogue = { path: 'catalogue.loft', text: catalogueText() };
  const apart = layout === 'files of 25';
  const fragments = stations.map((text, index): BoatFile => ({
    path: `station-${String(index + 1).padStart(3, '0')}.loft`,
    text: `aboard Fulmar\n\nuse "catalogue.loft"\n\n${text}`,
  }));
  const main: BoatFile = {
    path: 'fulmar.loft',
    text: [
      `// A generated boat of ${devices} devices (${layout}, seed ${seed}).`,
      'use "catalogue.loft"',
      ...(apart ? fragments.map((file) => `use "${file.path}"`) : []),
      '',
      'vessel Fulmar "Survey vessel" {',
      '  practice abyc',
      '  currency USD',
      '  slack 0.5 m',
      '  wiring 105 C',
      '  hull grp',
      '}',
      '',
      ...places,
      ...modesText(numbers),
      '',
      `negative ${numbers.map((number) => `bank${number}`).join(', ')} joined`,
      `prefer position from ${numbers.map((number) => `gnss${number}`).join(', ')}`,
      `prefer heading from ${numbers.map((number) => `heading${number}`).join(', ')}`,
      '',
      ...(apart ? [] : stations),
    ].join('\n'),
  };
  return { devices, layout, main, files: [main, ...(apart ? fragments : []), catalogue] };
}

/** As many modes as a boat of any size has. */
function modesText(numbers: readonly number[]): string[] {
  const all = (what: string): string => numbers.map((number) => `${what}${number}`).join(', ');
  return [
    `mode underWay { on ${all('radar')}  on ${all('vhf')} max 5 %  on others }`,
    `mode fishing { on ${all('plotter')}, ${all('live')}, ${all('hub')}  on ${all('vhf')} max 5 % }`,
    `mode atAnchor { on ${all('hub')}, ${all('camera')} }`,
  ];
}
