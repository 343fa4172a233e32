/** What a rule is: its entry in the registry, and the check itself where the analysis runs it. */
import type { Context } from './context.js';
import type { Finding, Outcome, Related, Repair, Severity, Spot, Unknown } from './finding.js';

/** A rule as documentation, waivers and faces know it. */
export interface RuleInfo {
  /** `group/name`. */
  readonly code: string;
  readonly group: string;
  /** Every severity it can have, the usual one first. */
  readonly severities: readonly Severity[];
  /** One line: when it holds. */
  readonly summary: string;
  /** Whether an `allow` may cover it. */
  readonly waivable: boolean;
  /** Not run with every check but looked for apart, so that a waiver of it may find nothing to waive. */
  readonly apart?: boolean;
}

/** A rule that the analysis of a vessel runs. */
export interface Rule extends RuleInfo {
  readonly run: (context: Context) => Outcome;
}

/** What a rule writes of a finding; the rest is filled in. */
export interface Draft {
  readonly message: string;
  readonly at: Spot;
  readonly severity?: Severity;
  readonly related?: readonly Related[];
  readonly repairs?: readonly Repair[];
}

/** Where a rule puts what it has to say. */
export interface Report {
  readonly find: (draft: Draft) => void;
  /** Something could not be judged: what is missing, as "Dome has no od". */
  readonly unknown: (at: Spot, missing: string) => void;
}

/** Make a rule of its description and its check. The group is the code's first word. */
export function rule(
  info: Omit<RuleInfo, 'group' | 'waivable'> & { readonly waivable?: boolean },
  check: (context: Context, report: Report) => void,
): Rule {
  const usual = info.severities[0] ?? 'error';
  return {
    code: info.code,
    group: groupOf(info.code),
    severities: info.severities,
    summary: info.summary,
    waivable: info.waivable ?? true,
    run: (context) => {
      const findings: Finding[] = [];
      const unknowns: Unknown[] = [];
      check(context, {
        find: (draft) =>
          findings.push({
            rule: info.code,
            severity: draft.severity ?? usual,
            message: draft.message,
            at: draft.at,
            related: draft.related ?? [],
            repairs: draft.repairs ?? [],
            waived: null,
          }),
        unknown: (at, missing) => unknowns.push({ rule: info.code, at, missing }),
      });
      return { findings, unknowns };
    },
  };
}

/** The part of a code before the stroke; the whole where there is none. */
export function groupOf(code: string): string {
  const stroke = code.indexOf('/');
  return stroke < 0 ? code : code.slice(0, stroke);
}
