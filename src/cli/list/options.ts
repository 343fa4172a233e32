import { priceDifference, priceOf } from '../../checks/parts/price.js';
import type { VesselReport } from '../../language/project/report.js';
import { count, number } from '../../vessel/words.js';
import type { ListKind, Row } from './listing.js';

export const OPTIONS: ListKind = {
  what: 'options',
  summary: 'the vessel as it is and with each of its options, side by side: price, needs, errors',
  variants: true,
  columns: [
    {
      field: 'option',
      title: 'Option',
      type: 'string',
      ifNull: 'none',
      text: 'The option; null for the vessel without any.',
    },
    {
      field: 'title',
      title: 'Title',
      type: 'string',
      ifNull: '',
      text: 'Its title; null where it has none.',
    },
    {
      field: 'totals',
      title: 'Total',
      type: 'strings',
      text: 'What the priced parts come to, each currency by itself.',
    },
    {
      field: 'difference',
      title: 'Against the base',
      type: 'string',
      ifNull: '',
      text: 'How much more or less that is; null for the vessel without any.',
    },
    {
      field: 'unpriced',
      title: 'No price',
      type: 'number',
      text: 'Lines of the parts list without a price; nothing is known of what they cost.',
    },
    { field: 'needsMet', title: 'Met', type: 'number', text: 'Needs that are met.' },
    { field: 'needsNotMet', title: 'Not met', type: 'number', text: 'Needs that are not.' },
    { field: 'needsUnknown', title: 'Unknown', type: 'number', text: 'Needs that cannot be judged.' },
    { field: 'errors', title: 'Errors', type: 'number', text: 'Errors that are not waived.' },
  ],
  list: (vessel, _placeOf, variants) => {
    const all = [vessel, ...variants.filter((one) => one !== vessel)];
    return { rows: all.map((one) => rowOf(one, vessel)), summary: `${count(all.length - 1, 'option')}.` };
  },
};

function rowOf({ option, options, analysis, counts }: VesselReport, base: VesselReport): Row {
  const parts = analysis.parts();
  const { totals, unpriced } = priceOf(parts);
  const having = (met: boolean | null): number => analysis.needs.filter((need) => need.met === met).length;
  return {
    option,
    title: options.find(({ name }) => name === option)?.title ?? null,
    totals: totals.map(({ currency, amount }) => `${number(amount)} ${currency}`),
    difference: option === null ? null : priceDifference(parts, base.analysis.parts()) || null,
    unpriced,
    needsMet: having(true),
    needsNotMet: having(false),
    needsUnknown: having(null),
    errors: counts.error,
  };
}
