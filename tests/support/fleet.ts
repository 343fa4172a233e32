/** A small catalogue for tests of the checks: displays of two families, sonar, network, bus and supply gear. All invented. */
import type { Cable, Model } from '../../src/vessel/model.js';
import { cable, dc, model, port, range, serial, signals } from './vessel.js';

const SHOWS = ['chart', 'waypoints', 'sonar', 'radar', 'video'];
const SHARES = ['chart', 'waypoints', 'sonar'];
const power = dc('power', 'in');

function display(name: string, family: string, nets: number, accepts: 'hd' | 'standard'): Model {
  const ports = Array.from({ length: nets }, (_, index) =>
    port(nets === 1 ? 'net' : `net${String(index + 1)}`, 'ethernet', { sealed: true }),
  );
  return model(name, 'display', {
    families: [family],
    ports: [
      ...ports,
      port('sonar', 'transducer', { accepts, outputWatts: 500 }),
      port('n2k', 'nmea2000'),
      serial('listen', 'listens'),
      power,
    ],
    shows: SHOWS,
    shares: SHARES,
    bridges: nets > 1 ? ['ethernet'] : [],
    wants: signals('position', 'heading', 'depth', 'wind'),
    ingress: ['IPX6', 'IPX7'],
  });
}

const plug = port('plug', 'transducer', { captive: { lengthMetres: 9, odMetres: 0.007, headMetres: 0.022 } });

export const MODELS: readonly Model[] = [
  display('Tern13', 'Tern', 2, 'hd'),
  display('Tern8', 'Tern', 1, 'hd'),
  display('Tern7', 'Tern', 1, 'standard'),
  display('Skua9', 'Skua', 1, 'hd'),
  model('BeamHd', 'transducer', {
    ports: [plug],
    gives: signals('sonar.side hd', 'sonar.down hd'),
    bandsHertz: [
      { low: 455e3, high: 455e3 },
      { low: 8e5, high: 8e5 },
    ],
    takesWatts: 600,
  }),
  model('BeamStd', 'transducer', {
    ports: [plug],
    gives: signals('sonar.traditional standard'),
    bandsHertz: [{ low: 2e5, high: 2e5 }],
    takesWatts: 300,
  }),
  model('LiveBox', 'sonar', {
    ports: [port('net', 'ethernet'), port('head', 'transducer', { accepts: 'hd' }), power],
    shares: ['sonar'],
    families: ['Tern'],
  }),
  model('LiveHead', 'transducer', {
    ports: [plug],
    gives: signals('sonar.live hd'),
    bandsHertz: [{ low: 1.1e6, high: 1.1e6 }],
  }),
  model('Switch5', 'switch', {
    ports: [...range(5, 'ethernet', { sealed: true }), power],
    bridges: ['ethernet'],
  }),
  model('Coupler', 'joint', { ports: [port('a', 'ethernet'), port('b', 'ethernet')] }),
  model('Radar18', 'radar', {
    ports: [
      port('net', 'ethernet', { captive: { lengthMetres: 10, odMetres: undefined, headMetres: undefined } }),
      power,
    ],
    gives: signals('radar'),
    families: ['Tern'],
  }),
  model('Camera2', 'camera', { ports: [port('net', 'ethernet')], gives: signals('video') }),
  model('Gnss10', 'gnss', { ports: [port('n2k', 'nmea2000')], gives: signals('position') }),
  model('OldLog', 'instrument', { ports: [serial('out', 'talks'), power], gives: signals('depth', 'speed') }),
  model('Mux', 'gateway', {
    ports: [serial('in', 'listens'), serial('out', 'talks'), port('n2k', 'nmea2000')],
    passes: [
      { from: ['in'], to: 'n2k', filter: { kind: 'without', messages: ['128259', 'VHW'] } },
      { from: ['n2k'], to: 'out', filter: undefined },
    ],
  }),
  model('PilotBrain', 'pilot', {
    ports: [port('n2k', 'nmea2000'), power],
    wants: signals('heading', 'position'),
  }),
  model('Battery', 'battery', { ports: [dc('post')] }),
  model('Panel8', 'panel', { ports: [dc('in', 'in'), ...range(8, 'dc', dcOut())] }),
  model('Cutoff', 'batteryswitch', {
    ports: [dc('a'), dc('b')],
    positions: [{ name: 'on', joins: ['a', 'b'] }],
  }),
  model('Selector', 'batteryswitch', {
    ports: [dc('in1'), dc('in2'), dc('out')],
    positions: [
      { name: '1', joins: ['in1', 'out'] },
      { name: '2', joins: ['in2', 'out'] },
      { name: 'both', joins: ['in1', 'in2', 'out'] },
    ],
  }),
  model('Pump', 'load', { ports: [power] }),
  model('Extension3', 'joint', { lengthMetres: 3 }),
];

function dcOut(): { readonly dc: ReturnType<typeof dc>['dc'] } {
  return { dc: dc('way', 'out').dc };
}

export const CABLES: readonly Cable[] = [
  cable('SealedNet', 'ethernet', {
    sealed: true,
    odMetres: 0.0065,
    headMetres: 0.024,
    stock: [2, 6, 12].map((lengthMetres) => ({
      lengthMetres,
      price: { amount: lengthMetres * 10, currency: 'USD' },
    })),
  }),
  cable('Patch', 'ethernet', {
    odMetres: 0.006,
    stock: [1, 5].map((lengthMetres) => ({ lengthMetres, price: undefined })),
  }),
  cable('Reel', 'ethernet', { odMetres: 0.006 }),
  cable('MicroTrunk', 'nmea2000', { odMetres: 0.006 }),
];
