/**
 * Units and dimensions. Values are compared in SI; what was written is kept beside for the reader.
 *
 * Factors: SI Brochure (BIPM, 9th edition) for prefixes; the international inch, foot and nautical mile are exact
 * (ISO 80000-3); the degree Celsius is kept as such, since only differences to tables in degrees Celsius are taken.
 */

/** What a quantity measures. `number` is a bare number; `money` is told apart by currency. */
export type Dimension =
  | 'length'
  | 'area'
  | 'time'
  | 'frequency'
  | 'voltage'
  | 'current'
  | 'power'
  | 'resistance'
  | 'charge'
  | 'ratio'
  | 'loss'
  | 'temperature'
  | 'angle'
  | 'speed'
  | 'gauge'
  | 'money'
  | 'number';

export interface Unit {
  readonly symbol: string;
  readonly dimension: Dimension;
  /** Multiplies a value to give SI (ampere-seconds stay ampere-hours, ratios 0..1, degrees Celsius and degrees as they are). */
  readonly factor: number;
  /** The unit's name, for hovers and completions. */
  readonly name: string;
}

const table: readonly (readonly [symbol: string, dimension: Dimension, factor: number, name: string])[] = [
  ['m', 'length', 1, 'metre'],
  ['mm', 'length', 1e-3, 'millimetre'],
  ['cm', 'length', 1e-2, 'centimetre'],
  ['km', 'length', 1e3, 'kilometre'],
  ['in', 'length', 0.0254, 'inch'],
  ['ft', 'length', 0.3048, 'foot'],
  ['mm2', 'area', 1e-6, 'square millimetre, a conductor size'],
  ['s', 'time', 1, 'second'],
  ['ms', 'time', 1e-3, 'millisecond'],
  ['min', 'time', 60, 'minute'],
  ['h', 'time', 3600, 'hour'],
  ['d', 'time', 86400, 'day'],
  ['Hz', 'frequency', 1, 'hertz'],
  ['kHz', 'frequency', 1e3, 'kilohertz'],
  ['MHz', 'frequency', 1e6, 'megahertz'],
  ['GHz', 'frequency', 1e9, 'gigahertz'],
  ['V', 'voltage', 1, 'volt'],
  ['mV', 'voltage', 1e-3, 'millivolt'],
  ['kV', 'voltage', 1e3, 'kilovolt'],
  ['A', 'current', 1, 'ampere'],
  ['mA', 'current', 1e-3, 'milliampere'],
  ['kA', 'current', 1e3, 'kiloampere'],
  ['W', 'power', 1, 'watt'],
  ['mW', 'power', 1e-3, 'milliwatt'],
  ['kW', 'power', 1e3, 'kilowatt'],
  ['ohm', 'resistance', 1, 'ohm'],
  ['mohm', 'resistance', 1e-3, 'milliohm'],
  ['kohm', 'resistance', 1e3, 'kilohm'],
  ['Ah', 'charge', 1, 'ampere-hour'],
  ['mAh', 'charge', 1e-3, 'milliampere-hour'],
  ['%', 'ratio', 0.01, 'percent'],
  ['dB', 'loss', 1, 'decibel'],
  ['C', 'temperature', 1, 'degree Celsius'],
  ['deg', 'angle', 1, 'degree of arc'],
  ['kn', 'speed', 1852 / 3600, 'knot'],
  ['AWG', 'gauge', 1, 'American wire gauge (ASTM B258), a conductor size'],
];

export const UNITS: ReadonlyMap<string, Unit> = new Map(
  table.map(([symbol, dimension, factor, name]) => [symbol, { symbol, dimension, factor, name }]),
);

/** ISO 4217 codes of the currencies that marine trade quotes in; any three capitals are taken as a code. */
export const CURRENCIES = [
  'USD',
  'EUR',
  'GBP',
  'AUD',
  'NZD',
  'CAD',
  'SEK',
  'NOK',
  'DKK',
  'CHF',
  'JPY',
  'SGD',
  'ZAR',
  'BRL',
  'MXN',
  'PLN',
  'TRY',
  'THB',
  'CNY',
  'INR',
  'AED',
] as const;

export const isCurrency = (symbol: string): boolean => (CURRENCIES as readonly string[]).includes(symbol);

/** The dimension a unit's symbol stands for; undefined for one that is no unit. */
export function dimensionOf(symbol: string): Dimension | undefined {
  return UNITS.get(symbol)?.dimension ?? (isCurrency(symbol) ? 'money' : undefined);
}

/** What a message calls a dimension: "a length", "a current". */
export const DIMENSION_NAMES: Readonly<Record<Dimension, string>> = {
  length: 'a length',
  area: 'a conductor size',
  time: 'a time',
  frequency: 'a frequency',
  voltage: 'a voltage',
  current: 'a current',
  power: 'a power',
  resistance: 'a resistance',
  charge: 'a battery capacity',
  ratio: 'a percentage',
  loss: 'a loss',
  temperature: 'a temperature',
  angle: 'an angle',
  speed: 'a speed',
  gauge: 'a conductor size',
  money: 'a price',
  number: 'a bare number',
};

/** A unit to write where one is missing: "2 m". */
export const USUAL_UNIT: Readonly<Record<Dimension, string>> = {
  length: 'm',
  area: 'mm2',
  time: 'h',
  frequency: 'Hz',
  voltage: 'V',
  current: 'A',
  power: 'W',
  resistance: 'mohm',
  charge: 'Ah',
  ratio: '%',
  loss: 'dB',
  temperature: 'C',
  angle: 'deg',
  speed: 'kn',
  gauge: 'AWG',
  money: 'USD',
  number: '',
};

/**
 * Bounds, in SI, outside which no boat has such a value (common practice; each is an order of magnitude beyond what is sold).
 * Zero is let through where a spec may mean it.
 */
export const SANE: Readonly<Record<Dimension, { readonly low: number; readonly high: number }>> = {
  length: { low: 0, high: 2_000 },
  area: { low: 1e-8, high: 1e-3 },
  time: { low: 0, high: 366 * 86400 },
  frequency: { low: 0, high: 100e9 },
  voltage: { low: 0, high: 1_000 },
  current: { low: 0, high: 50_000 },
  power: { low: 0, high: 1e6 },
  resistance: { low: 0, high: 1e7 },
  charge: { low: 0, high: 100_000 },
  ratio: { low: 0, high: 1 },
  loss: { low: 0, high: 200 },
  temperature: { low: -60, high: 300 },
  angle: { low: 0, high: 360 },
  speed: { low: 0, high: 60 },
  gauge: { low: 0, high: 40 },
  money: { low: 0, high: 1e8 },
  number: { low: 0, high: 1e6 },
};

/** Symbols of the units of a dimension, in the table's order. */
export function unitsOf(dimension: Dimension): string[] {
  if (dimension === 'money') return [...CURRENCIES];
  if (dimension === 'gauge' || dimension === 'area') return ['AWG', 'mm2'];
  return table.filter((row) => row[1] === dimension).map((row) => row[0]);
}

/** A value in SI. NaN where the symbol is no unit. */
export function toSi(value: number, symbol: string): number {
  const unit = UNITS.get(symbol);
  if (unit) return value * unit.factor;
  return isCurrency(symbol) ? value : NaN;
}

/** `7.5 m`, `0.35 A`: at most `digits` decimals and no trailing zeros. */
export function inUnit(si: number, symbol: string, digits = 2): string {
  const unit = UNITS.get(symbol);
  const value = unit ? si / unit.factor : si;
  return `${Number(value.toFixed(digits))} ${symbol}`;
}

/** Conductor sizes that are sold: AWG (ASTM B258) and metric (IEC 60228). */
export const AWG_SIZES = [
  '22',
  '20',
  '18',
  '16',
  '14',
  '12',
  '10',
  '8',
  '6',
  '4',
  '3',
  '2',
  '1',
  '1/0',
  '2/0',
  '3/0',
  '4/0',
] as const;
export const METRIC_SIZES = [
  '0.5',
  '0.75',
  '1',
  '1.5',
  '2.5',
  '4',
  '6',
  '10',
  '16',
  '25',
  '35',
  '50',
  '70',
  '95',
  '120',
  '150',
] as const;
