/** What parts come to, each currency by itself: money of two currencies is never added. */
import { compareText, number } from '../../vessel/words.js';
import type { PartLine } from '../analysis.js';

export interface Price {
  readonly totals: readonly { readonly currency: string; readonly amount: number }[];
  /** Lines that have to be bought and have no price; nothing may be concluded of what they cost. */
  readonly unpriced: number;
}

export function priceOf(lines: readonly PartLine[]): Price {
  const totals = new Map<string, number>();
  let unpriced = 0;
  for (const { existing, totalPrice, currency } of lines) {
    if (existing) continue;
    if (totalPrice === null || currency === null) unpriced++;
    else totals.set(currency, (totals.get(currency) ?? 0) + totalPrice);
  }
  return {
    totals: [...totals]
      .map(([currency, amount]) => ({ currency, amount }))
      .sort((a, b) => compareText(a.currency, b.currency)),
    unpriced,
  };
}

/** "450 USD more", "20 EUR less"; nothing where no price is known. */
export function priceDifference(lines: readonly PartLine[], base: readonly PartLine[]): string {
  const [now, before] = [priceOf(lines), priceOf(base)];
  const amountIn = ({ totals }: Price, currency: string): number =>
    totals.find((one) => one.currency === currency)?.amount ?? 0;
  const currencies = [...new Set([...now.totals, ...before.totals].map((one) => one.currency))].sort();
  return currencies
    .map((currency) => {
      const more = amountIn(now, currency) - amountIn(before, currency);
      if (Math.abs(more) < 0.005) return `same price in ${currency}`;
      return `${number(Math.abs(more))} ${currency} ${more > 0 ? 'more' : 'less'}`;
    })
    .join(', ');
}
