/** Conductor tables and formulas against what their sources print. */
import { describe, expect, it } from 'vitest';
import type { ConductorSize } from '../../src/vessel/catalogue.js';
import {
  ampacity,
  bundleFactor,
  engineSpaceFactor,
  tableAmps,
} from '../../src/vessel/conductors/ampacity.js';
import {
  circularMilsFor,
  isoDropVolts,
  ohmsPerMetre,
  sizeForDrop,
} from '../../src/vessel/conductors/drop.js';
import { isExempt, isTooThin } from '../../src/vessel/conductors/minimum.js';
import {
  breakerInterrupts,
  chooseRating,
  farthestMetres,
  largestRating,
} from '../../src/vessel/conductors/protection.js';
import { areaMm2, counterpart, nominalCmil, sizeText, sizesOf } from '../../src/vessel/conductors/sizes.js';

const awg = (size: string): ConductorSize => ({ standard: 'AWG', size });
const mm2 = (size: string): ConductorSize => ({ standard: 'mm2', size });
const FOOT = 0.3048;

// 33 CFR 183.425 Table 5, amperes; columns 60, 75, 80, 90, 105, 125 and 200 C.
const TABLE_5 = `
   18   10   10   15   20   20   25   25
   16   15   15   20   25   25   30   35
   14   20   20   25   30   35   40   45
   12   25   25   35   40   45   50   55
   10   40   40   50   55   60   70   70
    8   55   65   70   70   80   90  100
    6   80   95  100  100  120  125  135
    4  105  125  130  135  160  170  180
    3  120  145  150  155  180  195  210
    2  140  170  175  180  210  225  240
    1  165  195  210  210  245  265  280
  1/0  195  230  245  245  285  305  325
  2/0  225  265  285  285  330  355  370
  3/0  260  310  330  330  385  410  430
  4/0  300  360  385  385  445  475  510
`;

describe('33 CFR 183.425 Table 5', () => {
  const ratings = [60, 75, 80, 90, 105, 125, 200];
  for (const line of TABLE_5.trim().split('\n')) {
    const [size = '', ...cells] = line.trim().split(/\s+/);
    it(`${size} AWG`, () => {
      expect(cells).toHaveLength(7);
      expect(ratings.map((rating) => tableAmps(awg(size), rating, 'abyc'))).toEqual(cells.map(Number));
    });
  }

  it('takes the next lower column for a rating in between, and none under 60 C', () => {
    expect(tableAmps(awg('10'), 110, 'abyc')).toBe(60);
    expect(tableAmps(awg('10'), 55, 'abyc')).toBeUndefined();
  });

  it('derates in an engine space: 105 C printed, the others from memory', () => {
    expect(engineSpaceFactor(105, 'abyc')).toBe(0.85);
    // Values from memory.
    expect([60, 75, 80, 90, 125, 200].map((rating) => engineSpaceFactor(rating, 'abyc'))).toEqual([
      0.58, 0.75, 0.78, 0.82, 0.89, 1,
    ]);
  });
});

describe('ABYC E-11 bundling', () => {
  it('has the printed factors; 25 and more from memory', () => {
    expect([1, 2, 3, 4, 6, 7, 24, 25].map((count) => bundleFactor(count, 'abyc'))).toEqual([
      1, 1, 0.7, 0.6, 0.6, 0.5, 0.5, 0.4,
    ]);
  });
});

describe('ISO 10133 Table A.1 (now ISO 13297)', () => {
  // The cells that were seen in print.
  const SEEN: readonly (readonly [size: string, rating: number, amps: number])[] = [
    ['1.5', 60, 12],
    ['1.5', 105, 25],
    ['2.5', 60, 17],
    ['2.5', 105, 35],
    ['2.5', 200, 45],
    ['4', 60, 22],
    ['4', 105, 45],
    ['4', 200, 55],
    ['6', 200, 75],
    ['10', 200, 120],
    ['16', 200, 170],
    ['25', 200, 200],
    ['35', 200, 240],
    ['50', 200, 325],
    ['70', 200, 375],
    ['95', 200, 430],
    ['120', 200, 520],
    ['150', 200, 560],
  ];
  it.each(SEEN)('%s mm2 at %d C carries %d A', (size, rating, amps) => {
    expect(tableAmps(mm2(size), rating, 'iso')).toBe(amps);
  });

  it('keeps 85 to 90 C as one column (values from memory)', () => {
    expect(tableAmps(mm2('4'), 85, 'iso')).toBe(40);
    expect(tableAmps(mm2('4'), 84, 'iso')).toBe(35);
  });
});

describe('ABYC E-11 voltage drop', () => {
  it('prints CM 6271 for 12 V, 3 %, 10 A, 21 ft round trip', () => {
    expect(Math.round(circularMilsFor(10, 21, 0.36))).toBe(6271);
  });

  it('prints CM 1881 and 16 AWG for the same at 10 %', () => {
    expect(Math.round(circularMilsFor(10, 21, 1.2))).toBe(1881);
    expect(sizeForDrop(10, 21 * FOOT, 1.2, 'abyc')).toEqual(awg('16'));
  });

  // Value from memory, a consistency check only: the 5 A row of the 12 V, 3 % table.
  it('agrees with the remembered 5 A row', () => {
    const feet = [10, 15, 20, 25, 30, 40, 50, 60, 70, 80, 90, 100];
    const row = feet.map((length) => sizeForDrop(5, length * FOOT, 0.36, 'abyc')?.size);
    expect(row).toEqual(['18', '16', '14', '12', '12', '10', '10', '10', '8', '8', '8', '6']);
  });

  // Formula and minimum areas, worked by hand from the printed areas (SAE minimum, as ABYC uses it).
  const MINIMUM_AREA_ROWS: readonly (readonly [amps: number, sizes: string])[] = [
    [10, '14 10 10 8 6 6 4'],
    [15, '12 10 8 6 4 4 2'],
    [20, '10 8 6 6 4 2 2'],
    [50, '6 4 2 2 1/0 2/0 3/0'],
  ];
  it.each(MINIMUM_AREA_ROWS)('%d A at 12 V, 3 %%, by minimum areas', (amps, sizes) => {
    const got = [10, 20, 30, 40, 60, 80, 100].map(
      (feet) => sizeForDrop(amps, feet * FOOT, 0.36, 'abyc')?.size,
    );
    expect(got.join(' ')).toBe(sizes);
  });

  it('differs from what nominal areas say where the printed table does: 10 A, 20 ft is 10 AWG, not 12', () => {
    const needed = circularMilsFor(10, 20, 0.36);
    expect(Math.round(needed)).toBe(5972);
    const byNominal = sizesOf('AWG').find((size) => (nominalCmil(size) ?? 0) >= needed);
    expect(byNominal).toEqual(awg('12'));
    expect(sizeForDrop(10, 20 * FOOT, 0.36, 'abyc')).toEqual(awg('10'));
  });
});

describe('ISO 13297 voltage drop', () => {
  // Printed table: most current for 3 % of 12 V, by mm2 and metres (one way).
  it.each([
    ['0.75', 1, 16],
    ['1', 1, 22],
    ['1.5', 1, 33],
    ['2.5', 2, 27],
    ['4', 2, 44],
    ['6', 2, 66],
    ['10', 3, 73],
    ['10', 10, 22],
    ['16', 3, 117],
    ['35', 4, 192],
  ] as const)('%s mm2 over %d m carries %d A', (size, metres, amps) => {
    const perAmp = isoDropVolts(1, metres, Number(size));
    expect(Math.round(0.36 / perAmp)).toBe(amps);
  });

  it('prints 0.385 V for a masthead lamp of 1.6 A over 22 m of 1.5 mm2', () => {
    expect(isoDropVolts(1.6, 22, 1.5).toFixed(3)).toBe('0.385');
  });

  it('has 8.2 % less drop than ABYC constant for the same copper', () => {
    // K = 10.75 ohm cmil per foot is 0.01787 ohm mm2 per metre.
    const abyc = 10.75 * 5.067e-4 * (1 / FOOT);
    expect(abyc).toBeCloseTo(0.01787, 5);
    expect(1 - 0.0164 / abyc).toBeCloseTo(0.082, 3);
    expect((ohmsPerMetre(mm2('1'), 'iso') ?? 0) / 0.0164).toBeCloseTo(1, 9);
  });
});

describe('ASTM B258', () => {
  it('gives the areas of the gauges', () => {
    const rows: readonly (readonly [string, number])[] = [
      ['18', 0.823],
      ['14', 2.081],
      ['10', 5.261],
      ['6', 13.3],
      ['1/0', 53.48],
      ['4/0', 107.2],
    ];
    for (const [size, area] of rows) expect(areaMm2(awg(size))).toBeCloseTo(area, area > 50 ? 1 : 2);
  });

  it('finds the next size of the other standard', () => {
    expect(
      [awg('14'), awg('10'), mm2('2.5'), mm2('16')]
        .map((size) => counterpart(size))
        .map((size) => size && sizeText(size)),
    ).toEqual(['2.5 mm2', '6 mm2', '12 AWG', '4 AWG']);
  });
});

describe('overcurrent protection', () => {
  const outside = { ratedCelsius: 105, engineSpace: false, loadedConductors: 1 };
  const bundled = { ratedCelsius: 105, engineSpace: true, loadedConductors: 4 };

  it('limits 10 AWG, 105 C, outside an engine space to 90 A (33 CFR 183.455, ABYC E-11)', () => {
    const amps = ampacity(awg('10'), outside, 'abyc') ?? 0;
    expect(amps).toBe(60);
    expect(largestRating(amps, 'abyc')).toBe(90);
  });

  it('limits the same inside, in a bundle of four, to 45 A (ABYC E-11)', () => {
    const amps = ampacity(awg('10'), bundled, 'abyc') ?? 0;
    expect(amps).toBeCloseTo(30.6, 9);
    const limit = largestRating(amps, 'abyc');
    expect(limit).toBeCloseTo(45.9, 9);
    expect(
      chooseRating([30, 35, 40, 45, 50], {
        continuousAmps: 36,
        maxAmps: 36,
        wireLimitAmps: limit,
        deviceLimitAmps: undefined,
      }),
    ).toBe(45);
  });

  it('allows 150 % after ABYC and 100 % after ISO (ISO from memory)', () => {
    expect(largestRating(60, 'abyc')).toBe(90);
    expect(largestRating(60, 'iso')).toBe(60);
  });

  it('has the distances of 33 CFR 183.455 and ABYC: 7, 40 and 72 in; ISO 200 mm (from memory)', () => {
    const at = (sheathed: boolean, fromBattery: boolean): number =>
      Math.round(farthestMetres('abyc', { sheathed, fromBattery }) * 1000);
    expect([at(false, false), at(false, true), at(true, false), at(true, true)]).toEqual([
      178, 178, 1016, 1829,
    ]);
    expect(farthestMetres('iso', { sheathed: true, fromBattery: true })).toBe(0.2);
  });

  it('asks breakers for the interrupting capacities of the older ABYC table', () => {
    expect(
      [650, 651, 1100, 1101].map((cca) => [breakerInterrupts(cca, true), breakerInterrupts(cca, false)]),
    ).toEqual([
      [1500, 750],
      [3000, 1500],
      [3000, 1500],
      [5000, 2500],
    ]);
  });

  it("takes the maker's stated fuse where the wire allows it, and never one over the wire", () => {
    const limits = { continuousAmps: 1.4, maxAmps: 2.6, wireLimitAmps: 37.5, deviceLimitAmps: 5 };
    expect(chooseRating([3, 4, 5, 7.5, 10], limits)).toBe(5);
    expect(chooseRating([3, 4, 5, 7.5, 10], { ...limits, wireLimitAmps: 4 })).toBe(3);
    expect(chooseRating([10, 15], limits)).toBeUndefined();
  });
});

describe('minimum sizes (33 CFR 183.425 (d) to (g); ISO 10133 7.x)', () => {
  it('are 16 AWG single and 18 AWG in a sheath, 1 and 0.75 mm2', () => {
    expect([
      isTooThin(awg('18'), 'abyc', false),
      isTooThin(awg('18'), 'abyc', true),
      isTooThin(awg('16'), 'abyc', false),
    ]).toEqual([true, false, false]);
    expect([
      isTooThin(mm2('0.75'), 'iso', false),
      isTooThin(mm2('0.75'), 'iso', true),
      isTooThin(mm2('1'), 'iso', false),
    ]).toEqual([true, false, false]);
  });

  it('exempt electronics, circuits under 1 A and pigtails', () => {
    const plain = { electronics: false, amps: 3, lengthMetres: 4 };
    expect(
      [plain, { ...plain, electronics: true }, { ...plain, amps: 0.5 }, { ...plain, lengthMetres: 0.15 }].map(
        isExempt,
      ),
    ).toEqual([false, true, true, true]);
  });
});
