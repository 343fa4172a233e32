/** Compares two revisions of a boat: what is different aboard, and what follows from it. */
import type { Analysis } from '../../checks/analysis.js';
import { priceOf } from '../../checks/parts/price.js';
import { compareText } from '../../vessel/words.js';
import type { Comparison, Gained, Money } from './model.js';
import { busChanges, cableChanges, deviceChanges, feedChanges, type Renamed } from './objects.js';
import { findRenames } from './renames.js';
import { supplyChanges } from './supply.js';

/** Names in what comes out are those of the newer revision; a device that is gone keeps its own. */
export function compare(before: Analysis, after: Analysis): Comparison {
  const { forward } = findRenames(before.vessel, after.vessel);
  const renamed: Renamed = (name) => forward.get(name) ?? name;
  const inText = (text: string): string => renamedIn(text, forward);
  const changes = [
    ...deviceChanges(before, after, renamed),
    ...cableChanges(before, after, renamed),
    ...feedChanges(before, after, renamed),
    ...busChanges(before, after, renamed),
  ];
  const met = [metNeeds(before, inText), metNeeds(after, identity)] as const;
  const needs = differ(met[0], met[1]);
  const kept = new Set([...met[0]].filter((need) => met[1].has(need)));
  const views = differ(seen(before, renamed), seen(after, identity));
  const findings = differFindings(findingsOf(before, inText), findingsOf(after, identity));
  const pulled = changes.filter((one) => one.what === 'cable' && one.action === 'added');
  const takenOut = changes.filter((one) => one.what === 'cable' && one.action === 'removed');
  const sum = (list: typeof pulled): number => list.reduce((total, one) => total + (one.metres ?? 0), 0);
  const asked = differ(needTexts(before, inText), needTexts(after, identity));
  // What nobody asks for any more is not lost, and what was not asked for before is met anew.
  const stillAsked = needs.lost.filter((text) => !asked.lost.includes(text));
  const gainedNeeds = needs.gained.filter((text) => !asked.gained.includes(text));
  const prices = [priceOf(before.parts()), priceOf(after.parts())] as const;
  return {
    changes,
    supply: supplyChanges(before, after, renamed),
    needs: { gained: gainedNeeds, lost: stillAsked },
    asked,
    views,
    findings,
    singlePoints: differ(singlePoints(before, inText, kept), singlePoints(after, identity, kept)),
    money: moneyOf(prices[0].totals, prices[1].totals),
    unpriced: { before: prices[0].unpriced, after: prices[1].unpriced },
    metres: {
      toPull: sum(pulled),
      toTakeOut: sum(takenOut),
      unknown: [...pulled, ...takenOut].filter((one) => one.metres === null).length,
    },
    regression: stillAsked.length + views.lost.length + findings.newErrors > 0,
  };
}

/** Whether anything aboard, or anything that is said of it, is different. */
export function isSame(found: Comparison): boolean {
  const { changes, supply, needs, asked, views, findings, singlePoints, money, unpriced } = found;
  const none = [needs, asked, views, findings, singlePoints].every(
    ({ gained, lost }) => gained.length + lost.length === 0,
  );
  const cost =
    money.every((one) => Math.abs(one.after - one.before) < 0.005) && unpriced.before === unpriced.after;
  return changes.length + supply.length === 0 && none && cost;
}

const identity = (text: string): string => text;

/** Names of renamed devices inside a text, whole words alone. */
function renamedIn(text: string, forward: ReadonlyMap<string, string>): string {
  if (forward.size === 0) return text;
  return text.replace(/[\p{L}_][\p{L}\p{N}_]*/gu, (word) => forward.get(word) ?? word);
}

function differ(before: ReadonlySet<string>, after: ReadonlySet<string>): Gained {
  const only = (one: ReadonlySet<string>, other: ReadonlySet<string>): string[] =>
    [...one].filter((text) => !other.has(text)).sort(compareText);
  return { gained: only(after, before), lost: only(before, after) };
}

const metNeeds = (analysis: Analysis, name: Renamed): ReadonlySet<string> =>
  new Set(analysis.needs.filter(({ met }) => met === true).map(({ text }) => name(text)));

const needTexts = (analysis: Analysis, name: Renamed): ReadonlySet<string> =>
  new Set(analysis.needs.map(({ text }) => name(text)));

/** What each screen shows of other devices. */
function seen(analysis: Analysis, name: Renamed): ReadonlySet<string> {
  const all = new Set<string>();
  for (const screen of analysis.screens)
    for (const { source, signal } of analysis.sources)
      if (source !== screen && analysis.answer(screen, source, signal).visible === true)
        all.add(`${name(screen)}: ${signal} of ${name(source)}`);
  return all;
}

/** Open findings by what they are about, so that one whose numbers changed is still the same. */
function findingsOf(
  analysis: Analysis,
  name: Renamed,
): ReadonlyMap<string, { text: string; isError: boolean }> {
  return new Map(
    analysis.findings
      .filter(({ waived }) => waived === null)
      .map(({ rule, severity, message, at }) => [
        [rule, severity, name(at.origin), at.part ?? ''].join('\n'),
        { text: `${severity} ${rule}: ${name(message)}`, isError: severity === 'error' },
      ]),
  );
}

function differFindings(before: ReturnType<typeof findingsOf>, after: typeof before): Comparison['findings'] {
  const only = (one: typeof before, other: typeof before): { text: string; isError: boolean }[] =>
    [...one].filter(([key]) => !other.has(key)).map(([, finding]) => finding);
  const [fresh, fixed] = [only(after, before), only(before, after)];
  const texts = (list: typeof fresh): string[] => list.map(({ text }) => text).sort(compareText);
  return {
    gained: texts(fresh),
    lost: texts(fixed),
    newErrors: fresh.filter(({ isError }) => isError).length,
    fixedErrors: fixed.filter(({ isError }) => isError).length,
  };
}

/** Elements that cost a need by failing alone; of needs that both revisions meet, so that one that is lost takes none with it. */
function singlePoints(analysis: Analysis, name: Renamed, kept: ReadonlySet<string>): ReadonlySet<string> {
  return new Set(
    analysis
      .failures()
      .failures.filter(({ needsLost }) => needsLost.some((need) => kept.has(name(need))))
      // A fuse of another rating in the same place is the same point.
      .map(({ kind, name: element }) =>
        kind === 'fuse' ? name(element.replace(/^(\w+) [\d.]+ A/, '$1')) : `${kind} ${name(element)}`,
      ),
  );
}

function moneyOf(
  before: readonly { readonly currency: string; readonly amount: number }[],
  after: readonly { readonly currency: string; readonly amount: number }[],
): readonly Money[] {
  const amount = (list: typeof before, currency: string): number =>
    list.find((one) => one.currency === currency)?.amount ?? 0;
  return [...new Set([...before, ...after].map(({ currency }) => currency))]
    .sort(compareText)
    .map((currency) => ({
      currency,
      before: amount(before, currency),
      after: amount(after, currency),
    }));
}
