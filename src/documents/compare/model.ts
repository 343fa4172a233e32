/** What changes aboard between two revisions of a boat, as plain data. */

/** `replugged`: between the same two devices, on another port. */
export type Action = 'added' | 'removed' | 'renamed' | 'exchanged' | 'moved' | 'changed' | 'replugged';

export interface Change {
  readonly what: 'device' | 'cable' | 'feed' | 'bus';
  readonly action: Action;
  /** Its name now; where it is gone, its name before. */
  readonly name: string;
  /** What is different, as text: the model, the zone, the fuse; null where there is nothing on that side. */
  readonly before: string | null;
  readonly after: string | null;
  /** Length of a cable to pull or to take out; null where it is not known or not a cable. */
  readonly metres: number | null;
}

export interface Figure<T> {
  readonly before: T | null;
  readonly after: T | null;
}

/** What is different at a conductor or at a device on a backbone, whether its own text changed or not; null where nothing is. */
export interface SupplyChange {
  /** `panel.1 -> plotter`, or `gnss on backbone nav`. */
  readonly at: string;
  readonly wire: Figure<string> | null;
  readonly protection: Figure<string> | null;
  /** The most that flows. */
  readonly amps: Figure<number> | null;
  /** What arrives, from the nominal voltage; on a backbone with the battery at its lowest. */
  readonly volts: Figure<number> | null;
}

/** What holds on one side only. */
export interface Gained {
  readonly gained: readonly string[];
  readonly lost: readonly string[];
}

export interface Money {
  readonly currency: string;
  readonly before: number;
  readonly after: number;
}

export interface Comparison {
  readonly changes: readonly Change[];
  readonly supply: readonly SupplyChange[];
  readonly needs: Gained;
  /** Needs that only one of the two asks for. */
  readonly asked: Gained;
  /** "screen: signal of source". */
  readonly views: Gained;
  /** Findings that only one of the two has, waived ones aside; `gained` are new. */
  readonly findings: Gained & { readonly newErrors: number; readonly fixedErrors: number };
  /** Elements whose failure alone costs a need. */
  readonly singlePoints: Gained;
  readonly money: readonly Money[];
  /** Lines of the parts list without a price: nothing is known of what they cost. */
  readonly unpriced: { readonly before: number; readonly after: number };
  readonly metres: { readonly toPull: number; readonly toTakeOut: number; readonly unknown: number };
  /** A need or a view is lost, or there is a new error. */
  readonly regression: boolean;
}
