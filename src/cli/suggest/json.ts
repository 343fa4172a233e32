/** Designs for a program; docs/schemas/suggest.schema.json describes it. */
import type { Found } from '../../checks/design/search.js';
import type { Vessel } from '../../vessel/model.js';
import { changesOf, dependencesOf, freePortsOf } from '../../checks/design/offer.js';
import { currencyOf } from '../../checks/design/prices.js';
import { giveUpTexts } from './text.js';

const SUGGEST_FORMAT = '1.0';

export function suggestJson(vessel: Vessel, found: Found): string {
  const rounded = (amount: number): number => Math.round(amount * 100) / 100;
  const value = {
    format: SUGGEST_FORMAT,
    vessel: vessel.name,
    currency: currencyOf(vessel) ?? null,
    presentCost: rounded(found.presentCost),
    presentHolds: found.presentHolds,
    designs: found.offers.map((offer, index) => ({
      rank: index + 1,
      cost: rounded(offer.cost),
      saving: rounded(found.presentCost - offer.cost),
      changes: changesOf(offer.design),
      freePorts: freePortsOf(offer),
      dependsOn: dependencesOf(offer.analysis),
    })),
    giveUp: giveUpTexts(found),
    nearest: (found.nothing?.nearest ?? []).map(({ rule, message }) => ({ rule, message })),
    unpriced: found.unpriced,
    stopped: found.stopped,
  };
  return `${JSON.stringify(value, undefined, 2)}\n`;
}
