/** Batteries: hours at a current, and what can be drawn. */
/**
 * Hours that a lead-acid battery of `ampHours` at the rate of `ratedHours` carries `amps`, after Peukert:
 * t = H (C / (I H))^k. Lithium has k = 1.
 */
export function peukertHours(ampHours: number, ratedHours: number, amps: number, exponent: number): number {
  if (!(amps > 0)) return Infinity;
  return ratedHours * (ampHours / (amps * ratedHours)) ** exponent;
}

/** The one-ampere form: hours a battery lasts whose capacity is C at 1 A, t = C / I^k. */
export function peukertHoursAtOneAmp(ampHours: number, amps: number, exponent: number): number {
  return amps > 0 ? ampHours / amps ** exponent : Infinity;
}

/** Ampere-hours that can be drawn at a current before the stated depth is reached. */
export function usableAmpHours(
  ampHours: number,
  ratedHours: number,
  amps: number,
  exponent: number,
  depth: number,
): number {
  if (!(amps > 0)) return ampHours * depth;
  return peukertHours(ampHours, ratedHours, amps, exponent) * amps * depth;
}
