/** What a check has to say, in plain data that every face renders. */
import type { Spot } from '../vessel/origin.js';

export type Severity = 'error' | 'warning' | 'information';

/** A place that belongs to a finding, with what it has to do with it. */
export interface Related {
  readonly at: Spot;
  readonly message: string;
}

/**
 * A repair that a face may offer, as a small change of the spec. `preferred` marks the best one; `safe` says that the meaning
 * can only get better by it.
 */
export interface Repair {
  readonly title: string;
  readonly preferred: boolean;
  readonly change:
    /** Replace a part of an element with other text. */
    | { readonly kind: 'replace'; readonly at: Spot; readonly text: string }
    /** Put text at the end of an element's head, before its block or its line's end. */
    | { readonly kind: 'append'; readonly at: Spot; readonly text: string }
    /** Remove a whole element or part. */
    | { readonly kind: 'remove'; readonly at: Spot }
    /** A new declaration on a line of its own after the element. */
    | { readonly kind: 'declare'; readonly after: Spot; readonly text: string }
    /** As `declare`, before the element. */
    | { readonly kind: 'precede'; readonly before: Spot; readonly text: string }
    /** Take an element as it is written, but for one part of it, from its place to after another one. */
    | {
        readonly kind: 'move';
        readonly at: Spot;
        readonly after: Spot;
        readonly with?: { readonly part: string; readonly text: string };
      };
}

export interface Finding {
  /** `group/name`, as in docs/rules. */
  readonly rule: string;
  readonly severity: Severity;
  /** What is wrong with these names and numbers, why it matters, what would make it right. */
  readonly message: string;
  /** The element that the repair applies to. */
  readonly at: Spot;
  readonly related: readonly Related[];
  readonly repairs: readonly Repair[];
  /** The reason of the waiver that covers it; null where none does. */
  readonly waived: string | null;
}

/** Something a rule could not judge because the spec does not state a fact. */
export interface Unknown {
  readonly rule: string;
  readonly at: Spot;
  /** What is missing: "Dome has no od". */
  readonly missing: string;
}

/** What one concern hands back. */
export interface Outcome {
  readonly findings: readonly Finding[];
  readonly unknowns: readonly Unknown[];
}

/** Counts for the last line of every report. */
export interface Counts {
  readonly error: number;
  readonly warning: number;
  readonly information: number;
  readonly waived: number;
  readonly unknown: number;
}

export type { Spot };
