/** Batteries and banks: capacity at a current, usable energy, and what a short circuit would draw. */
import type { Model } from './catalogue.js';

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

/** Depth to plan with where none is stated: half for lead-acid, 80 % for lithium iron phosphate (common practice, no source). */
export function usualDepth(chemistry: string | undefined): number | undefined {
  if (chemistry === undefined) return undefined;
  return chemistry === 'lfp' || chemistry === 'nmc' ? 0.8 : 0.5;
}

/** Exponent where none is stated: lithium 1; lead-acid is not guessed. */
export function usualExponent(chemistry: string | undefined): number | undefined {
  return chemistry === 'lfp' || chemistry === 'nmc' ? 1 : undefined;
}

/** A bank of equal batteries: `parallel` strings of `series` each. Undefined facts stay undefined. */
export interface Bank {
  readonly series: number;
  readonly parallel: number;
  readonly volts: number | undefined;
  readonly lowestVolts: number | undefined;
  readonly chargesVolts: number | undefined;
  readonly sagsVolts: number | undefined;
  readonly ampHours: number | undefined;
  readonly ratedHours: number | undefined;
  readonly resistanceOhms: number | undefined;
  readonly ccaAmps: number | undefined;
  /** Stated, else from voltage over resistance; parallel strings add, series does not. */
  readonly shortCircuitAmps: number | undefined;
}

export function bankOf(model: Model, series = 1, parallel = 1): Bank {
  const inSeries = (value: number | undefined): number | undefined =>
    value === undefined ? undefined : value * series;
  const inParallel = (value: number | undefined): number | undefined =>
    value === undefined ? undefined : value * parallel;
  const string = model.shortCircuitAmps ?? fromResistance(model);
  return {
    series,
    parallel,
    volts: inSeries(model.volts),
    lowestVolts: inSeries(model.lowestVolts),
    chargesVolts: inSeries(model.chargesVolts),
    sagsVolts: inSeries(model.sagsVolts),
    ampHours: inParallel(model.capacity?.ampHours),
    ratedHours: model.capacity?.atHours,
    resistanceOhms:
      model.resistanceOhms === undefined ? undefined : (model.resistanceOhms * series) / parallel,
    ccaAmps: inParallel(model.ccaAmps),
    shortCircuitAmps: inParallel(string),
  };
}

function fromResistance(model: Model): number | undefined {
  return model.volts !== undefined && model.resistanceOhms ? model.volts / model.resistanceOhms : undefined;
}
