/** Backbones for tests, written as a list of short strings, on a boat of their own. */
import { createContext, type Context } from '../../src/checks/context.js';
import type { BusAnalysis } from '../../src/checks/buses/buses.js';
import type { BackboneItem } from '../../src/vessel/model.js';
import { backbone, boat, cable, dc, model, port, type BoatParts } from './vessel.js';
import { end } from './text.js';

/** Resistance of a light conductor, ohm per metre; from memory, 0.053 to 0.058 are printed. */
export const LIGHT_OHMS = 0.057;

const conductor = {
  protections: [],
  protectedUpstream: false,
  cranking: false,
  sheathed: false,
  wire: undefined,
  wireRatedCelsius: undefined,
  cable: undefined,
  joins: [],
  by: [],
  lengthMetres: undefined,
  label: undefined,
};

/**
 * Items of a backbone: `terminator`, `terminator in x`, `span 3`, `span a -- b`, `tap` (from `supply.out`), `isolate`, `ground`,
 * `capped`, `x drop 2` and `box drop 1 { y 2, z }`.
 */
function items(name: string, texts: readonly string[]): readonly BackboneItem[] {
  return texts.map((text, index): BackboneItem => {
    const origin = `backbone ${name}/${text} ${index}`;
    const words = text.split(' ');
    switch (words[0]) {
      case 'terminator':
        return { kind: 'terminator', origin, in: words[2] };
      case 'isolate':
        return { kind: 'isolate', origin };
      case 'ground':
        return { kind: 'ground', origin };
      case 'tap':
        return { kind: 'tap', origin, from: end(words[1] ?? 'supply.out'), zone: undefined, conductor };
      case 'span': {
        const between = words[2] === '--' ? ([words[1] ?? '', words[3] ?? ''] as const) : undefined;
        const lengthMetres = between === undefined && words[1] !== undefined ? Number(words[1]) : undefined;
        return { kind: 'span', origin, lengthMetres, between, cable: undefined };
      }
      default: {
        const [, who = '', drop, branches = ''] =
          /^(\S+)(?: drop ([\d.]+))?(?: \{ (.*) \})?$/u.exec(text) ?? [];
        return {
          kind: 'tee',
          origin,
          end: who === 'capped' ? undefined : end(who),
          dropMetres: drop === undefined ? undefined : Number(drop),
          cable: undefined,
          zone: undefined,
          branches: (branches === '' ? [] : branches.split(', ')).map((one) => {
            const [device = '', length] = one.split(' ');
            return { end: end(device), lengthMetres: length === undefined ? undefined : Number(length) };
          }),
        };
      }
    }
  });
}

/** A boat with one backbone; devices are made of `units`: their load units by name. */
export function busBoat(
  texts: readonly string[],
  units: Readonly<Record<string, number | undefined>>,
  {
    ohmsPerMetre = LIGHT_OHMS,
    more = {},
  }: { readonly ohmsPerMetre?: number; readonly more?: BoatParts } = {},
): { readonly context: Context; readonly bus: BusAnalysis } {
  const devices = Object.entries(units);
  const vessel = boat({
    ...more,
    models: [
      model('Supply', 'converter', { ports: [dc('out', 'out', { outVolts: 12 })] }),
      model('Box', 'teebox', { teePorts: 4 }),
      ...devices.map(([name, len]) =>
        model(`Model_${name}`, 'instrument', { ports: [port('n2k', 'nmea2000', { len })] }),
      ),
      ...(more.models ?? []),
    ],
    cables: [
      cable('Trunk', 'nmea2000', { ohmsPerMetre, carriesAmps: 3, longestMetres: 100 }),
      ...(more.cables ?? []),
    ],
    devices: {
      supply: 'Supply',
      ...Object.fromEntries(devices.map(([name]) => [name, `Model_${name}`])),
      ...more.devices,
    },
    backbones: [backbone('nav', items('nav', texts), { cable: 'Trunk' })],
  });
  const context = createContext(vessel);
  const [bus] = context.buses;
  if (bus === undefined) throw new Error('no backbone');
  return { context, bus };
}
