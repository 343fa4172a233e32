/** What the checks know of a vessel with options laid over it: its base, and what is wrong with the options themselves. */
import type { OptionFault, VesselOption } from '../../vessel/options/model.js';
import type { Finding } from '../finding.js';

export interface Variant {
  readonly options: readonly VesselOption[];
  /** Findings of the base vessel. */
  readonly base: readonly Finding[];
  readonly faults: readonly OptionFault[];
}

/** What tells a finding from every other of a vessel. */
export function findingKey({ rule, at, message }: Finding): string {
  return [rule, at.origin, at.part ?? '', message].join('\n');
}

export function faultFindings(faults: readonly OptionFault[]): readonly Finding[] {
  return faults.map(({ kind, at, message, related }) => ({
    rule: `option/${kind}`,
    severity: 'error',
    message,
    at: { origin: at },
    related: related.map((one) => ({ at: { origin: one.at }, message: one.message })),
    repairs: [],
    waived: null,
  }));
}
