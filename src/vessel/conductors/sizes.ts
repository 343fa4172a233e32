/**
 * Conductor sizes: American wire gauge (ASTM B258) and metric (IEC 60228), with the areas that each practice reckons with.
 *
 * ABYC's printed voltage-drop tables follow *minimum* circular-mil areas (SAE conductors), not nominal ones; a drop worked out
 * with nominal areas is optimistic and comes to another gauge in some cells.
 */
import type { ConductorSize, Practice } from '../catalogue.js';

/** mm2 in a circular mil: (pi / 4) (0.0254 mm)^2. */
const MM2_PER_CMIL = 5.067e-4;

interface Gauge {
  readonly size: string;
  /** Nominal circular mils (NEC chapter 9, table 8). */
  readonly nominalCmil: number | undefined;
  /** Minimum circular mils (SAE, as ABYC E-11 uses them; 3/0 from memory). */
  readonly minimumCmil: number | undefined;
}

const gauge = (size: string, nominalCmil?: number, minimumCmil?: number): Gauge => ({
  size,
  nominalCmil,
  minimumCmil,
});

const GAUGES: readonly Gauge[] = [
  gauge('22'),
  gauge('20'),
  gauge('18', 1620, 1537),
  gauge('16', 2580, 2336),
  gauge('14', 4110, 3702),
  gauge('12', 6530, 5833),
  gauge('10', 10380, 9343),
  gauge('8', 16510, 14810),
  gauge('6', 26240, 24538),
  gauge('4', 41740, 37360),
  gauge('3', 52620),
  gauge('2', 66360, 62450),
  gauge('1', 83690, 77790),
  gauge('1/0', 105600, 98980),
  gauge('2/0', 133100, 125100),
  gauge('3/0', 167800, 158600),
  gauge('4/0', 211600, 205500),
];

/** Metric sizes that are sold, in mm2 (IEC 60228, class 5). */
const METRIC: readonly string[] = [
  '0.5',
  '0.75',
  '1',
  '1.5',
  '2.5',
  '4',
  '6',
  '10',
  '16',
  '25',
  '35',
  '50',
  '70',
  '95',
  '120',
  '150',
];

/** Sizes that are sold of a standard, from thin to thick. */
export function sizesOf(standard: ConductorSize['standard']): ConductorSize[] {
  return (standard === 'AWG' ? GAUGES.map((g) => g.size) : METRIC).map((size) => ({ standard, size }));
}

/**
 * Sizes that are chosen from, thin to thick: those the practice's tables print. 3 AWG stands in the ampacity table and not in
 * the voltage-drop tables, so it is taken as written and never proposed.
 */
export function choicesOf(practice: Practice): readonly ConductorSize[] {
  return CHOICES[practice];
}

const CHOICES: Readonly<Record<Practice, readonly ConductorSize[]>> = {
  abyc: GAUGES.filter((g) => g.minimumCmil !== undefined).map((g) => ({ standard: 'AWG', size: g.size })),
  iso: METRIC.filter((size) => Number(size) >= 0.75).map((size) => ({ standard: 'mm2', size })),
};

/** The gauge number: 10 for 10 AWG, 0 for 1/0, -3 for 4/0; undefined for what is no gauge. */
function gaugeNumber(size: string): number | undefined {
  const aught = /^([1-4])\/0$/.exec(size);
  if (aught) return 1 - Number(aught[1]);
  const number = Number(size);
  return size.trim() !== '' && Number.isInteger(number) && number >= 0 && number <= 40 ? number : undefined;
}

/**
 * Nominal area in mm2; undefined for what is no size. AWG: the diameter is 0.005 in times 92 to the power (36 - n) / 39
 * (ASTM B258).
 */
export function areaMm2({ standard, size }: ConductorSize): number | undefined {
  if (standard === 'mm2') {
    const area = Number(size);
    return area > 0 ? area : undefined;
  }
  // Asked thousands of times for a boat, of a few gauges: a check takes 3 ms less.
  const known = gaugeAreas.get(size);
  if (known !== undefined) return known;
  const n = gaugeNumber(size);
  if (n === undefined) return undefined;
  const diameterMm = 0.005 * 25.4 * 92 ** ((36 - n) / 39);
  const area = (Math.PI / 4) * diameterMm ** 2;
  gaugeAreas.set(size, area);
  return area;
}

/** By the gauge as it is written; there are no more than its numbers and their spellings. */
const gaugeAreas = new Map<string, number>();

/**
 * Minimum circular mils that ABYC's voltage-drop tables reckon with. For 22, 20 and 3 AWG, and for metric sizes, no minimum is
 * printed: nine tenths of the nominal area stands in, which is what the printed minima come to.
 */
export function minimumCmil(size: ConductorSize): number | undefined {
  const printed = size.standard === 'AWG' ? GAUGES.find((g) => g.size === size.size)?.minimumCmil : undefined;
  const area = areaMm2(size);
  return printed ?? (area === undefined ? undefined : (0.9 * area) / MM2_PER_CMIL);
}

/** Nominal circular mils (NEC chapter 9, table 8, else ASTM B258). */
export function nominalCmil(size: ConductorSize): number | undefined {
  const printed = size.standard === 'AWG' ? GAUGES.find((g) => g.size === size.size)?.nominalCmil : undefined;
  const area = areaMm2(size);
  return printed ?? (area === undefined ? undefined : area / MM2_PER_CMIL);
}

/** The smallest sold size of the other standard that is no thinner (within 2 %). */
export function counterpart(size: ConductorSize): ConductorSize | undefined {
  const area = areaMm2(size);
  if (area === undefined) return undefined;
  return sizesOf(size.standard === 'AWG' ? 'mm2' : 'AWG').find(
    (other) => (areaMm2(other) ?? 0) >= area * 0.98,
  );
}

/** `14 AWG`, `2.5 mm2`. */
export const sizeText = (size: ConductorSize): string => `${size.size} ${size.standard}`;
