/**
 * Power over ethernet (IEEE 802.3af, at and bt): what a class is worth at the source and at the device, and what is lost in between.
 * The rows are the standard's; each loss follows from the least voltage and the loop resistance of 100 m (net over four pairs for
 * classes 5 to 8), which is a derivation.
 */

export interface PoeClass {
  readonly sourceWatts: number;
  readonly deviceWatts: number;
  /** The least voltage at the source. */
  readonly leastVolts: number;
  /** There and back over 100 m. */
  readonly ohmsPer100Metres: number;
}

/** Length for which the standard's resistances are. */
const CHANNEL_METRES = 100;

const CLASSES: Readonly<Record<number, PoeClass>> = {
  0: { sourceWatts: 15.4, deviceWatts: 12.95, leastVolts: 44, ohmsPer100Metres: 20 },
  1: { sourceWatts: 4, deviceWatts: 3.84, leastVolts: 44, ohmsPer100Metres: 20 },
  2: { sourceWatts: 7, deviceWatts: 6.49, leastVolts: 44, ohmsPer100Metres: 20 },
  3: { sourceWatts: 15.4, deviceWatts: 12.95, leastVolts: 44, ohmsPer100Metres: 20 },
  4: { sourceWatts: 30, deviceWatts: 25.5, leastVolts: 50, ohmsPer100Metres: 12.5 },
  5: { sourceWatts: 45, deviceWatts: 40, leastVolts: 50, ohmsPer100Metres: 6.25 },
  6: { sourceWatts: 60, deviceWatts: 51, leastVolts: 50, ohmsPer100Metres: 6.25 },
  7: { sourceWatts: 75, deviceWatts: 62, leastVolts: 52, ohmsPer100Metres: 6.25 },
  8: { sourceWatts: 90, deviceWatts: 71.3, leastVolts: 52, ohmsPer100Metres: 6.25 },
};

/** A class by its number; undefined where the standard has none of it. */
export function poeClass(number: number): PoeClass | undefined {
  return Object.hasOwn(CLASSES, number) ? CLASSES[number] : undefined;
}

/** Power lost in a cable: the current that the source sends, squared, times the resistance there and back. */
export function lossWatts(sourceWatts: number, volts: number, ohms: number): number {
  return (sourceWatts / volts) ** 2 * ohms;
}

/** What a source has to give so that a device of a class has all of its power at the end of so much cable. */
export function sourceWattsOver(found: PoeClass, metres: number): number {
  const ohms = (found.ohmsPer100Metres * Math.max(0, metres)) / CHANNEL_METRES;
  if (ohms === 0) return found.deviceWatts;
  // The smaller root of P - (P / V)^2 R = device: the power rises from nought as the device asks for more.
  const inside = 1 - (4 * ohms * found.deviceWatts) / found.leastVolts ** 2;
  if (inside < 0) return found.sourceWatts;
  const needed = (found.leastVolts ** 2 / (2 * ohms)) * (1 - Math.sqrt(inside));
  return Math.min(needed, Math.max(found.sourceWatts, found.deviceWatts));
}
