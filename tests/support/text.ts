/** The short strings in which tests write down connections, places and needs. */
import type {
  BackboneItem,
  Conductor,
  Device,
  End,
  Exposure,
  Feed,
  Link,
  Medium,
  Need,
  Run,
  View,
  Wanted,
  Zone,
} from '../../src/vessel/model.js';

const EXPOSURES: Readonly<Record<string, Exposure>> = {
  exposed: { name: 'exposed', asks: ['IPX6', 'IPX7'], wet: true, hot: false },
  sheltered: { name: 'sheltered', asks: ['IPX4'], wet: false, hot: false },
  interior: { name: 'interior', asks: ['IP20'], wet: false, hot: false },
  machinery: { name: 'machinery', asks: ['IP22'], wet: true, hot: true },
};

/** Signals of the library that tests use, with the messages that carry them. */
export const SIGNALS: readonly (readonly [string, number?, string?])[] = [
  ['chart'],
  ['waypoints'],
  ['sonar'],
  ['sonar.side'],
  ['sonar.down'],
  ['sonar.live'],
  ['sonar.traditional'],
  ['radar'],
  ['video'],
  ['position', 129025, 'GGA'],
  ['heading', 127250, 'HDT'],
  ['depth', 128267, 'DPT'],
  ['speed', 128259, 'VHW'],
  ['wind', 130306, 'MWV'],
  ['engine', 127488, 'RPM'],
  ['switching', 127501],
];

/** An end; `?` is one that does not resolve, and `hub.?` has a port that does not. */
export function end(text: string): End {
  const [device = '', name] = text.trim().split('.');
  return {
    device: device === '?' ? undefined : device,
    port: name === '?' ? undefined : name,
    portUnresolved: name === '?',
  };
}

export function zone(text: string): Zone {
  const [name = '', exposure = ''] = text.split(' ');
  return {
    origin: `zone ${name}`,
    name,
    exposure: EXPOSURES[exposure],
    fuel: undefined,
    aftMetres: undefined,
    heightMetres: undefined,
    side: undefined,
    deck: undefined,
  };
}

export function run(text: string): Run {
  const found = /^(?:(\w+) : )?(\w+) -- (\w+)(?: ([\d.]+))?(?: conduit ([\d.]+))?( loom)?$/u.exec(text);
  if (found === null) throw new Error(`not a run: ${text}`);
  const [, name, from = '', to = '', length, bore, loom] = found;
  return {
    origin: `run ${name ?? [from, to].sort().join(' -- ')}`,
    name,
    from,
    to,
    lengthMetres: length === undefined ? undefined : Number(length),
    conduitMetres: bore === undefined ? undefined : Number(bore) / 1000,
    conduit: bore !== undefined,
    loom: loom !== undefined,
  };
}

export function device(name: string, text: string): Device {
  const found = /^([\w ?]*?)(?: @ (\w+))?(?: back (\w+))?( existing)?( leaving)?$/u.exec(text);
  if (found === null) throw new Error(`not a device: ${text}`);
  const [, models = '', at, back, existing, leaving] = found;
  return {
    origin: `device ${name}`,
    name,
    models: models === '?' ? [] : models.split(' or '),
    zone: at,
    back,
    existing: existing !== undefined,
    leaving: leaving !== undefined,
    doc: undefined,
    note: undefined,
    series: undefined,
    parallel: undefined,
    offsetMetres: undefined,
    instance: undefined,
    normally: undefined,
    syncedWith: [],
  };
}

export function link(text: string): Link {
  const [ends = '', ...rest] = text.split(/ (?=using |by |length |join )/u);
  const [a = '', b = ''] = ends.split(' -- ');
  const clause = (word: string): string | undefined =>
    rest.find((one) => one.startsWith(`${word} `))?.slice(word.length + 1);
  const length = clause('length');
  const join = clause('join')?.split(' at ');
  return {
    origin: `link ${[a.trim(), b.trim()].sort().join(' -- ')}`,
    a: end(a),
    b: end(b),
    cable: clause('using'),
    joins: join === undefined ? [] : [{ model: join[0], zone: join[1] }],
    by: clause('by')?.split(', ') ?? [],
    lengthMetres: length === undefined ? undefined : Number(length),
    label: undefined,
    existing: false,
  };
}

const NO_CONDUCTOR: Conductor = {
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

export function feed(text: string): Feed {
  const [from = '', to = ''] = text.split(' -> ');
  return {
    ...NO_CONDUCTOR,
    origin: `feed ${text}`,
    from: end(from),
    wayLabel: undefined,
    to: to.split(', ').map(end),
    existing: false,
  };
}

/** A tap of a backbone. */
export function tap(bus: string, from: string): BackboneItem {
  return {
    kind: 'tap',
    origin: `backbone ${bus}/tap ${from}`,
    from: end(from),
    zone: undefined,
    conductor: NO_CONDUCTOR,
  };
}

function wanted(text: string, devices: ReadonlySet<string>): Wanted {
  const [head = '', ...tail] = text.split('.');
  if (!devices.has(head))
    return text === '?'
      ? { device: undefined, signal: undefined, text }
      : { device: undefined, signal: text, text };
  const word = tail.join('.');
  // After a device a signal may be written without its first word.
  const full =
    word === ''
      ? undefined
      : SIGNALS.some(([name]) => name === word)
        ? word
        : SIGNALS.find(([name]) => name.endsWith(`.${word}`))?.[0];
  return { device: head, signal: full ?? (word === '' ? undefined : word), text };
}

export function need(text: string, devices: ReadonlySet<string>): Need {
  const origin = `need ${text}`;
  const show = /^(.+?) show (.+?)(?: without (.+))?$/u.exec(text);
  if (show !== null) {
    const [, screens = '', sources = '', without] = show;
    return {
      origin,
      kind: 'show',
      screens: screens.split(', '),
      wanted: sources.split(', ').map((one) => wanted(one, devices)),
      without: without?.split(', ') ?? [],
      incomplete: sources.includes('?'),
    };
  }
  const hear = /^(.+?) hear (.+)$/u.exec(text);
  if (hear !== null)
    return {
      origin,
      kind: 'hear',
      devices: (hear[1] ?? '').split(', '),
      signals: (hear[2] ?? '').split(', '),
      incomplete: false,
    };
  const spare = /^spare (\d+) (\w+)(?: on (.+))?$/u.exec(text);
  if (spare !== null) {
    return {
      origin,
      kind: 'spare',
      count: Number(spare[1]),
      medium: spare[2] as Medium,
      on: spare[3]?.split(', ') ?? [],
      incomplete: false,
    };
  }
  throw new Error(`not a need: ${text}`);
}

export function view(text: string, devices: ReadonlySet<string>): View {
  const [head = '', ...rest] = text.split(/ (?=\w+: )/u);
  const [name = '', screen = ''] = head.split(' on ');
  return {
    origin: `view ${name}`,
    name,
    screen,
    panes: rest.map((one) => {
      const [pane = '', layers = ''] = one.split(': ');
      return {
        origin: `pane ${name}/${pane}`,
        name: pane,
        layers: layers.split(' over ').map((layer) => wanted(layer, devices)),
      };
    }),
  };
}
