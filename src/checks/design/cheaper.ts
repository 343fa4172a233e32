/** Whether the same needs can be met for less: the cheapest design against the boat as she is written. */
import type { Vessel } from '../../vessel/model.js';
import { count, listOf } from '../../vessel/words.js';
import type { Finding } from '../finding.js';
import { findRule } from '../rules.js';
import { applyWaivers } from '../waivers/waivers.js';
import { isChange, type Design } from './design.js';
import { changesOf, dependencesOf, type Dependence } from './offer.js';
import { currencyOf, moneyText } from './prices.js';
import type { Found } from './search.js';

/** A design that costs less, as plain data that may cross from one thread to another. */
export interface Cheaper {
  readonly design: Design;
  /** In the vessel's currency, with the work where she states a rate. */
  readonly cost: number;
  readonly presentCost: number;
  /** Screens that depend on others then, and do not now. */
  readonly dependences: readonly Dependence[];
  /** Models and cables without a price, in neither sum. */
  readonly unpriced: readonly string[];
}

/** Less than this, in whole units of a currency, is not worth an edit (ours, no source). */
const LEAST_SAVED = 1;

/** What a search for the best design comes to; undefined where the boat is the cheapest, or has yet to be put right. */
export function cheaperOf({
  offers,
  present,
  presentCost,
  presentHolds,
  unpriced,
}: Found): Cheaper | undefined {
  const [offer] = offers;
  // A boat that asks for nothing is always dearer than one that has nothing.
  if (offer === undefined || !presentHolds || present.needs.length === 0) return undefined;
  if (!isChange(offer.design) || presentCost - offer.cost < LEAST_SAVED) return undefined;
  const now = new Map(dependencesOf(present).map(({ screen, on }) => [screen, new Set(on)]));
  const dependences = dependencesOf(offer.analysis).flatMap(({ screen, on }) => {
    const more = on.filter((other) => now.get(screen)?.has(other) !== true);
    return more.length === 0 ? [] : [{ screen, on: more }];
  });
  return { design: offer.design, cost: offer.cost, presentCost, dependences, unpriced };
}

/** What it saves, as "170 USD". */
export function savingText(vessel: Vessel, { cost, presentCost }: Cheaper): string {
  return moneyText(presentCost - cost, currencyOf(vessel));
}

/** The finding, at the vessel's name; marked as waived where a waiver covers it. */
export function cheaperFinding(vessel: Vessel, cheaper: Cheaper, today: string): Finding {
  const { cost, presentCost, dependences, unpriced } = cheaper;
  const currency = currencyOf(vessel);
  const depends = dependences.map(
    ({ screen, on }) =>
      `${screen} then shows what it has to only while ${listOf(on)} ${on.length === 1 ? 'is' : 'are'} on`,
  );
  const left = unpriced.length === 0 ? [] : [`without a price, and in neither sum: ${listOf(unpriced)}`];
  const finding: Finding = {
    rule: 'choice/cheaper',
    severity: 'information',
    message: `${[
      `${vessel.name} can meet the same needs for ${moneyText(cost, currency)} instead of ${moneyText(presentCost, currency)}, which saves ${savingText(vessel, cheaper)}: ${changesText(cheaper.design)}`,
      ...depends,
      ...left,
      '"wireloft suggest" shows this design whole, and others',
    ].join('. ')}.`,
    at: { origin: vessel.origin },
    related: [],
    repairs: [],
    waived: null,
  };
  const { findings } = applyWaivers(vessel, [finding], today, findRule);
  return findings[0] ?? finding;
}

/** Gear by name; cables, of which there may be many, by number. */
function changesText(design: Design): string {
  const gear = changesOf(design).filter(({ kind }) => kind !== 'plug' && kind !== 'unplug');
  const out = design.unplugged.length;
  const plugs = design.plugged.length + design.replugged.length;
  return listOf(
    [
      ...gear.map(({ text }) => text),
      ...(out > 0 ? [`take out ${count(out, 'cable')}`] : []),
      ...(design.plugged.length > 0 ? [`lead ${count(design.plugged.length, 'cable')}`] : []),
      ...(plugs > design.plugged.length ? [`plug ${count(design.replugged.length, 'end')} elsewhere`] : []),
    ],
    'and',
    8,
  );
}
