/** Numbers with a unit: ratings of fuses, conductor sizes, rates of NMEA 0183, and the units that fit. */
import {
  AWG_SIZES,
  dimensionOf,
  METRIC_SIZES,
  UNITS,
  SANE,
  toSi,
  unitsOf,
  USUAL_UNIT,
  type Dimension,
} from '../../../../vessel/units.js';
import { number } from '../../../../vessel/words.js';
import { BREAKERS } from '../../../../checks/power/protection/ratings.js';
import { expectedIn } from '../../../typing/expect.js';
import { BAUD_RATES } from '../../../typing/words.js';
import { GOVERNED } from '../../governed.js';
import type { Boat } from '../boat.js';
import { joined } from '../details.js';
import { asNode, around, heldAs, type Place } from '../place.js';
import { partOf, partsOf, textOf } from '../reading/parts.js';
import { kinds, type Suggestion } from '../suggestion.js';
import { documented, type Offer } from './offer.js';

// ---------------------------------------------------------------- units

/** Units of the dimension that is wanted, as far as the value is one that a boat has in them. */
export const units: Offer = (place, boat) => {
  const owner = place.owners[0];
  if (!owner) return [];
  const node = asNode(place.owners.map(({ part }) => part));
  const wants = expectedIn(node, owner.property ?? '')?.wants ?? [];
  // `in` is a keyword of its own, and stands where a length alone is meant.
  const symbols = wants.flatMap((dimension) =>
    usualFirst(dimension).filter((symbol) => symbol !== 'in' && isSane(place, symbol, dimension)),
  );
  return ordered(symbols, boat).map((symbol) => unitItem(symbol));
};

function isSane({ part }: Place, symbol: string, dimension: Dimension): boolean {
  const { low, high } = SANE[dimension];
  return ['value', 'low', 'high'].every((property) => {
    const text = textOf(part, property);
    const si = toSi(Number(text ?? low), symbol);
    return text === undefined || (si >= low && si <= high);
  });
}

function usualFirst(dimension: Dimension): string[] {
  const usual = USUAL_UNIT[dimension];
  const symbols = unitsOf(dimension);
  return symbols.includes(usual) ? [usual, ...symbols.filter((symbol) => symbol !== usual)] : symbols;
}

/** The keyword that is the inch. */
export const inch: Offer = () => [{ ...unitItem('in'), rank: 1 }];

function unitItem(symbol: string): Suggestion {
  const unit = UNITS.get(symbol);
  return {
    label: symbol,
    kind: kinds.unit,
    detail: unit?.name ?? (dimensionOf(symbol) === 'money' ? 'currency (ISO 4217)' : 'unit'),
  };
}

/** The vessel's own currency first. */
function ordered(symbols: readonly string[], boat: Boat): readonly string[] {
  const own = boat.analysis?.vessel.currency;
  return own !== undefined && symbols.includes(own) ? [own, ...symbols.filter((s) => s !== own)] : symbols;
}

/** After `per`: of a length, or of an hour. */
export const perUnits: Offer = ({ part }) => {
  const dimension: Dimension = part.type === 'LabourProperty' ? 'time' : 'length';
  const symbols = dimension === 'time' ? ['h'] : ['m', 'km', 'ft'];
  return symbols.map(unitItem);
};

// ---------------------------------------------------------------- conductors

/** The size that is worked out for the feed at the cursor; then those that are sold, those of the vessel's practice first. */
export const sizes: Offer = (place, boat) => {
  const isMetric = boat.analysis?.vessel.practice === 'iso';
  const awg = AWG_SIZES.map((size) =>
    sizeItem(`${size} AWG`, 'American wire gauge (ASTM B258)', isMetric ? 1 : 0),
  );
  const metric = METRIC_SIZES.map((size) =>
    sizeItem(`${size} mm2`, 'metric size (IEC 60228)', isMetric ? 0 : 1),
  );
  return [...(around(place, 'FeedDecl', 'TapItem') ? workedOutSizes(boat) : []), ...awg, ...metric];
};

function workedOutSizes(boat: Boat): Suggestion[] {
  const found = boat.legsHere().find(({ wire }) => wire.computed && wire.size !== undefined)?.wire;
  if (found?.size === undefined) return [];
  const by = found.governedBy === undefined ? '' : `: decided by ${GOVERNED[found.governedBy]}`;
  return [sizeItem(found.size, `worked out${by}`, -1)];
}

const sizeItem = (label: string, detail: string, rank: number): Suggestion => ({
  label,
  kind: kinds.value,
  detail,
  rank,
});

/** The unit of a size that is written already. */
export const sizeUnits: Offer = ({ part }) => {
  const size = textOf(part, 'value') ?? '';
  const isSold = (list: readonly string[]): boolean => list.includes(size);
  return [
    { ...unitItem('AWG'), rank: isSold(AWG_SIZES) ? 0 : 1 },
    { ...unitItem('mm2'), rank: isSold(METRIC_SIZES) ? 0 : 1 },
  ];
};

// ---------------------------------------------------------------- fuses

/** Values of quantities are the writer's own, but for the ratings that fuses are sold in. */
export const figures: Offer = (place, boat) => {
  switch (heldAs(place)) {
    case 'Protection.amps':
      return ratings(place, boat);
    default:
      return [];
  }
};

function ratings(place: Place, boat: Boat): Suggestion[] {
  const protection = around(place, 'Protection');
  const type = protection && textOf(place.whole(protection), 'type');
  const held = holderOf(place, boat);
  const stated = statedAmps(place, boat);
  const types = boat
    .fuseTypes()
    .filter((fuse) =>
      type ? fuse.type.name === type : held.types.length === 0 || held.types.includes(fuse.type.name),
    );
  const fits = (amps: number): boolean => amps <= (held.maxAmps ?? Infinity) && amps <= (stated ?? Infinity);
  const byAmps = new Map<number, string[]>();
  if (isBreaker(place)) for (const amps of BREAKERS) if (fits(amps)) byAmps.set(amps, []);
  for (const fuse of isBreaker(place) ? [] : types)
    for (const amps of fuse.type.ratingsAmps)
      if (fits(amps)) byAmps.set(amps, [...(byAmps.get(amps) ?? []), fuse.type.name]);
  const usual = [...byAmps]
    .sort(([a], [b]) => a - b)
    .map(([amps, names]) => ({
      label: `${number(amps)} A`,
      kind: kinds.value,
      detail: `${isBreaker(place) ? 'a usual rating' : names.join(', ')}${amps === stated ? '; what the device states' : ''}`,
      rank: amps === stated ? 0 : 1,
    }));
  return [...workedOutRatings(boat, isBreaker(place)), ...usual];
}

/** What is worked out for a fuse or breaker whose rating is left out, with the type that suits. A feed that is half written has a fuse. */
function workedOutRatings(boat: Boat, breaker: boolean): Suggestion[] {
  return boat.legsHere().flatMap(({ protection }) =>
    protection.flatMap(({ computed, amps, type }) =>
      computed && amps !== undefined && (!breaker || BREAKERS.includes(amps))
        ? [
            {
              label: `${number(amps)} A`,
              kind: kinds.value,
              detail: `worked out${type === undefined || breaker ? '' : `: ${type}`}`,
              rank: -1,
            },
          ]
        : [],
    ),
  );
}

const isBreaker = (place: Place): boolean => around(place, 'ProtectionClause')?.first?.text === 'breaker';

/** What the way that a feed begins at takes. */
function holderOf(
  place: Place,
  boat: Boat,
): { readonly types: readonly string[]; readonly maxAmps: number | undefined } {
  const feed = around(place, 'FeedDecl', 'TapItem');
  const from = feed && partOf(feed, 'from');
  const port = boat
    .device(from && textOf(from, 'device'))
    ?.model?.ports.find((candidate) => candidate.name === (from && textOf(from, 'port')));
  const max = port?.dc?.max;
  return {
    types: isBreaker(place) ? [] : (port?.dc?.holds ?? []),
    maxAmps: max?.unit === 'A' ? max.amount : undefined,
  };
}

/** The fuse that the only device on a feed states. */
function statedAmps(place: Place, boat: Boat): number | undefined {
  const feed = around(place, 'FeedDecl');
  const ends = feed ? partsOf(feed, 'to') : [];
  const [end] = ends;
  if (ends.length !== 1 || !end) return undefined;
  const ports = boat.device(textOf(end, 'device'))?.model?.ports ?? [];
  const name = textOf(end, 'port');
  const stated = ports
    .filter((port) => name === undefined || port.name === name)
    .flatMap((port) => port.dc?.fuseAmps ?? []);
  return stated.length === 1 ? stated[0] : undefined;
}

/** Fuse types, those that are sold in the rating that is written. */
export const fuseTypes: Offer = (place, boat) => {
  if (isBreaker(place)) return [];
  const amps = partOf(place.part, 'amps');
  const rating = amps && textOf(amps, 'unit') === 'A' ? Number(textOf(amps, 'value')) : undefined;
  const held = place.part.type === 'Protection' ? holderOf(place, boat).types : [];
  return boat
    .fuseTypes()
    .filter(({ type }) => held.length === 0 || held.includes(type.name))
    .map(({ node, type }) => {
      const isSold = rating === undefined || type.ratingsAmps.includes(rating);
      const range = `${number(type.ratingsAmps[0] ?? 0)} A to ${number(type.ratingsAmps.at(-1) ?? 0)} A`;
      return {
        label: type.name,
        kind: kinds.word,
        detail: joined(node.title, range, !isSold && 'not sold in this rating'),
        ...documented(node),
        rank: isSold ? 0 : 1,
      };
    });
};

// ---------------------------------------------------------------- bare numbers

export const baudRates: Offer = () =>
  BAUD_RATES.map((rate) => ({ label: String(rate), kind: kinds.value, detail: 'bit/s' }));

export const poeClasses: Offer = () =>
  Array.from({ length: 9 }, (_, n) => ({
    label: String(n),
    kind: kinds.value,
    detail: `class ${n} (IEEE 802.3)`,
  }));
