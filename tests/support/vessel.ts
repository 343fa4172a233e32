/**
 * A terse way to write down a vessel for tests of the checks, without the language. Connections are short strings:
 * `'a.net -- b.1 using Patch by gunwale length 7'`, `'panel.1 -> plotter, hub'`, needs `'plotter show live without hub'`.
 */
import type {
  Backbone,
  BackboneItem,
  Cable,
  DcPort,
  Device,
  Grade,
  Medium,
  Model,
  Need,
  Port,
  SerialPort,
  Signal,
  SignalRate,
  Vessel,
  Waiver,
} from '../../src/vessel/model.js';
import { device, end, feed, link, need, run, SIGNALS, view, zone } from './text.js';

export { tap } from './text.js';

export interface BoatParts {
  readonly models?: readonly Model[];
  readonly cables?: readonly Cable[];
  /** `'helm sheltered'` */
  readonly zones?: readonly string[];
  /** `'helm -- cabin 2'`, `'gunwale : bow -- transom 8 conduit 32 loom'` */
  readonly runs?: readonly string[];
  /** `plotter: 'Tern13 @ helm'`, `second: 'Tern8 or Tern13 @ helm back cabin existing'` */
  readonly devices?: Readonly<Record<string, string | Device>>;
  readonly links?: readonly string[];
  readonly feeds?: readonly string[];
  readonly backbones?: readonly Backbone[];
  readonly needs?: readonly (string | Need)[];
  /** `'Drift on plotter left: chart over radar right: sternSonar.side'` */
  readonly views?: readonly string[];
  readonly waivers?: readonly Waiver[];
  readonly slack?: number;
  readonly more?: Partial<Vessel>;
}

/** A vessel of its parts. */
export function boat(parts: BoatParts): Vessel {
  const devices = Object.entries(parts.devices ?? {}).map(([name, text]) =>
    typeof text === 'string' ? device(name, text) : text,
  );
  const names = new Set(devices.map((one) => one.name));
  const seen = new Map<string, number>();
  const claim = (origin: string): string => {
    const times = (seen.get(origin) ?? 0) + 1;
    seen.set(origin, times);
    return times === 1 ? origin : `${origin} (${times})`;
  };
  const views = (parts.views ?? []).map((text) => view(text, names));
  return {
    origin: 'vessel Test',
    name: 'Test',
    title: undefined,
    practice: undefined,
    currency: undefined,
    slackMetres: parts.slack,
    wiringCelsius: undefined,
    hull: undefined,
    aisTargets: undefined,
    labour: undefined,
    owner: undefined,
    yard: undefined,
    drawingNumber: undefined,
    revision: undefined,
    status: undefined,
    zones: (parts.zones ?? []).map(zone),
    runs: (parts.runs ?? []).map(run),
    devices,
    links: (parts.links ?? []).map((text) => ({ ...link(text), origin: claim(link(text).origin) })),
    feeds: (parts.feeds ?? []).map((text) => ({ ...feed(text), origin: claim(feed(text).origin) })),
    backbones: parts.backbones ?? [],
    needs: (parts.needs ?? []).map((one) => (typeof one === 'string' ? need(one, names) : one)),
    modes: [],
    days: [],
    views,
    negatives: [],
    preferences: [],
    waivers: parts.waivers ?? [],
    models: Object.fromEntries((parts.models ?? []).map((one) => [one.name, one])),
    cables: Object.fromEntries((parts.cables ?? []).map((one) => [one.name, one])),
    families: {},
    signals: Object.fromEntries(
      SIGNALS.map(([name, pgn, sentence]): [string, Signal] => [
        name,
        { name, title: undefined, pgn, hertz: undefined, sentence },
      ]),
    ),
    fuseTypes: {},
    usedByOptions: [],
    option: undefined,
    absent: [],
    ...parts.more,
  };
}

const NO_MODEL: Omit<Model, 'name' | 'class' | 'origin'> = {
  title: undefined,
  part: undefined,
  price: undefined,
  note: undefined,
  families: [],
  ports: [],
  shows: [],
  shares: [],
  bridges: [],
  wants: [],
  gives: [],
  passes: [],
  bandsHertz: [],
  takesWatts: undefined,
  ingress: [],
  screenMetres: undefined,
  compassMetres: undefined,
  ignitionProtected: false,
  poeTotalWatts: undefined,
  carriesAmps: undefined,
  crankingAmps: undefined,
  volts: undefined,
  chargesVolts: undefined,
  lowestVolts: undefined,
  sagsVolts: undefined,
  capacity: undefined,
  chemistry: undefined,
  peukert: undefined,
  depth: undefined,
  ccaAmps: undefined,
  resistanceOhms: undefined,
  shortCircuitAmps: undefined,
  positions: [],
  closesVolts: undefined,
  opensVolts: undefined,
  forwardVolts: undefined,
  efficiency: undefined,
  peakWatts: undefined,
  kind: undefined,
  automatic: false,
  dsc: false,
  maxDrop: undefined,
  lengthMetres: undefined,
  teePorts: undefined,
  odMetres: undefined,
  sealed: false,
  lossDecibels: undefined,
  beamDegrees: undefined,
};

/** A model of a class. Its origin says that it is declared in a catalogue unless told otherwise. */
export function model(name: string, kind: Model['class'], facts: Partial<Model> = {}): Model {
  return { ...NO_MODEL, origin: `catalogue model ${name}`, name, class: kind, ...facts };
}

/** A port of its own group. */
export function port(name: string, medium: Medium, facts: Partial<Port> = {}): Port {
  return {
    name,
    medium,
    ownPlug: undefined,
    group: name,
    sealed: false,
    accepts: undefined,
    outputWatts: undefined,
    direction: undefined,
    len: undefined,
    terminates: false,
    sends: [],
    serial: undefined,
    dc: undefined,
    poe: undefined,
    captive: undefined,
    withPower: false,
    powered: false,
    service: undefined,
    ...facts,
  };
}

/** Ports `1..count` that stand for each other. */
export function range(count: number, medium: Medium, facts: Partial<Port> = {}): readonly Port[] {
  return Array.from({ length: count }, (_, index) =>
    port(String(index + 1), medium, { group: `1..${count}`, ...facts }),
  );
}

/** A dc port with a direction, or both ways. */
export function dc(name: string, direction?: 'in' | 'out', facts: Partial<DcPort> = {}): Port {
  return port(name, 'dc', {
    dc: {
      direction,
      inVolts: undefined,
      outVolts: undefined,
      draws: undefined,
      max: undefined,
      standby: undefined,
      fuseAmps: undefined,
      holds: [],
      limitsAmps: undefined,
      isolated: false,
      cranks: undefined,
      cutoutVolts: undefined,
      studs: undefined,
      ...facts,
    },
  });
}

/** An NMEA 0183 port that talks, listens or does both. */
export function serial(name: string, says: 'talks' | 'listens' | 'both'): Port {
  const side: SerialPort = {
    talksBaud: says === 'listens' ? undefined : 4800,
    listensBaud: says === 'talks' ? undefined : 4800,
    signalling: undefined,
    isolated: false,
    drives: undefined,
    loadAmps: undefined,
  };
  return port(name, 'nmea0183', { serial: side });
}

/** Signals as `'sonar.side hd'`. */
export function signals(...texts: readonly string[]): readonly SignalRate[] {
  return texts.map((text) => {
    const [signal = '', grade] = text.split(' ');
    return {
      signal,
      grade: grade === 'hd' || grade === 'standard' ? (grade satisfies Grade) : undefined,
      hertz: undefined,
    };
  });
}

/** A cable. */
export function cable(name: string, medium: Medium, facts: Partial<Cable> = {}): Cable {
  return {
    origin: `catalogue cable ${name}`,
    name,
    medium,
    ownPlug: undefined,
    title: undefined,
    part: undefined,
    note: undefined,
    sealed: false,
    odMetres: undefined,
    headMetres: undefined,
    stock: [],
    pricePerMetre: undefined,
    ohmsPerMetre: undefined,
    carriesAmps: undefined,
    longestMetres: undefined,
    loss: [],
    size: undefined,
    ratedCelsius: undefined,
    sheathed: false,
    bendMetres: undefined,
    ...facts,
  };
}

/** A backbone of tees, `'gnss'`, `'capped'` or an item of its own. */
export function backbone(
  name: string,
  items: readonly (string | BackboneItem)[],
  facts: Partial<Backbone> = {},
): Backbone {
  return {
    origin: `backbone ${name}`,
    name,
    cable: undefined,
    items: items.map((item): BackboneItem => {
      if (typeof item !== 'string') return item;
      return {
        kind: 'tee',
        origin: `backbone ${name}/tee ${item}`,
        end: item === 'capped' ? undefined : end(item),
        dropMetres: undefined,
        cable: undefined,
        zone: undefined,
        branches: [],
      };
    }),
    ...facts,
  };
}

/** A waiver of a rule on an element. */
export function waiver(on: string, rule: string, until?: string): Waiver {
  return { origin: `${on}/allow ${rule}`, on, rule, reason: 'bench test', until };
}
