/** Whether a boat stays under a price. */
import type { Need, Vessel } from '../../vessel/model.js';
import { count, listOf, number } from '../../vessel/words.js';
import type { NeedResult, PartLine } from '../analysis.js';
import { totalOf } from '../design/prices.js';
import { priceOf } from '../parts/price.js';

/** The parts list, and the work where the spec has a rate for it, against the most that they may cost. */
export function judgeCost(
  { under }: Need & { readonly kind: 'cost' },
  vessel: Vessel,
  parts: readonly PartLine[],
): Pick<NeedResult, 'met' | 'reason'> {
  if (under === undefined) return { met: null, reason: 'it does not say under which amount' };
  const { totals, unpriced } = priceOf(parts);
  const others = totals.map(({ currency }) => currency).filter((currency) => currency !== under.currency);
  const total = totalOf({ ...vessel, currency: under.currency }, parts);
  const sum = `${number(total)} ${under.currency}`;
  if (total >= under.amount)
    return {
      met: false,
      reason: `the parts${work(vessel)} come to ${sum}${unpriced > 0 ? ', and not all have a price' : ''}`,
    };
  if (others.length > 0)
    return {
      met: null,
      reason: `some parts are priced in ${listOf(others)}, which is not added to ${under.currency}`,
    };
  if (unpriced > 0)
    return {
      met: null,
      reason: `${count(unpriced, 'line')} of the parts list ${unpriced === 1 ? 'has' : 'have'} no price; the others come to ${sum}`,
    };
  return { met: true, reason: null };
}

function work({ labour }: Vessel): string {
  return labour === undefined ? '' : ' and the work';
}
