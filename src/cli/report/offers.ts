/** Options for the owner: what each costs and meets, and in which parts they differ. */
import { priceDifference, priceOf } from '../../checks/parts/price.js';
import type { Block } from '../../documents/report/report.js';
import { sideBySide } from '../../documents/schedules/offers.js';
import type { VesselReport } from '../../language/project/report.js';
import { compareText, count, number } from '../../vessel/words.js';

const BASE = 'as she is';

export function offerBlocks(base: VesselReport, options: readonly VesselReport[]): readonly Block[] {
  const offers = [base, ...options];
  return [summary(base, offers), ...partBlocks(offers)];
}

function summary(base: VesselReport, offers: readonly VesselReport[]): Block {
  return {
    kind: 'table',
    columns: [
      { title: 'Offer' },
      { title: 'What it is' },
      { title: 'Price', numeric: true },
      { title: 'Against as she is' },
      { title: 'Needs met', numeric: true },
      { title: 'Errors', numeric: true },
    ],
    rows: offers.map(({ option, options, analysis, counts }) => [
      option ?? BASE,
      options.find(({ name }) => name === option)?.title ?? '',
      totalsOf(analysis.parts()),
      option === base.option ? '' : priceDifference(analysis.parts(), base.analysis.parts()) || 'the same',
      `${analysis.needs.filter(({ met }) => met === true).length} of ${analysis.needs.length}`,
      number(counts.error),
    ]),
  };
}

const totalsOf = (parts: Parameters<typeof priceOf>[0]): string =>
  priceOf(parts)
    .totals.map(({ currency, amount }) => `${number(amount)} ${currency}`)
    .join(' and ') || 'no prices';

/** Only what differs: the rest is in the parts list. */
function partBlocks(offers: readonly VesselReport[]): readonly Block[] {
  const all = sideBySide(
    offers.map(({ option, analysis }) => ({ name: option ?? BASE, parts: analysis.parts() })),
  );
  const rows = all.filter(({ quantities }) => new Set(quantities).size > 1);
  const prices = offers.map(({ analysis }) => priceOf(analysis.parts()));
  const currencies = [
    ...new Set(prices.flatMap(({ totals }) => totals.map(({ currency }) => currency))),
  ].sort(compareText);
  const same = all.length - rows.length;
  return [
    { kind: 'heading', text: 'Parts to buy, side by side' },
    {
      kind: 'table',
      columns: [
        { title: 'Part' },
        { title: 'What it is' },
        { title: 'Part no.' },
        { title: 'm', numeric: true },
        ...offers.map(({ option }) => ({ title: option ?? BASE, numeric: true })),
      ],
      rows: [
        ...rows.map(({ model, title, part, lengthMetres, quantities }) => [
          model,
          title ?? '',
          part ?? '',
          lengthMetres === undefined ? '' : number(lengthMetres),
          ...quantities.map((quantity) => (quantity === 0 ? '' : number(quantity))),
        ]),
        ...currencies.map((currency) => [
          `Total ${currency}`,
          '',
          '',
          '',
          ...prices.map(({ totals }) => number(totals.find((one) => one.currency === currency)?.amount ?? 0)),
        ]),
        ...(prices.some(({ unpriced }) => unpriced > 0)
          ? [['Without a price', '', '', '', ...prices.map(({ unpriced }) => number(unpriced))]]
          : []),
      ],
    },
    {
      kind: 'text',
      text: `${same === 0 ? 'No line is' : count(same, 'line')}${same === 0 ? '' : same === 1 ? ' is' : ' are'} the same in each, and stand${same === 1 ? 's' : ''} in the parts list alone.`,
    },
  ];
}
