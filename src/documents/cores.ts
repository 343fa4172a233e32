/**
 * The cores of every cable that is made off by hand. What passes one pole on (a switch, a busbar) has one conductor at each terminal;
 * a device that draws or gives has both, and its negative goes back to where the positive came from (common practice, no source).
 */
import type { Analysis, WiredLink } from '../checks/analysis.js';
import type { Leg, SupplyEdge, Terminal } from '../checks/power/supply/graph.js';
import type { SizedDevice } from '../checks/power/sizing/sizing.js';
import type { DeviceClass, Vessel } from '../vessel/model.js';
import { number } from '../vessel/words.js';

/** One conductor, from a terminal to a terminal. */
export interface Core {
  /** `L+`, `L-`, `A`, `NET-S`. */
  readonly name: string;
  /** By IEC 60757; undefined where neither practice nor standard says it. */
  readonly colour: string | undefined;
  readonly from: string;
  readonly to: string;
}

/** The cores that a leg of a feed or tap has; `edge` and `leg` say of which. */
export interface SupplyCores {
  readonly edge: SupplyEdge;
  readonly leg: Leg;
  readonly cores: readonly Core[];
}

/** They pass the positive pole on, and have no negative of their own. */
const ONE_POLE: ReadonlySet<DeviceClass> = new Set([
  'batteryswitch',
  'busbar',
  'combiner',
  'chargesplitter',
  'shunt',
]);

/**
 * Colour of the negative: black or yellow (ABYC E-11, ISO 13297); yellow where alternating current is aboard, whose live conductor may be
 * black.
 */
function negativeColour({ links }: Analysis): string {
  return links.some(({ medium }) => medium === 'ac') ? 'YE' : 'BK';
}

/** Every leg that is not aboard already, from what feeds to what is fed. */
export function supplyCores(analysis: Analysis): readonly SupplyCores[] {
  const { supply } = analysis;
  const negative = negativeColour(analysis);
  /** Each has one lead for its negative, however many feed it. */
  const returned = new Set<string>();
  const legs = supply.edges
    .filter(({ feed }) => feed?.existing !== true)
    .flatMap((edge) => edge.legs.map((leg) => ({ edge, leg })));
  // The starter's cable has the engine's negative beside it, and not the alternator's.
  const cranking = legs.filter(({ edge }) => edge.conductor.cranking);
  const leads = new Map<Leg, Core>();
  for (const { edge, leg } of [...cranking, ...legs.filter(({ edge }) => !edge.conductor.cranking)]) {
    const lead = negativeOf(analysis, edge, leg);
    if (lead === undefined || returned.has(lead.of)) continue;
    if (lead.once) returned.add(lead.of);
    leads.set(leg, { name: 'L-', colour: negative, from: lead.from, to: lead.to });
  }
  return legs.map(({ edge, leg }) => {
    const lead = leads.get(leg);
    const { protection } = analysis.sizing.of(edge);
    return {
      edge,
      leg,
      cores: [
        {
          name: 'L+',
          colour: 'RD',
          from: positive(supply.terminals.get(edge.from ?? ''), edge.fromText, at(protection, 'from')),
          to: positive(supply.terminals.get(leg.to ?? ''), leg.text, at(protection, leg.index)),
        },
        ...(lead === undefined ? [] : [lead]),
      ],
    };
  });
}

interface Lead {
  readonly from: string;
  readonly to: string;
  /** Whose negative it is. */
  readonly of: string;
  /** However many conductors lead there. */
  readonly once: boolean;
}

function negativeOf(analysis: Analysis, edge: SupplyEdge, leg: Leg): Lead | undefined {
  const { terminals } = analysis.supply;
  const from = terminals.get(edge.from ?? '');
  const to = terminals.get(leg.to ?? '');
  if (from === undefined || to === undefined) return undefined;
  const one = (terminal: Terminal): boolean => terminal.kind === 'port' && ONE_POLE.has(terminal.model.class);
  const block = [from, to].find(isBlock);
  if (block !== undefined) {
    const other = block === from ? to : from;
    const source = one(other) ? banksNear(analysis, other, block === from) : negative(other);
    const own = negative(block);
    return {
      ...(block === from ? { from: own, to: source } : { from: source, to: own }),
      of: own,
      once: true,
    };
  }
  if (one(from) && one(to)) return undefined;
  if (one(from))
    return isBattery(to)
      ? undefined
      : { from: banksNear(analysis, from, false), to: negative(to), of: to.id, once: true };
  if (one(to))
    return isBattery(from)
      ? undefined
      : { from: negative(from), to: banksNear(analysis, to, true), of: from.id, once: true };
  return { from: negative(from), to: negative(to), of: `${from.id} ${to.id}`, once: false };
}

const isBattery = (terminal: Terminal): boolean =>
  terminal.kind === 'port' && terminal.model.class === 'battery';

/** A starter or an alternator: its return is the engine itself. */
function isBlock(terminal: Terminal): boolean {
  if (terminal.kind !== 'port' || terminal.model.class !== 'engine') return false;
  const { dc } = terminal.port;
  return dc?.cranks !== undefined || dc?.direction === 'out';
}

/** The terminal of the positive, and the fuse that stands there. */
function positive(terminal: Terminal | undefined, text: string, fuse: string): string {
  const place =
    terminal === undefined
      ? text
      : terminal.kind === 'bus'
        ? `${terminal.id}, NET-S`
        : terminal.model.class === 'battery'
          ? `${terminal.device}, + post`
          : terminal.id;
  return fuse === '' ? place : `${place}, ${fuse}`;
}

function negative(terminal: Terminal): string {
  if (terminal.kind === 'bus') return `${terminal.id}, NET-C`;
  const { device, model, id } = terminal;
  if (model.class === 'battery') return `${device}, - post`;
  if (model.class === 'panel') return `${device}, - bar`;
  return isBlock(terminal) ? `${device}, engine negative` : id;
}

/** A fuse or breaker with a holder of its own at an end. */
function at(protection: readonly SizedDevice[], end: 'from' | number): string {
  return protection
    .filter(({ device }) => device.end === end && !device.inWay)
    .map(({ device, computed }) => {
      const amps = device.amps === undefined ? '? A' : `${number(device.amps, 1)} A`;
      return `${device.protection.device} ${computed ? `(${amps})` : amps}`;
    })
    .join(', ');
}

/** The negative of the batteries that are nearest, against the current or along it. */
function banksNear({ supply }: Analysis, start: Terminal, along: boolean): string {
  const seen = new Set<string>();
  let devices = start.kind === 'port' ? [start.device] : [];
  while (devices.length > 0) {
    const next = new Set<string>();
    const banks = new Set<string>();
    for (const device of devices) {
      seen.add(device);
      for (const edge of supply.edges) {
        const ends = edge.legs.map(({ to }) => to);
        const [here, there] = along ? [[edge.from], ends] : [ends, [edge.from]];
        if (!here.some((id) => deviceAt(supply.terminals.get(id ?? '')) === device)) continue;
        for (const id of there) {
          const found = supply.terminals.get(id ?? '');
          const name = deviceAt(found);
          if (found === undefined || name === undefined || seen.has(name)) continue;
          if (isBattery(found)) banks.add(name);
          else next.add(name);
        }
      }
    }
    const [first] = banks;
    if (first !== undefined) return banks.size === 1 ? `${first}, - post` : 'common negative';
    devices = [...next];
  }
  return 'common negative';
}

const deviceAt = (terminal: Terminal | undefined): string | undefined =>
  terminal?.kind === 'port' ? terminal.device : undefined;

/** Negatives that the spec says are joined: a lead from the first battery to the others, unless all are aboard already. */
export function joinedNegatives(analysis: Analysis): readonly Core[] {
  const { devices, negatives } = analysis.vessel;
  const aboard = new Set(devices.flatMap(({ existing, name }) => (existing ? [name] : [])));
  return negatives.flatMap(({ banks, joined }): Core[] => {
    const [first, ...others] = banks;
    if (!joined || first === undefined) return [];
    const led = aboard.has(first) ? others.filter((name) => !aboard.has(name)) : others;
    return led.map((other) => ({
      name: 'L-',
      colour: negativeColour(analysis),
      from: `${first}, - post`,
      to: `${other}, - post`,
    }));
  });
}

/** Both conductors of a serial line (NMEA 0183: A and B), from what talks. */
export function serialCores({ a, b }: WiredLink): readonly Core[] {
  const [from, to] = a?.port.serial?.talksBaud === undefined ? [b, a] : [a, b];
  const single = from?.port.serial?.signalling === 'single';
  const text = (end: typeof a): string =>
    end === undefined ? 'not settled' : `${end.device}.${end.port.name}`;
  return [
    {
      name: 'A',
      colour: undefined,
      from: `${text(from)}, ${single ? 'data out' : 'A out'}`,
      to: `${text(to)}, A in`,
    },
    {
      name: 'B',
      colour: undefined,
      from: `${text(from)}, ${single ? 'ground' : 'B out'}`,
      to: `${text(to)}, B in`,
    },
  ];
}

/** Pins of a plug on NMEA 2000 cable, one to one (NMEA 2000 micro and mini plugs, colours as there; from memory). */
const NMEA_2000: readonly (readonly [pin: number, name: string, colour: string | undefined])[] = [
  [2, 'NET-S', 'RD'],
  [3, 'NET-C', 'BK'],
  [4, 'NET-H', 'WH'],
  [5, 'NET-L', 'BU'],
  [1, 'drain', undefined],
];

/** The cores of backbones and drops, where any of their cables comes without plugs. */
export function backboneCores({ backbones, cables }: Vessel): readonly Core[] {
  const named = backbones.flatMap(({ cable, items }) => [
    cable,
    ...items.map((item) => (item.kind === 'span' || item.kind === 'tee' ? item.cable : undefined)),
  ]);
  if (!named.some((name) => name !== undefined && cables[name]?.stock.length === 0)) return [];
  return NMEA_2000.map(([pin, name, colour]) => ({ name, colour, from: `pin ${pin}`, to: `pin ${pin}` }));
}
