/**
 * Batteries: what they can give, and for how long. Currents are amperes, charges ampere-hours, times hours, shares 0..1.
 *
 * Peukert's law is W. Peukert, "Über die Abhängigkeit der Kapazität von der Entladestromstärke bei Bleiakkumulatoren" (1897),
 * in the form with the rated hours that makers print: t = H (C / (I H))^k.
 */
import type { Interval } from './model.js';

/** What kinds of cells have in common. */
export type CellKind = 'lead' | 'lithium';

/** Chemistries as models name them. */
const KINDS: Readonly<Record<string, CellKind>> = {
  lead: 'lead',
  flooded: 'lead',
  efb: 'lead',
  agm: 'lead',
  gel: 'lead',
  lfp: 'lithium',
  nmc: 'lithium',
  lto: 'lithium',
};

/** The kind of a chemistry; undefined where it is not stated, or not one that is known here. */
export function cellKind(chemistry: string | undefined): CellKind | undefined {
  return chemistry !== undefined && Object.hasOwn(KINDS, chemistry) ? KINDS[chemistry] : undefined;
}

/** How deep a bank is planned to be drawn where its model does not say: common practice, no source. */
const DEPTHS: Readonly<Record<CellKind, number>> = { lead: 0.5, lithium: 0.8 };

/** Range of Peukert's exponent by chemistry: figures that makers publish, the widest of them. Lithium: common practice, no source. */
const EXPONENTS: Readonly<Record<string, Interval>> = {
  flooded: { low: 1.2, high: 1.6 },
  agm: { low: 1.05, high: 1.15 },
  gel: { low: 1.1, high: 1.25 },
  lead: { low: 1.05, high: 1.6 },
  efb: { low: 1.05, high: 1.6 },
  lfp: { low: 1, high: 1.05 },
  nmc: { low: 1, high: 1.05 },
  lto: { low: 1, high: 1.05 },
};

/** Share of the charge put in that can be taken out again: common practice, no source. */
const RETURNS: Readonly<Record<CellKind, number>> = { lead: 0.85, lithium: 0.98 };

/** The depth that a bank is planned to be drawn to: the model's own, else that of its kind. */
export function plannedDepth(
  chemistry: string | undefined,
  stated: number | undefined,
): { readonly depth: number; readonly stated: boolean } | undefined {
  if (stated !== undefined) return { depth: stated, stated: true };
  const kind = cellKind(chemistry);
  return kind === undefined ? undefined : { depth: DEPTHS[kind], stated: false };
}

/** Peukert's exponent: the model's own, else the range of its chemistry; undefined where neither is known. */
export function peukertRange(
  chemistry: string | undefined,
  stated: number | undefined,
): Interval | undefined {
  if (stated !== undefined) return { low: stated, high: stated };
  return chemistry !== undefined && Object.hasOwn(EXPONENTS, chemistry) ? EXPONENTS[chemistry] : undefined;
}

/** Share of a charge that comes out again; undefined where the chemistry is not known. */
export function chargeReturn(chemistry: string | undefined): number | undefined {
  const kind = cellKind(chemistry);
  return kind === undefined ? undefined : RETURNS[kind];
}

/**
 * Hours that a battery of `ampHours` at the rate of `ratedHours` carries `amps`, after Peukert:
 * t = H (C / (I H))^k. Lithium has k near 1.
 */
export function peukertHours(ampHours: number, ratedHours: number, amps: number, exponent: number): number {
  if (!(amps > 0)) return Infinity;
  return ratedHours * (ampHours / (amps * ratedHours)) ** exponent;
}

/** The one-ampere form: hours a battery lasts whose capacity is C at 1 A, t = C / I^k. */
export function peukertHoursAtOneAmp(ampHours: number, amps: number, exponent: number): number {
  return amps > 0 ? ampHours / amps ** exponent : Infinity;
}

/**
 * What drawing an ampere-hour at `amps` takes of the rated capacity: (I H / C)^(k - 1). Not under one: below the rated current
 * the formula would promise more than the rated capacity, which no maker does.
 */
export function peukertFactor(ampHours: number, ratedHours: number, amps: number, exponent: number): number {
  if (!(amps > 0) || !(ampHours > 0)) return 1;
  return Math.max(1, ((amps * ratedHours) / ampHours) ** (exponent - 1));
}

/** Ampere-hours that can be drawn at a current before the depth is reached; never more than the rated capacity gives. */
export function usableAmpHours(
  ampHours: number,
  ratedHours: number,
  amps: number,
  exponent: number,
  depth: number,
): number {
  return (ampHours * depth) / peukertFactor(ampHours, ratedHours, amps, exponent);
}
