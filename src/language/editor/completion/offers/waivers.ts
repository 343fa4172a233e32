/** Rules that an `allow` may name. */
import { RULES } from '../../../../checks/rules.js';
import { around } from '../place.js';
import { partsOf, textOf } from '../reading/parts.js';
import { kinds } from '../suggestion.js';
import type { Offer } from './offer.js';

/** Rules that can be waived and are not yet, those that report something on the declaration first. */
export const rules: Offer = (place, boat) => {
  const owner = place.owners[0]?.part;
  const there = new Set(
    owner ? partsOf(place.whole(owner), 'allows').flatMap((a) => textOf(a, 'rule') ?? []) : [],
  );
  const reported = new Set(owner?.first ? boat.reportedAt(owner.first.line) : []);
  return RULES.filter((rule) => rule.waivable && !there.has(rule.code)).map((rule) => ({
    label: rule.code,
    kind: kinds.rule,
    detail: rule.summary,
    text: `${rule.code} because `,
    snippet: `${rule.code} because "\${1:reason}"`,
    rank: reported.has(rule.code) ? 0 : 1,
    ...(isReasoned(place) ? { text: rule.code, snippet: rule.code } : {}),
  }));
};

/** The reason is written already. */
function isReasoned(place: Parameters<Offer>[0]): boolean {
  const allow = around(place, 'Allow');
  return allow !== undefined && textOf(place.whole(allow), 'reason') !== undefined;
}
