/** Designs for a reader at a terminal. */
import type { Found } from '../../checks/design/search.js';
import { currencyOf, moneyText } from '../../checks/design/prices.js';
import type { Vessel } from '../../vessel/model.js';
import { count, listOf } from '../../vessel/words.js';
import type { Paint } from '../terminal/colours.js';
import { printable } from '../terminal/printable.js';
import { changesOf, dependencesOf, freePortsOf } from '../../checks/design/offer.js';

export function suggestText(vessel: Vessel, found: Found, best: number, paint: Paint): string {
  const { offers, nothing, presentCost, presentHolds } = found;
  const money = (amount: number): string => moneyText(amount, currencyOf(vessel));
  const lines = [
    `${vessel.name} as written: ${money(presentCost)}${presentHolds ? '' : ', with needs unmet or errors (see "wireloft check")'}.`,
  ];
  offers.forEach((offer, index) => {
    const saving = presentCost - offer.cost;
    const against =
      Math.abs(saving) < 0.005
        ? 'the same'
        : saving > 0
          ? `saves ${money(saving)}`
          : `${money(-saving)} more`;
    lines.push('', paint.bold(`${index + 1}. ${money(offer.cost)}, ${offer.asItIs ? 'as it is' : against}`));
    for (const change of changesOf(offer.design)) lines.push(`   ${change.text}`);
    const free = freePortsOf(offer).map(({ device, count: ports }) => `${device} ${ports}`);
    lines.push(paint.dim(`   free ethernet ports: ${free.length === 0 ? 'none' : free.join(', ')}`));
    for (const { screen, on } of dependencesOf(offer.analysis))
      lines.push(
        paint.dim(
          `   ${screen} shows what it has to only while ${listOf(on)} ${on.length === 1 ? 'is' : 'are'} on`,
        ),
      );
  });
  if (nothing !== undefined) {
    lines.push('', 'No design meets every need.');
    if (nothing.giveUp.length > 0) {
      lines.push(`Without ${nothing.giveUp.length === 1 ? 'this need' : 'these needs'} there would be one:`);
      for (const text of giveUpTexts(found)) lines.push(`   ${text}`);
    }
    if (nothing.nearest.length > 0) lines.push('The nearest fails by this:');
    for (const { rule, message } of nothing.nearest) lines.push(`   ${rule}: ${message}`);
  } else if (found.stopped)
    lines.push(
      '',
      offers.length === 0 ? 'Stopped before a design was found.' : 'Stopped; there may be better ones.',
    );
  else if (offers.length < best)
    lines.push('', `There ${offers.length === 1 ? 'is no other' : 'are no others'} of different gear.`);
  if (found.unpriced.length > 0)
    lines.push(
      '',
      `Without a price, and in no total: ${listOf(found.unpriced, 'and', 8)} (${count(found.unpriced.length, 'model')} or cables).`,
    );
  return `${lines.map(printable).join('\n')}\n`;
}

/** The needs to give up, as they are written. */
export function giveUpTexts({ nothing, present }: Found): readonly string[] {
  return (nothing?.giveUp ?? []).map(
    (need) => present.needs.find(({ spot }) => spot.origin === need.origin)?.text ?? need.origin,
  );
}
