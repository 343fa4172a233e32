/** The supply graph: what is joined inside devices, how switches stand, which voltage is where, how conductors lie. */
import { describe, expect, it } from 'vitest';
import { createContext } from '../../../src/checks/context.js';
import type { SupplyGraph } from '../../../src/checks/power/supply/graph.js';
import type { Backbone, Mode, Vessel } from '../../../src/vessel/model.js';
import { backbone, boat, dc, model, range, tap, type BoatParts } from '../../support/vessel.js';

const MODELS = [
  model('Lead12', 'battery', {
    volts: 12,
    lowestVolts: 11,
    chargesVolts: 14.4,
    sagsVolts: 9.6,
    resistanceOhms: 0.004,
    ccaAmps: 700,
    capacity: { ampHours: 105, atHours: 20 },
    ports: [dc('post')],
  }),
  model('Bare12', 'battery', { volts: 12, ports: [dc('post')] }),
  model('Ways', 'panel', {
    ports: [dc('in', 'in'), ...range(4, 'dc').map((port) => ({ ...dc(port.name, 'out'), group: '1..4' }))],
  }),
  model('Bus', 'busbar', { ports: [dc('1'), dc('2')] }),
  model('Cutoff', 'batteryswitch', {
    positions: [
      { name: 'off', joins: [] },
      { name: 'on', joins: ['a', 'b'] },
    ],
    ports: [dc('a'), dc('b')],
  }),
  model('Selector', 'batteryswitch', {
    positions: [
      { name: 'off', joins: [] },
      { name: '1', joins: ['in1', 'out'] },
      { name: '2', joins: ['in2', 'out'] },
      { name: 'both', joins: ['in1', 'in2', 'out'] },
    ],
    ports: [dc('in1'), dc('in2'), dc('out')],
  }),
  model('Relay', 'combiner', { closesVolts: 13.3, opensVolts: 12.8, ports: [dc('a'), dc('b')] }),
  model('Diodes', 'chargesplitter', {
    forwardVolts: 0.7,
    ports: [dc('in', 'in'), dc('out1', 'out'), dc('out2', 'out')],
  }),
  model('Down', 'converter', {
    ports: [dc('in', 'in'), dc('out', 'out', { outVolts: 13.2, limitsAmps: 30, isolated: true })],
  }),
  model('Engine', 'engine', {
    ports: [
      dc('starter', 'in', { cranks: { amps: 200, seconds: 2 } }),
      dc('charge', 'out', { outVolts: 14.2 }),
    ],
  }),
  model('Lamp', 'load', { ports: [dc('power', 'in', { draws: { amount: 1, unit: 'A' } })] }),
];

const graphOf = (parts: BoatParts): SupplyGraph => createContext(boat({ models: MODELS, ...parts })).supply;
const mode = (name: string, duties: Mode['duties']): Mode => ({ origin: `mode ${name}`, name, duties });
const put = (graph: SupplyGraph, terminal: string): unknown => {
  const system = graph.systemOf(terminal);
  return { id: system?.id, nominal: system?.nominalVolts, volts: system?.volts, missing: system?.missing };
};

describe('systems', () => {
  it('reach through panels, busbars and switches in any position, and stop at converters', () => {
    const graph = graphOf({
      devices: {
        bank: { ...boat({ devices: { bank: 'Lead12' } }).devices[0], series: 2 } as Vessel['devices'][number],
        cutoff: 'Cutoff',
        bus: 'Bus',
        panel: 'Ways',
        down: 'Down',
        lamp: 'Lamp',
      },
      feeds: [
        'bank -> cutoff',
        'cutoff -> bus.1',
        'bus.2 -> panel',
        'panel.1 -> down.in',
        'down.out -> lamp',
      ],
    });
    const house = { id: 'bank', nominal: 24, volts: { low: 22, high: 28.8 }, missing: undefined };
    expect(put(graph, 'panel.4')).toEqual(house);
    expect(put(graph, 'down.in')).toEqual(house);
    expect(put(graph, 'lamp.power')).toEqual({
      id: 'down.out',
      nominal: 12,
      volts: { low: 13.2, high: 13.2 },
      missing: undefined,
    });
  });

  it('are fed through diodes one way, less what the diode costs', () => {
    const graph = graphOf({
      devices: { engine: 'Engine', diodes: 'Diodes', bank: 'Lead12', lamp: 'Lamp' },
      feeds: ['engine.charge -> diodes.in', 'diodes.out1 -> bank', 'diodes.out2 -> lamp'],
    });
    expect(put(graph, 'diodes.in')).toMatchObject({ volts: { low: 14.2, high: 14.2 } });
    expect(put(graph, 'lamp.power')).toMatchObject({ volts: { low: 13.5, high: 14.2 }, nominal: 12 });
    expect(put(graph, 'diodes.out1')).toMatchObject({ id: 'bank', volts: { low: 11, high: 14.4 } });
    expect(graph.systemOf('bank.post')?.fedThroughDiodes).toEqual(['diodes.in']);
  });

  it('are unknown where a battery does not say its range, or nothing feeds them', () => {
    const graph = graphOf({
      devices: { bank: 'Bare12', lamp: 'Lamp', lost: 'Lamp' },
      feeds: ['bank -> lamp'],
    });
    expect(put(graph, 'lamp.power')).toEqual({
      id: 'bank',
      nominal: 12,
      volts: undefined,
      missing: 'Bare12 does not say its lowest',
    });
    expect(put(graph, 'lost.power')).toMatchObject({ volts: undefined, missing: 'nothing feeds it' });
  });

  it('have no class where their banks differ', () => {
    const [one] = boat({ devices: { two: 'Lead12' } }).devices;
    const graph = graphOf({
      devices: { one: 'Lead12', two: { ...one, series: 2 } as Vessel['devices'][number], sel: 'Selector' },
      feeds: ['one -> sel.in1', 'two -> sel.in2'],
    });
    expect(graph.systemOf('sel.out')?.banks.map((bank) => bank.device)).toEqual(['one', 'two']);
    expect(put(graph, 'sel.out')).toMatchObject({ nominal: undefined, volts: { low: 11, high: 28.8 } });
  });
});

describe('a bank', () => {
  it('has the figures of all its batteries', () => {
    const [device] = boat({ devices: { bank: 'Lead12' } }).devices;
    const graph = graphOf({
      devices: { bank: { ...device, series: 2, parallel: 3 } as Vessel['devices'][number] },
    });
    // Two in series: twice the voltage and resistance. Three strings: three times the capacity, a third of the resistance.
    expect(graph.bankAt('bank.post')).toMatchObject({
      nominalVolts: 24,
      lowestVolts: 22,
      chargesVolts: 28.8,
      ampHours: 315,
      ccaAmps: 2100,
      ohms: (0.004 * 2) / 3,
      shortCircuitAmps: undefined,
    });
  });
});

describe('the state', () => {
  const parts: BoatParts = {
    devices: {
      one: 'Lead12',
      two: 'Lead12',
      sel: 'Selector',
      relay: 'Relay',
      engine: 'Engine',
      panel: 'Ways',
    },
    feeds: [
      'one -> sel.in1',
      'two -> sel.in2',
      'sel.out -> panel',
      'one -> relay.a',
      'two -> relay.b',
      'engine.charge -> one',
    ],
  };
  const graph = graphOf(parts);
  const closedIn = (state: ReturnType<SupplyGraph['stateIn']>): Record<string, boolean | undefined> =>
    Object.fromEntries(
      graph.joins
        .filter((join) => join.kind === 'switch' || join.kind === 'combiner')
        .map((join) => [`${join.a}+${join.b}`, state.closed(join)]),
    );

  it('of a switch is what the mode sets, else what its device says, else not known', () => {
    expect(closedIn(graph.stateIn())).toMatchObject({ 'sel.in1+sel.out': undefined });
    expect(graph.stateIn().switches.get('sel')).toEqual({
      device: 'sel',
      position: undefined,
      by: undefined,
    });
    const one = graph.stateIn(mode('one', [{ kind: 'set', device: 'sel', position: '1' }]));
    expect(closedIn(one)).toMatchObject({
      'sel.in1+sel.out': true,
      'sel.in2+sel.out': false,
      'sel.in1+sel.in2': false,
    });
    const both = graph.stateIn(mode('both', [{ kind: 'set', device: 'sel', position: 'both' }]));
    expect(closedIn(both)).toMatchObject({ 'sel.in1+sel.out': true, 'sel.in2+sel.out': true });
    expect(both.switches.get('sel')?.by).toBe('mode');
  });

  it('of a combiner is closed while a source that reaches its voltage charges', () => {
    const resting = graph.stateIn();
    expect(closedIn(resting)['relay.a+relay.b']).toBe(false);
    const running = graph.stateIn(mode('under way', [{ kind: 'charge', device: 'engine', level: 0.5 }]));
    expect(closedIn(running)['relay.a+relay.b']).toBe(true);
    expect(running.combined.get('relay')).toBe('engine');
    const idle = graph.stateIn(mode('idle', [{ kind: 'charge', device: 'engine', level: 0 }]));
    expect(closedIn(idle)['relay.a+relay.b']).toBe(false);
  });
});

describe('a conductor', () => {
  const zones = ['cabin interior', 'engines machinery', 'helm sheltered'];
  const runs = ['cabin -- engines 4 loom', 'helm -- cabin 2 conduit 32'];

  it('is as long as its way and the slack at both ends, to each of its loads', () => {
    const graph = graphOf({
      zones,
      runs,
      slack: 0.5,
      devices: { panel: 'Ways @ cabin', near: 'Lamp @ helm', far: 'Lamp @ engines', lost: 'Lamp' },
      feeds: ['panel.1 -> near, far, lost'],
    });
    const [edge] = graph.edges;
    expect(edge?.legs.map((leg) => [leg.to, leg.lengthMetres, leg.engineSpace, leg.missing])).toEqual([
      ['near.power', 3, false, undefined],
      ['far.power', 5, true, undefined],
      ['lost.power', undefined, undefined, 'the zone of lost is not known'],
    ]);
    expect(edge?.legs.map((leg) => leg.bundles.map((run) => run.origin))).toEqual([
      ['run cabin -- helm'],
      ['run cabin -- engines'],
      [],
    ]);
  });

  it('knows what lies in the same conduit or loom', () => {
    const graph = graphOf({
      zones,
      runs,
      devices: { panel: 'Ways @ cabin', one: 'Lamp @ engines', two: 'Lamp @ engines', three: 'Lamp @ helm' },
      feeds: ['panel.1 -> one', 'panel.2 -> two', 'panel.3 -> three'],
    });
    const [loom] = graph.edges[0]?.legs[0]?.bundles ?? [];
    expect(loom && graph.sharing(loom).map((edge) => edge.text)).toEqual([
      'panel.1 -> one',
      'panel.2 -> two',
    ]);
  });

  it('ends at the stretch of a backbone that its tap feeds', () => {
    const items: Backbone['items'] = [
      tap('nav', 'panel.1'),
      { kind: 'isolate', origin: 'backbone nav/isolate' },
      tap('nav', 'panel.2'),
    ];
    const graph = graphOf({
      devices: { bank: 'Lead12', panel: 'Ways' },
      feeds: ['bank -> panel'],
      backbones: [backbone('nav', items)],
    });
    expect(graph.edges.map((edge) => [edge.kind, edge.legs[0]?.to])).toEqual([
      ['feed', 'panel.in'],
      ['tap', 'backbone nav'],
      ['tap', 'backbone nav (2)'],
    ]);
    expect(graph.systemOf('backbone nav (2)')?.id).toBe('bank');
  });
});
