/** Random small vessels, legal in their ports, with mistakes of the kind that verdicts are about. */
import fc from 'fast-check';
import type { Model, Port, Vessel } from '../../src/vessel/model.js';
import { CABLES, MODELS } from './fleet.js';
import { backbone, boat, model, port, serial, signals } from './vessel.js';

const MORE: readonly Model[] = [
  model('Mute', 'display', {
    families: ['Tern'],
    ports: [port('net', 'ethernet'), port('sonar', 'transducer', { accepts: 'hd' }), port('n2k', 'nmea2000')],
    shows: ['chart', 'sonar'],
    bridges: [],
  }),
  model('ChartOnly', 'display', {
    families: ['Tern'],
    ports: [port('net', 'ethernet'), port('n2k', 'nmea2000'), serial('listen', 'listens')],
    shows: ['chart'],
    shares: ['chart'],
  }),
  model('Server', 'camera', {
    ports: [port('p', 'ethernet'), port('q', 'ethernet')],
    gives: signals('video'),
  }),
  model('Vague', 'display', {
    families: ['Tern'],
    ports: [port('net', 'ethernet'), port('sonar', 'transducer')],
    shows: ['sonar', 'video'],
    shares: ['sonar'],
  }),
];

/** Models in the proportions of ordinary boats, so that much is joined to much. */
const KINDS: readonly string[] = [
  'Tern13',
  'Tern13',
  'Tern8',
  'Tern8',
  'Tern7',
  'Skua9',
  'Switch5',
  'Switch5',
  'BeamHd',
  'BeamHd',
  'BeamStd',
  'LiveBox',
  'LiveHead',
  'Radar18',
  'Camera2',
  'Gnss10',
  'OldLog',
  'Mux',
  'Mute',
  'ChartOnly',
  'Server',
  'Vague',
];

/** The choices that a boat is built of. */
export interface Recipe {
  readonly kinds: readonly string[];
  readonly joins: readonly { readonly first: number; readonly second: number; readonly kind: number }[];
  readonly onBus: readonly number[];
  readonly mistakes: boolean;
}

export const recipes: fc.Arbitrary<Recipe> = fc.record({
  kinds: fc.array(fc.constantFrom(...KINDS), { minLength: 4, maxLength: 14 }),
  joins: fc.array(fc.record({ first: fc.nat(500), second: fc.nat(500), kind: fc.nat(99) }), {
    minLength: 3,
    maxLength: 18,
  }),
  onBus: fc.array(fc.nat(2), { minLength: 14, maxLength: 14 }),
  mistakes: fc.boolean(),
});

/** A boat with what is needed to build on it. */
export interface RandomBoat {
  readonly vessel: Vessel;
  /** Links that could still be added: free ports that go together. */
  readonly addable: readonly string[];
}

interface Spot {
  readonly device: string;
  readonly port: Port;
}

const ALL = new Map([...MODELS, ...MORE].map((one) => [one.name, one]));

/** Build a boat of a recipe. Names may be given a suffix, so that two boats have none in common. */
export function build(recipe: Recipe, suffix = ''): RandomBoat {
  const names = recipe.kinds.map((kind, index) => `${kind.toLowerCase()}_${String(index)}${suffix}`);
  const devices = Object.fromEntries(recipe.kinds.map((kind, index) => [names[index] ?? '', kind]));
  const spots = recipe.kinds.flatMap((kind, index): Spot[] =>
    (ALL.get(kind)?.ports ?? [])
      .filter((one) => one.medium !== 'dc' && one.medium !== 'nmea2000')
      .map((one) => ({ device: names[index] ?? '', port: one })),
  );
  const used = new Set<string>();
  const textOf = (spot: Spot): string => `${spot.device}.${spot.port.name}`;
  const links: string[] = [];
  const partners = (spot: Spot): readonly Spot[] =>
    spots.filter((one) => !used.has(textOf(one)) && fits(spot, one));
  for (const join of recipe.joins) {
    const free = spots.filter((spot) => !used.has(textOf(spot)));
    const first = free[join.first % Math.max(1, free.length)];
    if (first === undefined) break;
    if (recipe.mistakes && join.kind < 6) {
      links.push(`${textOf(first)} -- ?.1`);
      used.add(textOf(first));
      continue;
    }
    const wrong = recipe.mistakes && join.kind < 20;
    const fitting = wrong
      ? free.filter((one) => one.device !== first.device && one.port.medium !== first.port.medium)
      : partners(first);
    const second = fitting[join.second % Math.max(1, fitting.length)];
    if (second === undefined) continue;
    // A switch's port may be left out: its ports stand for each other.
    const isRange = first.port.group.includes('..') && join.kind % 2 === 0 && !wrong;
    links.push(`${isRange ? first.device : textOf(first)} -- ${textOf(second)}`);
    used.add(textOf(first));
    used.add(textOf(second));
  }
  const buses = [1, 2].map((bus) =>
    names.filter(
      (_, index) =>
        recipe.onBus[index] === bus &&
        (ALL.get(recipe.kinds[index] ?? '')?.ports.some((one) => one.medium === 'nmea2000') ?? false),
    ),
  );
  const vessel = boat({
    models: [...ALL.values()],
    cables: CABLES,
    devices,
    links,
    backbones: buses.map((on, index) => backbone(`bus${String(index)}${suffix}`, on)),
    needs: names.slice(0, 2).map((name) => `${name} show sonar`),
  });
  const addable = spots
    .filter((spot) => !used.has(textOf(spot)) && !spot.port.group.includes('..'))
    .flatMap((spot) =>
      partners(spot)
        .filter((one) => !one.port.group.includes('..'))
        .map((one) => `${textOf(spot)} -- ${textOf(one)}`),
    );
  return { vessel, addable };
}

function fits(first: Spot, second: Spot): boolean {
  const { port: p } = first;
  const { port: q } = second;
  if (first.device === second.device || p.medium !== q.medium) return false;
  if (p.medium === 'transducer')
    return (
      (p.accepts !== undefined || p.name === 'sonar') !== (q.accepts !== undefined || q.name === 'sonar')
    );
  if (p.medium === 'nmea0183')
    return (p.serial?.talksBaud !== undefined) !== (q.serial?.talksBaud !== undefined);
  return true;
}
