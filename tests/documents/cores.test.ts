/** What the core table says of conductors: one where a terminal has one pole, two where a device has both. */
import { describe, expect, it } from 'vitest';
import { analyse } from '../../src/checks/analyse.js';
import type { Analysis } from '../../src/checks/analysis.js';
import { backboneCores, joinedNegatives, serialCores, supplyCores } from '../../src/documents/cores.js';
import { EXAMPLES, example } from './boats.js';

/** `panel.1 - plotter.power: L+ panel.1 > plotter.power, L- ...` of each leg. */
const said = (analysis: Analysis): readonly string[] =>
  supplyCores(analysis).map(({ edge, leg, cores }) => {
    const list = cores.map(({ name, colour, from, to }) => `${name} ${colour ?? ''} ${from} > ${to}`);
    return `${edge.from ?? '?'} - ${leg.to ?? '?'}: ${list.join('; ')}`;
  });

describe('the cores of a supply', () => {
  it('are one from a battery to a switch, and two from a panel to what draws', async () => {
    const legs = said(await example('kittiwake/kittiwake'));
    expect(legs).toContain('house.post - cutoff.a: L+ RD house, + post, fuse 80 A > cutoff.a');
    expect(legs).toContain(
      'panel.1 - plotter.power: L+ RD panel.1 > plotter.power; L- BK panel, - bar > plotter.power',
    );
    expect(legs).toContain(
      'house.post - pump.power: L+ RD house, + post, fuse 3 A > pump.power; L- BK house, - post > pump.power',
    );
  });

  it("lead a panel's negative past the switch, back to the battery that feeds it", async () => {
    const kittiwake = said(await example('kittiwake/kittiwake'));
    expect(kittiwake).toContain(
      'cutoff.b - panel.in: L+ RD cutoff.b > panel.in; L- BK house, - post > panel, - bar',
    );
    const razorbill = said(await example('motoryacht/razorbill'));
    expect(razorbill).toContain(
      'houseSwitch.b - panel24.in: L+ RD houseSwitch.b > panel24.in; L- YE house, - post > panel24, - bar',
    );
    // Two batteries feed the busbar.
    expect(razorbill.filter((leg) => leg.includes('common negative'))).toHaveLength(3);
  });

  it('have the negative of an engine once, beside the cable of its starter', async () => {
    for (const name of EXAMPLES) {
      const legs = said(await example(name));
      const engines = legs.flatMap((leg) => /L- \S+ (.*engine negative.*)$/.exec(leg)?.[1] ?? []);
      expect(engines).toEqual([...new Set(engines)]);
      for (const leg of legs.filter((one) => one.includes('.charge - '))) expect(leg).not.toContain('L-');
    }
    expect(said(await example('kittiwake/kittiwake')).join('\n')).toContain(
      'startSwitch.b - engineP.starter: L+ RD startSwitch.b > engineP.starter; L- BK start, - post > engineP, engine negative',
    );
  });

  it('have a negative for every device that draws, and none between switches, busbars and batteries', async () => {
    for (const name of EXAMPLES) {
      const analysis = await example(name);
      const classOf = (terminal: string | undefined): string => {
        const found = analysis.supply.terminals.get(terminal ?? '');
        return found?.kind === 'port' ? found.model.class : 'backbone';
      };
      const one = new Set(['battery', 'batteryswitch', 'busbar', 'combiner', 'chargesplitter', 'shunt']);
      let single = 0;
      for (const { edge, leg, cores } of supplyCores(analysis)) {
        const classes = [classOf(edge.from), classOf(leg.to)];
        const names = cores.map((core) => core.name);
        if (classes.every((kind) => one.has(kind))) {
          expect(names).toEqual(['L+']);
          single += 1;
        } else if (!classes.includes('engine')) expect(names).toEqual(['L+', 'L-']);
        expect(edge.feed?.existing).not.toBe(true);
      }
      if (name !== 'sailing/whimbrel') expect(single).toBeGreaterThan(1);
    }
  });

  it('are yellow for the negative where alternating current is aboard, and black where it is not', async () => {
    const analysis = await example('motoryacht/razorbill');
    const colours = (one: Analysis): readonly unknown[] => [
      ...new Set(
        [...supplyCores(one).flatMap(({ cores }) => cores), ...joinedNegatives(one)]
          .filter(({ name }) => name === 'L-')
          .map(({ colour }) => colour),
      ),
    ];
    expect(colours(analysis)).toEqual(['YE']);
    const without = {
      ...analysis.vessel,
      links: analysis.vessel.links.filter(({ b }) => b.device !== 'charger' && b.device !== 'inlet'),
    };
    expect(colours(analyse(without, { today: '2026-11-25' }))).toEqual(['BK']);
  });
});

describe('other cores', () => {
  it('join the negatives that the spec joins, unless all of them are aboard', async () => {
    expect(
      joinedNegatives(await example('motoryacht/razorbill')).map(({ from, to }) => `${from} ${to}`),
    ).toEqual(['house, - post startP, - post', 'house, - post startS, - post']);
    expect(joinedNegatives(await example('sailing/whimbrel'))).toEqual([]);
  });

  it('go from what talks to what listens on a serial line', async () => {
    const analysis = await example('sailing/whimbrel');
    const line = analysis.links.find(({ link }) => link.origin === 'link mux.out -- plotter.listen');
    if (line === undefined) throw new Error('There is no such line.');
    expect(serialCores(line).map(({ name, from, to }) => `${name} ${from} ${to}`)).toEqual([
      'A mux.out, A out plotter.listen, A in',
      'B mux.out, B out plotter.listen, B in',
    ]);
    expect(serialCores({ ...line, a: line.b, b: line.a })).toEqual(serialCores(line));
  });

  it('have the pins of NMEA 2000 where its cable comes without plugs', async () => {
    const { vessel } = await example('kittiwake/kittiwake');
    expect(backboneCores(vessel).map(({ name, from }) => `${name} ${from}`)).toContain('NET-S pin 2');
    expect(backboneCores({ ...vessel, backbones: [] })).toEqual([]);
  });
});
