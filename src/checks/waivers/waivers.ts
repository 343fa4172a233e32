/**
 * Waivers: which findings are covered, and what there is to say of the waivers themselves. A waiver is keyed by a rule and
 * the declaration it stands on, and changes counts, never findings.
 */
import type { Vessel, Waiver } from '../../vessel/model.js';
import type { Origin } from '../../vessel/origin.js';
import type { Finding } from '../finding.js';
import { findingKey, type Variant } from '../options/variant.js';
import type { RuleInfo } from '../rule.js';

interface Waived {
  /** The findings, those that a waiver covers marked with its reason, and those about waivers after them. */
  readonly findings: readonly Finding[];
}

/**
 * Apply the waivers of a vessel. `today` is an ISO date; a waiver holds until the end of its date. `find` knows the rules. A waiver on an
 * option covers what the option brings, wherever it is found; and what an option leaves a waiver of the base without is not said.
 */
export function applyWaivers(
  vessel: Vessel,
  findings: readonly Finding[],
  today: string,
  find: (code: string) => RuleInfo | undefined,
  variant?: Variant,
): Waived {
  const live = new Map<string, Waiver>();
  const about: Finding[] = [];
  for (const waiver of vessel.waivers) {
    const info = find(waiver.rule);
    if (info?.waivable !== true) about.push(unknownRule(waiver, info));
    else if (isPast(waiver, today)) about.push(expired(waiver));
    else if (live.has(keyOf(waiver.on, waiver.rule)))
      about.push(unused(waiver, 'another waiver of the same rule stands there'));
    else live.set(keyOf(waiver.on, waiver.rule), waiver);
  }
  const enclosing = enclosingOrigins(vessel);
  const known = new Set(variant?.base.map(findingKey));
  const byOption = (finding: Finding): Waiver | undefined => {
    if (!variant || known.has(findingKey(finding))) return undefined;
    for (const option of variant.options) {
      const waiver = live.get(keyOf(option.origin, finding.rule));
      if (waiver) return waiver;
    }
    return undefined;
  };
  const used = new Set<Waiver>();
  const marked = findings.map((finding): Finding => {
    const around = enclosing.get(finding.at.origin);
    const waiver =
      live.get(keyOf(finding.at.origin, finding.rule)) ??
      (around === undefined ? undefined : live.get(keyOf(around, finding.rule))) ??
      byOption(finding);
    if (waiver === undefined) return finding;
    used.add(waiver);
    return { ...finding, waived: waiver.reason };
  });
  const ofOptions = new Set(variant?.options.flatMap((option) => option.waivers));
  for (const waiver of live.values())
    if (!used.has(waiver) && find(waiver.rule)?.apart !== true && (!variant || ofOptions.has(waiver)))
      about.push(unused(waiver, `nothing of that kind is found there`));
  return { findings: [...marked, ...about] };
}

function keyOf(on: Origin, rule: string): string {
  return `${rule}\n${on}`;
}

/** A waiver on a view covers its panes, and one on a backbone its items. */
function enclosingOrigins(vessel: Vessel): ReadonlyMap<Origin, Origin> {
  const table = new Map<Origin, Origin>();
  for (const view of vessel.views) for (const pane of view.panes) table.set(pane.origin, view.origin);
  for (const backbone of vessel.backbones)
    for (const item of backbone.items) table.set(item.origin, backbone.origin);
  return table;
}

/** ISO dates compare as text. A date that is not one counts as past. */
function isPast(waiver: Waiver, today: string): boolean {
  return waiver.until !== undefined && (!/^\d{4}-\d{2}-\d{2}$/u.test(waiver.until) || waiver.until < today);
}

function about(rule: string, waiver: Waiver, severity: Finding['severity'], message: string): Finding {
  const at = { origin: waiver.origin };
  return {
    rule,
    severity,
    message,
    at,
    related: [],
    repairs: [{ title: 'Remove the waiver', preferred: true, change: { kind: 'remove', at } }],
    waived: null,
  };
}

function unused(waiver: Waiver, why: string): Finding {
  return about(
    'allow/unused',
    waiver,
    'warning',
    `allow ${waiver.rule} waives nothing: ${why}. Remove it, so that it does not hide a fault to come.`,
  );
}

function expired(waiver: Waiver): Finding {
  const date =
    waiver.until === 'malformed' || waiver.until === undefined
      ? 'its date is not a date'
      : `it ran to ${waiver.until}`;
  return about(
    'allow/expired',
    waiver,
    'warning',
    `allow ${waiver.rule} no longer holds: ${date}. Put the fault right, remove the waiver, or give it a new date.`,
  );
}

function unknownRule(waiver: Waiver, info: RuleInfo | undefined): Finding {
  const why = info === undefined ? `there is no rule ${waiver.rule}` : `${waiver.rule} cannot be waived`;
  return about(
    'allow/unknown',
    waiver,
    'error',
    `${why}, so this allow has no effect. Remove it${info === undefined ? ', or name the rule that the finding shows' : ' and put the fault right'}.`,
  );
}
