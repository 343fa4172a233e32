/** What things cost, in the currency of a vessel, work included where the spec states a rate. */
import type { Cable, Model, Money, Vessel } from '../../vessel/model.js';
import type { PartLine } from '../analysis.js';
import { compareText, count, listOf } from '../../vessel/words.js';
import { choosePieces } from '../cables/stock.js';
import { priceOf } from '../parts/price.js';

const SECONDS_AN_HOUR = 3600;

export interface Prices {
  /** Undefined where the model has no price, or one in another currency. */
  readonly ofModel: (model: Model) => number | undefined;
  /** Of a cable that is to reach so far; undefined where none of its lengths does, or it has no price. */
  readonly ofCable: (cable: Cable, metres: number) => number | undefined;
  readonly mounting: number;
  /** Making up both ends of a cable. */
  readonly ends: number;
}

/**
 * The currency that a boat is reckoned in: her own, else the one that most of her gear is priced in. What is priced in another
 * has no price here: two currencies are never added.
 */
export function currencyOf({ currency, devices, models, cables }: Vessel): string | undefined {
  if (currency !== undefined) return currency;
  const aboard = devices.flatMap((device) => models[device.models[0] ?? '']?.price?.currency ?? []);
  const sold = [
    ...Object.values(models).map(({ price }) => price),
    ...Object.values(cables).flatMap(({ stock, pricePerMetre }) => [
      pricePerMetre,
      ...stock.map(({ price }) => price),
    ]),
  ].flatMap((price) => price?.currency ?? []);
  const counts = new Map<string, number>();
  for (const one of aboard.length > 0 ? aboard : sold) counts.set(one, (counts.get(one) ?? 0) + 1);
  return [...counts].sort(([a, m], [b, n]) => n - m || compareText(a, b))[0]?.[0];
}

/** An amount with its currency, without noughts behind the point. */
export function moneyText(amount: number, currency: string | undefined): string {
  const figure = amount.toFixed(2).replace(/\.00$/, '');
  return currency === undefined ? figure : `${figure} ${currency}`;
}

export function pricesOf(vessel: Vessel): Prices {
  const { labour } = vessel;
  const currency = currencyOf(vessel);
  const amountOf = (price: Money | undefined): number | undefined =>
    price === undefined || price.currency !== currency ? undefined : price.amount;
  const rate = labour === undefined ? 0 : (amountOf(labour.perHour) ?? 0);
  return {
    ofModel: (model) => amountOf(model.price),
    ofCable: (cable, metres) => {
      if (cable.stock.length === 0) {
        const metre = amountOf(cable.pricePerMetre);
        return metre === undefined ? undefined : metre * metres;
      }
      const pieces = choosePieces(
        cable.stock.map((one) => one.lengthMetres),
        metres,
      );
      const prices = pieces.map((length) =>
        amountOf(cable.stock.find((one) => one.lengthMetres === length)?.price),
      );
      return pieces.length === 0 ? undefined : sumOf(prices);
    },
    mounting: (rate * (labour?.deviceSeconds ?? 0)) / SECONDS_AN_HOUR,
    ends: (2 * rate * (labour?.endSeconds ?? 0)) / SECONDS_AN_HOUR,
  };
}

/** The price of a boat: its parts as the parts list has them, and the work on what is not aboard already. What has no price counts nought. */
export function totalOf(vessel: Vessel, parts: readonly PartLine[]): number {
  const prices = pricesOf(vessel);
  const currency = currencyOf(vessel);
  const goods = parts
    .filter((line) => line.currency === currency)
    .reduce((sum, line) => sum + (line.totalPrice ?? 0), 0);
  const mounted = vessel.devices.filter((device) => !device.existing && !device.leaving).length;
  const made = vessel.links.filter((link) => !link.existing).length;
  return goods + mounted * prices.mounting + made * prices.ends;
}

/**
 * What a boat costs, each currency by itself, with what has no price: "2770 USD and 2 parts without a price"; nothing where no price is
 * known.
 */
export function priceText(vessel: Vessel, parts: readonly PartLine[]): string {
  const { totals, unpriced } = priceOf(parts);
  if (totals.length === 0) return '';
  const sums = totals.map(({ currency }) => moneyText(totalOf({ ...vessel, currency }, parts), currency));
  return listOf([...sums, ...(unpriced > 0 ? [`${count(unpriced, 'part')} without a price`] : [])]);
}

function sumOf(amounts: readonly (number | undefined)[]): number | undefined {
  return amounts.reduce<number | undefined>(
    (sum, amount) => (sum === undefined || amount === undefined ? undefined : sum + amount),
    0,
  );
}
