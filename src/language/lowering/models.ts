/** Lowers what catalogues and the library declare. */
import type {
  Cable,
  DcPort,
  DeviceClass,
  Exposure,
  Family,
  FuseType,
  Medium,
  MessageRate,
  Model,
  PoePort,
  Port,
  SerialPort,
  Signal,
  SignalRate,
} from '../../vessel/model.js';
import { CLASSES, MEDIA } from '../../vessel/model.js';
import type { Origin } from '../../vessel/origin.js';
import * as ast from '../generated/ast.js';
import { LARGEST_PORT_RANGE } from '../parsing/limits.js';
import { draw, interval, money, si, whole, wireSize } from './quantity.js';

const isClass = (name: string | undefined): name is DeviceClass =>
  (CLASSES as readonly (string | undefined)[]).includes(name);
export const isMedium = (name: string | undefined): name is Medium =>
  (MEDIA as readonly (string | undefined)[]).includes(name);

type Property = ast.ModelDecl['properties'][number];

const SEALED_BY_PORTS: ReadonlySet<DeviceClass> = new Set(['joint', 'teebox', 'antennasplitter']);

/** A model, or undefined where its class is not known. */
export function lowerModel(node: ast.ModelDecl, origin: Origin): Model | undefined {
  const name = node.class?.ref?.name;
  if (!isClass(name)) return undefined;
  const texts = new Map<string, string>();
  const words = new Map<string, string>();
  const lengths = new Map<string, ast.Quantity>();
  const quantities = new Map<string, ast.Quantity>();
  const flags = new Set<string>();
  for (const p of node.properties) {
    if (ast.isTextProperty(p)) texts.set(p.key, p.value);
    else if (ast.isWordProperty(p)) words.set(p.key, p.value);
    else if (ast.isLengthProperty(p) && p.value) lengths.set(p.key, p.value);
    else if (ast.isQuantityProperty(p) && p.value) quantities.set(p.key, p.value);
    else if (ast.isFlagProperty(p)) flags.add(p.key);
  }
  const find = <T extends Property>(is: (p: unknown) => p is T): T | undefined =>
    node.properties.find((p): p is T => is(p));
  const length = (key: string): number | undefined => si(lengths.get(key), 'length');
  const volts = (key: string): number | undefined => si(quantities.get(key), 'voltage');
  const amps = (key: string): number | undefined => si(quantities.get(key), 'current');
  const ports = node.properties.filter(ast.isPortDecl).flatMap(lowerPorts);
  const capacity = find(ast.isCapacityProperty);
  const ampHours = si(capacity?.value, 'charge');
  const hours = si(capacity?.hours, 'time');
  return {
    origin,
    name: node.name,
    class: name,
    title: texts.get('title'),
    part: texts.get('part'),
    price: money(quantities.get('price')),
    note: texts.get('note'),
    families: find(ast.isFamiliesProperty)?.families.flatMap((f) => (f.ref ? [f.ref.name] : [])) ?? [],
    ports,
    shows: signals(node, 'shows'),
    shares: signals(node, 'shares'),
    bridges:
      find(ast.isBridgesProperty)?.media.flatMap((m) => (isMedium(m.ref?.name) ? [m.ref.name] : [])) ?? [],
    wants: rates(node, 'wants'),
    gives: rates(node, 'gives'),
    passes: node.properties.filter(ast.isPassesProperty).map((p) => ({
      from: p.from.map((port) => port.$refText),
      to: p.to?.$refText ?? '',
      filter: p.filter === undefined ? undefined : { kind: p.filter, messages: [...p.messages] },
    })),
    bandsHertz: find(ast.isBandProperty)?.bands.flatMap((b) => interval(b, 'frequency') ?? []) ?? [],
    takesWatts: si(quantities.get('takes'), 'power'),
    ingress: [...(find(ast.isIngressProperty)?.codes ?? [])],
    screenMetres: length('screen'),
    compassMetres: length('compass'),
    ignitionProtected: find(ast.isIgnitionProperty) !== undefined,
    poeTotalWatts: si(find(ast.isPoeTotalProperty)?.value, 'power'),
    carriesAmps: amps('carries'),
    crankingAmps: amps('cranking'),
    volts: volts('voltage'),
    chargesVolts: volts('charges'),
    lowestVolts: volts('lowest'),
    sagsVolts: si(find(ast.isSagsProperty)?.value, 'voltage'),
    capacity:
      ampHours === undefined
        ? undefined
        : { ampHours, atHours: hours === undefined ? undefined : hours / 3600 },
    chemistry: words.get('chemistry'),
    peukert: si(quantities.get('peukert'), 'number'),
    depth: si(quantities.get('depth'), 'ratio'),
    ccaAmps: amps('cca'),
    resistanceOhms: si(find(ast.isResistanceProperty)?.value, 'resistance'),
    shortCircuitAmps: amps('shortcircuit'),
    positions:
      find(ast.isPositionsProperty)?.positions.map((p) => ({
        name: p.name,
        joins: p.joins.map((port) => port.$refText),
      })) ?? [],
    closesVolts: volts('closes'),
    opensVolts: volts('opens'),
    forwardVolts: volts('forward'),
    efficiency: si(quantities.get('efficiency'), 'ratio'),
    peakWatts: si(quantities.get('peak'), 'power'),
    kind: words.get('kind'),
    automatic: flags.has('automatic'),
    dsc: flags.has('dsc'),
    maxDrop: si(quantities.get('maxdrop'), 'ratio'),
    lengthMetres: length('length'),
    teePorts: whole(node.properties.find(ast.isCountProperty)?.value),
    odMetres: length('od'),
    // After a port the word is read as the port's; a joint is as tight as its connectors.
    sealed: flags.has('sealed') || (SEALED_BY_PORTS.has(name) && ports.some((port) => port.sealed)),
    lossDecibels: si(find(ast.isLossProperty)?.value, 'loss'),
    beamDegrees: si(quantities.get('beam'), 'angle'),
  };
}

function signals(node: ast.ModelDecl, key: 'shows' | 'shares'): string[] {
  return node.properties.flatMap((p) =>
    ast.isSignalsProperty(p) && p.key === key ? p.signals.flatMap((s) => (s.ref ? [s.ref.name] : [])) : [],
  );
}

function rates(node: ast.ModelDecl, key: 'gives' | 'wants'): SignalRate[] {
  return node.properties.flatMap((p) =>
    ast.isRatesProperty(p) && p.key === key
      ? p.items.flatMap((item) =>
          item.signal?.ref
            ? [{ signal: item.signal.ref.name, grade: item.grade, hertz: si(item.rate, 'frequency') }]
            : [],
        )
      : [],
  );
}

// ---------------------------------------------------------------- ports

/** The ports of one declaration; a range makes one each, all of one group. */
function lowerPorts(node: ast.PortDecl): Port[] {
  const medium = node.medium?.ref?.name;
  if (!isMedium(medium)) return [];
  const shared = features(node, medium);
  return node.items.flatMap((item) => {
    if (ast.isPortName(item)) return item.name ? [{ ...shared, name: item.name, group: item.name }] : [];
    const first = Number(item.first);
    const last = Number(item.last ?? item.first);
    if (!Number.isInteger(first) || !Number.isInteger(last) || last - first >= LARGEST_PORT_RANGE) return [];
    return Array.from({ length: Math.max(0, last - first + 1) }, (_, i) => ({
      ...shared,
      name: String(first + i),
      group: `${first}..${last}`,
    }));
  });
}

function features(node: ast.PortDecl, medium: Medium): Omit<Port, 'name' | 'group'> {
  const flags = new Set<string>();
  const quantities = new Map<string, ast.Quantity>();
  const counts = new Map<string, number | undefined>();
  for (const f of node.features) {
    if (ast.isPortFlag(f)) flags.add(f.key);
    else if (ast.isPortQuantity(f) && f.value) quantities.set(f.key, f.value);
    else if (ast.isPortCount(f)) counts.set(f.key, whole(f.value));
  }
  const captive = node.features.find(ast.isCaptiveFeature);
  return {
    medium,
    ownPlug: medium === 'own' ? node.plug : undefined,
    sealed: flags.has('sealed'),
    accepts: node.features.find(ast.isAcceptsFeature)?.grade,
    outputWatts: si(quantities.get('output'), 'power'),
    direction: medium === 'dc' ? undefined : directionOf(node),
    len: counts.get('len'),
    draws: medium === 'nmea2000' ? draw(quantities.get('max') ?? quantities.get('draws')) : undefined,
    terminates: flags.has('terminates'),
    sends: node.features
      .filter(ast.isSendsFeature)
      .flatMap((f) =>
        f.messages.map((m): MessageRate => ({ message: m.message, hertz: si(m.rate, 'frequency') })),
      ),
    serial: medium === 'nmea0183' ? serial(node, flags, quantities, counts) : undefined,
    dc: medium === 'dc' ? dc(node, flags, quantities, counts) : undefined,
    poe: poe(node),
    captive: captive && {
      lengthMetres: si(captive.length, 'length'),
      odMetres: si(captive.od, 'length'),
      headMetres: si(captive.head, 'length'),
    },
    withPower: node.features.some(ast.isWithPowerFeature),
    powered: flags.has('powered'),
    service: node.features.find(ast.isServiceFeature)?.service,
  };
}

function directionOf(node: ast.PortDecl): 'in' | 'out' | undefined {
  const input = node.features.some(ast.isInFeature);
  const output = node.features.some(ast.isOutFeature);
  return input === output ? undefined : input ? 'in' : 'out';
}

type Flags = ReadonlySet<string>;
type Quantities = ReadonlyMap<string, ast.Quantity>;
type Counts = ReadonlyMap<string, number | undefined>;

function serial(node: ast.PortDecl, flags: Flags, quantities: Quantities, counts: Counts): SerialPort {
  const baud = (key: 'talks' | 'listens'): number | undefined => {
    const feature = node.features.find((f): f is ast.BaudFeature => ast.isBaudFeature(f) && f.key === key);
    return feature && (whole(feature.baud) ?? 0);
  };
  return {
    talksBaud: baud('talks'),
    listensBaud: baud('listens'),
    signalling: flags.has('single') ? 'single' : flags.has('differential') ? 'differential' : undefined,
    isolated: flags.has('isolated'),
    drives: counts.get('drives'),
    loadAmps: si(quantities.get('load'), 'current'),
  };
}

function dc(node: ast.PortDecl, flags: Flags, quantities: Quantities, counts: Counts): DcPort {
  const input = node.features.find(ast.isInFeature);
  const output = node.features.find(ast.isOutFeature);
  const cranks = node.features.find(ast.isCranksFeature);
  const crankAmps = si(cranks?.value, 'current');
  return {
    direction: input && !output ? 'in' : output && !input ? (cranks ? undefined : 'out') : undefined,
    inVolts: interval(input?.volts, 'voltage'),
    outVolts: si(output?.volts, 'voltage'),
    draws: draw(quantities.get('draws')),
    max: draw(quantities.get('max')),
    standby: draw(quantities.get('standby')),
    fuseAmps: si(quantities.get('fuse'), 'current'),
    holds: node.features
      .filter(ast.isHoldsFeature)
      .flatMap((f) => f.types.flatMap((type) => type.ref?.name ?? [])),
    limitsAmps: si(quantities.get('limits'), 'current'),
    isolated: flags.has('isolated'),
    cranks: crankAmps === undefined ? undefined : { amps: crankAmps, seconds: si(cranks?.time, 'time') },
    cutoutVolts: si(quantities.get('cutout'), 'voltage'),
    studs: counts.get('studs'),
  };
}

function poe(node: ast.PortDecl): PoePort | undefined {
  const feature = node.features.find(ast.isPoeFeature);
  if (!feature) return undefined;
  return {
    role: feature.role,
    poeClass: whole(feature.poeClass),
    passiveVolts: si(feature.volts, 'voltage'),
    watts: si(feature.watts, 'power'),
  };
}

// ---------------------------------------------------------------- cables, families, the library

export function lowerCable(node: ast.CableDecl, origin: Origin): Cable | undefined {
  const medium = node.medium?.ref?.name;
  if (!isMedium(medium)) return undefined;
  const text = (key: string): string | undefined =>
    node.properties.find((p): p is ast.CableText => ast.isCableText(p) && p.key === key)?.value;
  const length = (key: string): number | undefined =>
    si(
      node.properties.find((p): p is ast.CableLength => ast.isCableLength(p) && p.key === key)?.value,
      'length',
    );
  const quantity = (key: string): ast.Quantity | undefined =>
    node.properties.find((p): p is ast.CableQuantity => ast.isCableQuantity(p) && p.key === key)?.value;
  const flag = (key: string): boolean => node.properties.some((p) => ast.isCableFlag(p) && p.key === key);
  const bulk = node.properties.find(ast.isBulkProperty);
  const resistance = node.properties.find(ast.isResistanceProperty);
  const perMetre = (unit: string | undefined): number | undefined => si(quantityOf(unit), 'length');
  const bulkLength = perMetre(bulk?.unit);
  const bulkPrice = money(bulk?.price);
  const ohms = si(resistance?.value, 'resistance');
  const ohmLength = perMetre(resistance?.per);
  return {
    origin,
    name: node.name,
    medium,
    ownPlug: medium === 'own' ? node.plug : undefined,
    title: text('title'),
    part: text('part'),
    note: text('note'),
    sealed: flag('sealed'),
    odMetres: length('od'),
    headMetres: length('head'),
    stock: node.properties
      .filter(ast.isStockProperty)
      .flatMap((p) => p.items)
      .flatMap((item) => {
        const lengthMetres = si(item.length, 'length');
        return lengthMetres === undefined ? [] : [{ lengthMetres, price: money(item.price) }];
      })
      .sort((a, b) => a.lengthMetres - b.lengthMetres),
    pricePerMetre:
      bulkPrice && bulkLength ? { ...bulkPrice, amount: bulkPrice.amount / bulkLength } : undefined,
    ohmsPerMetre: ohms !== undefined && ohmLength ? ohms / ohmLength : undefined,
    carriesAmps: si(quantity('carries'), 'current'),
    longestMetres: length('longest'),
    loss: node.properties.filter(ast.isLossProperty).flatMap((p) => {
      const decibels = si(p.value, 'loss');
      const per = si(p.per, 'length');
      const hertz = si(p.frequency, 'frequency');
      return decibels !== undefined && per && hertz !== undefined
        ? [{ decibelsPerMetre: decibels / per, hertz }]
        : [];
    }),
    size: wireSize(node.properties.find(ast.isSizeProperty)?.size),
    ratedCelsius: si(quantity('rated'), 'temperature'),
    sheathed: flag('sheathed'),
    bendMetres: length('bend'),
  };
}

/** One of a unit, such as the kilometre in "per km". */
function quantityOf(unit: string | undefined): ast.Quantity | undefined {
  return unit === undefined
    ? undefined
    : ({ $type: 'Quantity', value: '1', unit, negative: false } as ast.Quantity);
}

export const lowerFamily = (node: ast.FamilyDecl, origin: Origin): Family => ({
  origin,
  name: node.name,
  title: node.title,
});

export function lowerSignal(node: ast.SignalDecl): Signal {
  const pgn = node.properties.find(ast.isPgnProperty);
  const sentence = node.properties.find(ast.isSentenceProperty);
  return {
    name: node.name,
    title: node.title,
    pgn: whole(pgn?.pgn),
    hertz: si(pgn?.rate ?? sentence?.rate, 'frequency'),
    sentence: sentence?.sentence,
  };
}

export function lowerExposure(node: ast.ExposureDecl): Exposure {
  const flag = (key: 'wet' | 'hot'): boolean =>
    node.properties.some((p) => ast.isExposureFlag(p) && p.key === key);
  return {
    name: node.name,
    asks: node.properties.flatMap((p) => (ast.isAsksProperty(p) ? p.codes : [])),
    wet: flag('wet'),
    hot: flag('hot'),
  };
}

export function lowerFuseType(node: ast.FuseTypeDecl): FuseType {
  return {
    name: node.name,
    ratingsAmps: node.properties.flatMap((p) =>
      ast.isRatingsProperty(p) ? p.values.flatMap((v) => si(v, 'current') ?? []) : [],
    ),
    interrupts: node.properties.flatMap((p) =>
      ast.isInterruptsProperty(p)
        ? p.items.flatMap((item) => {
            const amps = si(item.amps, 'current');
            return amps === undefined ? [] : [{ amps, volts: si(item.volts, 'voltage') }];
          })
        : [],
    ),
    ratedVolts: si(node.properties.find(ast.isRatedProperty)?.value, 'voltage'),
    ignitionProtected: node.properties.some(ast.isIgnitionProperty),
  };
}
