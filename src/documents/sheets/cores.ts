/** For the person who crimps: which core goes from which terminal to which, two of a cable beside one another. */
import {
  backboneCores,
  joinedNegatives,
  serialCores,
  supplyCores,
  type Core,
  type SupplyCores,
} from '../cores.js';
import type { Table } from '../frame/table.js';
import { MEDIUM_LETTERS } from '../style.js';
import { sizeShown } from './captions.js';
import type { Facts } from './facts.js';
import { powerDiagram } from './power.js';

/** Supply from the batteries outwards, what begins at one device together; then serial lines and backbones. Colours by IEC 60757 codes. */
export function coreTable(facts: Facts): Table {
  const { analysis, numbering } = facts;
  const of = (origin: string): string => numbering.of(origin) ?? '';
  const supply = asDrawn(facts).flatMap(({ edge, cores }) =>
    rowsOf(of(edge.origin), [edge.conductor.cable ?? '', sizeShown(facts, edge)].join(' ').trim(), cores),
  );
  const joined = joinedNegatives(analysis).flatMap((core) => rowsOf('-', 'joins negatives', [core]));
  const runs = new Map(analysis.cables.map(({ link, cable }) => [link.origin, cable]));
  const serial = analysis.links
    .filter(({ link, medium }) => medium === 'nmea0183' && !link.existing)
    .flatMap((wired) => rowsOf(of(wired.link.origin), runs.get(wired.link.origin) ?? '', serialCores(wired)));
  const backbones = rowsOf(`each ${MEDIUM_LETTERS.nmea2000}`, 'NMEA 2000', backboneCores(analysis.vessel));
  return {
    title: 'Core table',
    note: 'joint by joint; a cable with one core is a single conductor; what is worked out stands in brackets',
    columns: [
      { title: 'Cable', share: 12.5 },
      { title: 'Conductor', share: 18 },
      { title: 'Core', share: 12.5 },
      { title: 'From', share: 27 },
      { title: 'To', share: 27 },
      { title: 'Core', share: 12.5 },
      { title: 'From', share: 27 },
      { title: 'To', share: 27 },
    ],
    rows: [...supply, ...joined, ...serial, ...backbones],
  };
}

/** Two cores a row. */
function rowsOf(cable: string, conductor: string, cores: readonly Core[]): readonly (readonly string[])[] {
  const pairs = cores
    .filter((_, index) => index % 2 === 0)
    .map((core, index) => [core, cores[2 * index + 1]]);
  return pairs.map((pair, index) => [
    ...(index === 0 ? [cable, conductor] : ['', '']),
    ...pair.flatMap((core) =>
      core === undefined ? [] : [[core.name, core.colour ?? ''].join(' ').trim(), core.from, core.to],
    ),
  ]);
}

/** As on the power sheet: from the batteries outwards, what begins at one box together, from its first port to its last. */
function asDrawn(facts: Facts): readonly SupplyCores[] {
  const drawn = powerDiagram(facts).wires.map(({ origin }) => origin);
  const placeOf = ({ edge }: SupplyCores): number => {
    const place = drawn.indexOf(edge.origin);
    return place < 0 ? drawn.length : place;
  };
  return [...supplyCores(facts.analysis)].sort((x, y) => placeOf(x) - placeOf(y));
}
