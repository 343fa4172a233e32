/** Ethernet and sonar. Facts of the trade: common practice, no source. */
import { describe, expect, it } from 'vitest';
import { analyse } from '../../src/checks/analyse.js';
import { boat, model, port, range } from '../support/vessel.js';
import { look, said, twins, unknown } from '../support/twins.js';
import { MODELS } from '../support/fleet.js';

describe('the network', () => {
  const devices = {
    a: 'Tern8',
    b: 'Tern13',
    c: 'Tern8',
    s: 'Skua9',
    hub: 'Switch5',
    cam: 'Camera2',
    beam: 'BeamHd',
  };
  twins(
    'net/family-mix',
    'two families on one segment',
    { devices, links: ['a -- hub', 's -- hub'] },
    [/^device a: on the ethernet segment of a, a \(Tern\) and s \(Skua\) have no family in common/],
    { devices, links: ['a -- hub', 'cam -- hub'] },
  );
  twins(
    'net/loop',
    'a loop',
    { devices: { ...devices, hub2: 'Switch5' }, links: ['hub -- hub2', 'b.net1 -- hub', 'b.net2 -- hub2'] },
    [/^device b: the ethernet goes round in a loop: (\w+ -- ){3}\w+\. /],
    { devices: { ...devices, hub2: 'Switch5' }, links: ['hub -- hub2', 'b.net1 -- hub'] },
  );
  it('a loop of two links between two switches is one too, and a plain two-port device closes none', () => {
    expect(
      said({ devices: { x: 'Switch5', y: 'Switch5' }, links: ['x.1 -- y.1', 'x.2 -- y.2'] }, 'net/loop'),
    ).toHaveLength(1);
    const twoPort = model('Server', 'camera', { ports: [port('p', 'ethernet'), port('q', 'ethernet')] });
    expect(
      said(
        { models: [twoPort], devices: { x: 'Switch5', y: 'Server' }, links: ['x.1 -- y.p', 'x.2 -- y.q'] },
        'net/loop',
      ),
    ).toEqual([]);
  });
  twins(
    'net/isolated',
    'a third display that is not on the segment',
    { devices: { a: 'Tern8', b: 'Tern13', c: 'Tern8' }, links: ['a -- b.net1'] },
    [
      /^device c: c has no ethernet path to its family Tern \(a and b\), so it lacks chart of a, waypoints of a, chart of b and waypoints of b.*Link it to b.net2/,
    ],
    { devices: { a: 'Tern8', b: 'Tern13', c: 'Tern8' }, links: ['a -- b.net1', 'c -- b.net2'] },
  );
  it('a lone radar head of a family is information', () => {
    const radarBoat = { devices: { a: 'Tern8', r: 'Radar18' } };
    const found = look(radarBoat).findings.filter(
      (finding) => finding.rule === 'net/isolated' && finding.at.origin === 'device r',
    );
    expect(found.map((finding) => finding.severity)).toEqual(['information']);
  });
  twins(
    'net/through-power',
    'a chain through a display',
    { devices, links: ['a -- b.net1', 'c -- b.net2', 'beam -- c.sonar'] },
    [/^device b: the network goes through b: with it off, a loses \S+ of c.* and c loses chart of a/],
    { devices, links: ['a -- hub', 'b.net1 -- hub', 'c -- hub', 'beam -- c.sonar'] },
  );
  twins(
    'net/too-long',
    'over a hundred metres',
    { devices, links: ['a -- hub using Reel length 101'] },
    [/is 101 m long, and copper ethernet carries 100 m at most/],
    { devices, links: ['a -- hub using Reel length 100'] },
  );
});

describe('sonar', () => {
  const devices = { good: 'Tern8', plain: 'Tern7', beam: 'BeamHd', std: 'BeamStd' };
  twins(
    'sonar/host-grade',
    'high definition on a standard port',
    { devices, links: ['beam -- plain.sonar'] },
    [
      'link beam -- plain.sonar[b]: plain cannot host beam: its port sonar accepts standard grade, beam is high-definition, so no screen gets its picture. Link it to good.sonar, which accepts hd.',
    ],
    { devices, links: ['beam -- good.sonar', 'std -- plain.sonar'] },
  );
  it('offers the repair', () => {
    const [finding] = look({ devices, links: ['beam -- plain.sonar'] }).findings.filter(
      (one) => one.rule === 'sonar/host-grade',
    );
    expect(finding?.repairs).toEqual([
      {
        title: 'Link it to good.sonar',
        preferred: true,
        change: {
          kind: 'replace',
          at: { origin: 'link beam -- plain.sonar', part: 'b' },
          text: 'good.sonar',
        },
      },
    ]);
  });
  it('is unknown where the port does not say what it accepts', () => {
    const vague = model('Vague', 'display', { ports: [port('sonar', 'transducer')], shows: ['sonar'] });
    expect(
      unknown(
        { models: [vague], devices: { v: 'Vague', beam: 'BeamHd' }, links: ['beam -- v.sonar'] },
        'sonar/host-grade',
      ),
    ).toEqual(['the model of v does not say which grade port sonar accepts']);
  });
  twins(
    'sonar/no-host',
    'a transducer that is linked to nothing',
    { devices },
    [/^device beam: beam is linked to nothing.*Link it to good.sonar, which accepts hd/, /^device std/],
    { devices: { ...devices, beam: 'BeamHd existing', std: 'BeamStd' }, links: ['std -- plain'] },
  );
  const pair = { one: 'Tern8', two: 'Tern8', b1: 'BeamHd', b2: 'BeamHd' };
  const links = ['b1 -- one.sonar', 'b2 -- two.sonar'];
  const host = model('Twin', 'sonar', {
    ports: range(2, 'transducer', { accepts: 'hd' }),
    shares: ['sonar'],
  });
  twins(
    'sonar/same-band',
    'two transducers of two hosts in one band',
    { devices: pair, links },
    [/^device b1: b1 \(on one\) and b2 \(on two\) both work at 455 kHz/],
    { models: [host], devices: { h: 'Twin', b1: 'BeamHd', b2: 'BeamHd' }, links: ['b1 -- h', 'b2 -- h'] },
  );
  it('is silent where they are synchronised, or never on together', () => {
    const vessel = boat({ models: MODELS, devices: pair, links });
    const synced = {
      ...vessel,
      devices: vessel.devices.map((one) => (one.name === 'b2' ? { ...one, syncedWith: ['b1'] } : one)),
    };
    const on = (...names: string[]) =>
      names.map((device) => ({ kind: 'on', device, duty: undefined, atMax: false }) as const);
    const modes = (...lists: string[][]) => ({
      ...vessel,
      modes: lists.map((names, index) => ({
        origin: `mode m${String(index)}`,
        name: `m${String(index)}`,
        duties: on(...names),
      })),
    });
    const rules = (one: typeof vessel): number =>
      analyse(one, { today: '2026-06-01' }).findings.filter((finding) => finding.rule === 'sonar/same-band')
        .length;
    expect([
      rules(vessel),
      rules(synced),
      rules(modes(['one'], ['two'])),
      rules(modes(['one', 'two'])),
    ]).toEqual([1, 0, 0, 1]);
  });
  twins(
    'sonar/power',
    'more output than the transducer takes',
    { devices, links: ['std -- good.sonar'] },
    [/drives up to 500 W, and std takes 300 W/],
    { devices, links: ['beam -- good.sonar'] },
  );
});
