import type { PartLine } from '../../checks/analysis.js';
import { priceOf } from '../../checks/parts/price.js';
import { count, number } from '../../vessel/words.js';
import type { ListKind } from './listing.js';

export const PARTS: ListKind = {
  what: 'parts',
  summary: 'what is aboard or has to be bought, with prices where they are stated',
  columns: [
    {
      field: 'kind',
      title: 'Kind',
      type: 'string',
      values: ['device', 'cable', 'joint'],
      text: 'What it is.',
    },
    { field: 'model', title: 'Model', type: 'string', text: 'Its model or cable.' },
    {
      field: 'title',
      title: 'Title',
      type: 'string',
      ifNull: '',
      text: "The model's title; null where it has none.",
    },
    {
      field: 'part',
      title: 'Part no.',
      type: 'string',
      ifNull: '',
      text: "The maker's part number; null where none is stated.",
    },
    {
      field: 'lengthMetres',
      title: 'Length m',
      type: 'number',
      ifNull: '',
      text: 'The length of a piece of cable; null for anything else.',
    },
    {
      field: 'quantity',
      title: 'Quantity',
      type: 'number',
      text: 'How many, or how many metres of a cable cut from the reel.',
    },
    {
      field: 'unitPrice',
      title: 'Each',
      type: 'number',
      ifNull: '',
      text: 'The price of one, in `currency`; null where none is stated.',
    },
    {
      field: 'totalPrice',
      title: 'Total',
      type: 'number',
      ifNull: '',
      text: 'The price of all of the line; null where none is stated.',
    },
    {
      field: 'currency',
      title: 'Currency',
      type: 'string',
      ifNull: '',
      text: 'ISO 4217 code of the price; null where there is no price.',
    },
    {
      field: 'existing',
      title: 'Aboard',
      type: 'boolean',
      text: 'Whether it is aboard already, and costs nothing.',
    },
  ],
  list: ({ analysis }) => {
    const lines = analysis.parts();
    return {
      rows: lines.map(
        ({
          kind,
          model,
          title,
          part,
          lengthMetres,
          quantity,
          unitPrice,
          totalPrice,
          currency,
          existing,
        }) => ({
          kind,
          model,
          title: title ?? null,
          part: part ?? null,
          lengthMetres: lengthMetres ?? null,
          quantity,
          unitPrice,
          totalPrice,
          currency,
          existing,
        }),
      ),
      summary: summary(lines),
    };
  },
};

/** The sum a currency, and how many lines have no price: a missing price is never nought. */
function summary(lines: readonly PartLine[]): string {
  const { totals, unpriced } = priceOf(lines);
  const total = totals.map(({ currency, amount }) => `${number(amount)} ${currency}`).join(' and ');
  return `${count(lines.length, 'line')}, ${total === '' ? 'no prices' : `together ${total}`}; ${unpriced} without a price.`;
}
