/** The cheapest design, against the trade's example and against trying everything. */
import { beforeAll, describe, expect, it } from 'vitest';
import { loadSolver } from '../../../src/cli/suggest/highs.js';
import { search, type Found } from '../../../src/checks/design/search.js';
import type { Solver } from '../../../src/checks/design/solver.js';
import { opened } from '../../support/opened.js';
import { cheapestByTrying, randomYard, yardText } from './trying.js';

const NOBODY = { devices: new Set<string>(), links: new Set<string>() };

let solver: Solver;
beforeAll(async () => {
  solver = await loadSolver();
});

const found = async (text: string, best = 1, keep = NOBODY): Promise<Found> =>
  search((await opened(text)).analysis.vessel, solver, { today: '2026-01-01', best, keep });

/** Two one-port displays and a black box on a switch; the catalogue has a two-port display too. */
const trade = (twoPort: number, hub: number): string => `
  vessel Boat { currency USD  slack 0.5 m }
  family Tern
  model One : display { families Tern  screen 8 in  price 900 USD  shows chart, sonar  shares chart, sonar  port net : ethernet }
  model Two : display { families Tern  screen 9 in  price ${twoPort} USD  shows chart, sonar  shares chart, sonar  bridges ethernet  port 1..2 : ethernet }
  model Box : sonar { families Tern  price 700 USD  gives sonar.live  port net : ethernet }
  model Hub : switch { price ${hub} USD  port 1..5 : ethernet }
  cable Net : ethernet { stock 3 m at 20 USD, 6 m at 30 USD }
  zone helm interior
  zone bow interior
  run helm -- bow 4 m
  device plotter : One at helm
  device bowScreen : One at bow
  device live : Box at helm
  device hub : Hub at helm
  link plotter -- hub.1 using Net
  link bowScreen -- hub.2 using Net
  link live -- hub.3 using Net
  need plotter, bowScreen show live
`;

describe('a switch, or a display with two ports (common practice, no source)', () => {
  // 2 x 900 + 700 + 200 + cables 20 + 30 + 20 = 2770 with the switch; 900 + 950 + 700 + cables 30 + 20 = 2600 without.
  it('takes the two-port display where it is cheaper, with what it saves', async () => {
    const { offers, presentCost, presentHolds } = await found(trade(950, 200));
    expect(presentCost).toBe(2770);
    expect(presentHolds).toBe(true);
    expect(offers[0]?.cost).toBe(2600);
    expect(offers[0]?.design.exchanges).toEqual([
      { device: 'plotter', from: 'One', to: 'Two', wasOpen: false },
    ]);
    expect(offers[0]?.design.dropped).toEqual(['hub']);
  });

  it('keeps the switch where that is cheaper', async () => {
    const { offers, presentCost } = await found(trade(1300, 100));
    expect(presentCost).toBe(2670);
    expect(offers[0]?.cost).toBe(2670);
    expect(offers[0]?.asItIs).toBe(true);
  });

  it('goes back to the switch from two-port displays', async () => {
    const text = trade(1300, 100)
      .replace('plotter : One', 'plotter : Two or One')
      .replace(/device hub.*\n/, '')
      .replace(
        /link [^]*?\n\s*need/,
        'link plotter -- bowScreen using Net\n link plotter -- live using Net\n need',
      );
    const { offers, presentCost } = await found(text);
    // 1300 + 900 + 700 + cables 30 + 20 = 2950 against 2670.
    expect(presentCost).toBe(2950);
    expect(offers[0]?.cost).toBe(2670);
    expect(offers[0]?.design.added.map(({ model, zone }) => [model.name, zone])).toEqual([['Hub', 'helm']]);
  });

  it('leaves what somebody keeps', async () => {
    const keep = { devices: new Set(['hub']), links: new Set<string>() };
    expect((await found(trade(950, 200), 1, keep)).offers[0]?.asItIs).toBe(true);
  });

  it('ranks designs of different gear', async () => {
    const { offers } = await found(trade(950, 200), 5);
    const costs = offers.map(({ cost }) => cost);
    expect(costs).toEqual([...costs].sort((a, b) => a - b));
    expect(new Set(offers.map(({ design }) => JSON.stringify([design.exchanges, design.dropped]))).size).toBe(
      offers.length,
    );
    expect(offers.length).toBe(5);
  });
});

describe('where nothing meets the needs', () => {
  it('names the fewest needs to give up', async () => {
    // No switch is sold, and no display has two ports: one of the three is left out.
    const text = trade(950, 200)
      .replace(/model Two.*\n/, '')
      .replace(/model Hub.*\n/, '')
      .replace(/device hub.*\n/, '')
      .replace(
        /link [^]*?\n\s*need.*/,
        'link plotter -- live using Net\n need plotter show live\n need bowScreen show live',
      );
    const { offers, nothing } = await found(text);
    expect(offers).toEqual([]);
    expect(nothing?.giveUp).toHaveLength(1);
  });

  it('says what the nearest one broke', async () => {
    const { offers, nothing } = await found(
      `${trade(950, 200)}\n model Head : transducer { port plug : transducer  gives sonar.side hd }\n device head : Head at bow\n need bowScreen show head`,
    );
    expect(offers).toEqual([]);
    expect(nothing?.nearest.map(({ rule }) => rule)).toContain('need/not-met');
  });
});

describe('against trying everything', () => {
  it('agrees on 300 random boats of up to 7 devices, cost for cost', async () => {
    let next = 20_261_125;
    const random = (): number => {
      next = (Math.imul(next, 1_103_515_245) + 12_345) >>> 0;
      return next / 2 ** 32;
    };
    const tally = { none: 0, withSwitch: 0, chosen: 0 };
    for (let number = 0; number < 300; number += 1) {
      const yard = randomYard(random);
      const text = yardText(yard);
      const { offers, nothing } = await found(text);
      const [offer] = offers;
      const expected = cheapestByTrying(yard);
      expect(offer === undefined ? nothing && 'none' : offer.cost.toFixed(2), text).toBe(
        expected === undefined ? nothing && 'none' : expected.toFixed(2),
      );
      if (offer === undefined) tally.none += 1;
      if (offer !== undefined && offer.design.added.length > 0) tally.withSwitch += 1;
      if (offer !== undefined && offer.design.exchanges.length > 0) tally.chosen += 1;
    }
    console.log('designs', tally);
    for (const count of Object.values(tally)) expect(count).toBeGreaterThan(8);
  }, 240_000);
});
